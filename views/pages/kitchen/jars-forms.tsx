import { counted } from '../../../shared/counting.ts';
import type { jarChangeForm, jarHoldingForm, lidForm } from '../../../shared/schemas/kitchen.ts';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { hasProblems, InputField, RadioField, SelectField, type StateOf } from '../../parts/fields.tsx';
import type { Choice } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export interface JarsProps {
  readonly holdings: readonly JarHoldingLine[];
  readonly lids: readonly LidLine[];
  readonly jarKinds: readonly Choice[];
  readonly holding: StateOf<typeof jarHoldingForm>;
  readonly change: StateOf<typeof jarChangeForm>;
  readonly lid: StateOf<typeof lidForm>;
}

export interface JarHoldingLine {
  readonly kind: string;
  readonly words: string;
  readonly owned: string;
  readonly full: string;
  readonly empty: string;
  readonly away: string;
  readonly price: string;
}

export interface LidLine {
  readonly mouth: string;
  /** "38 new lids, wide mouth; a box of 12 costs $6" */
  readonly words: string;
}

/** Jars by size and mouth, full and empty; lids, used once. */
export const Jars = ({ holdings, lids, jarKinds, holding, change, lid, said }: JarsProps & Said) => (
  <Part
    id="jars"
    title="Jars and lids"
    said={said}
    folded={{
      words: counted(holdings.length, 'kind of jar', 'kinds of jar'),
      open: hasProblems(holding, change, lid),
    }}
    line="Owned counts the full ones on the shelf, the empty ones, and those you gave away that will come back. A lid is used once."
  >
    {holdings.length === 0 ? (
      <EmptyState text="No jars have been counted yet." />
    ) : (
      <DataTable
        caption="Jars owned"
        columns={[
          { title: 'jar', heading: true },
          { title: 'owned', kind: 'number' },
          { title: 'full', kind: 'number' },
          { title: 'empty', kind: 'number' },
          { title: 'away', kind: 'number' },
          { title: 'new ones' },
        ]}
        rows={holdings.map((line) => ({
          key: line.kind,
          cells: [line.words, line.owned, line.full, line.empty, line.away, line.price],
        }))}
      />
    )}
    <ul class="lid-lines">
      {lids.map((line) => (
        <li key={line.mouth}>{line.words}</li>
      ))}
    </ul>
    <div class="two-columns">
      <JarHoldingForm jarKinds={jarKinds} {...holding} />
      <LidForm {...lid} />
    </div>
    {holdings.length === 0 ? null : <JarChangeForm jarKinds={jarKinds} {...change} />}
  </Part>
);

const jarChangeChoices: readonly Choice[] = [
  { value: 'came-back', words: 'Came back' },
  { value: 'broke', words: 'Broke, empty' },
  { value: 'given', words: 'Given away, empty' },
  { value: 'bought', words: 'Bought' },
];

const JarChangeForm = ({
  jarKinds,
  ...form
}: StateOf<typeof jarChangeForm> & { jarKinds: readonly Choice[] }) => (
  <details class="fold" open={hasProblems(form)}>
    <summary>Jars that came back, broke or were bought</summary>
    <KitchenForm part="jars" action="/kitchen/jars/changes" form={form} label="Changes of jars">
      <SelectField form={form} name="jarKind" label="Jar" choices={jarKinds} />
      <RadioField form={form} name="change" label="What happened" choices={jarChangeChoices} />
      <InputField form={form} name="jars" label="How many jars" inputMode="numeric" width="short" />
      <p>
        <Button weight="main">Write it down</Button>
      </p>
    </KitchenForm>
  </details>
);

const JarHoldingForm = ({
  jarKinds,
  ...form
}: StateOf<typeof jarHoldingForm> & { jarKinds: readonly Choice[] }) => (
  <details class="fold" open={hasProblems(form)}>
    <summary>Count your empty jars</summary>
    <KitchenForm part="jars" action="/kitchen/jars" form={form} label="Jars">
      <SelectField form={form} name="jarKind" label="Jar" choices={jarKinds} />
      <div class="form-row">
        <InputField
          form={form}
          name="empty"
          label="Empty now"
          hint="The full ones count from the shelf."
          inputMode="numeric"
          width="short"
        />
      </div>
      <div class="form-row">
        <InputField
          form={form}
          name="pack"
          label="New ones come in packs of"
          inputMode="numeric"
          width="short"
        />
        <InputField
          form={form}
          name="price"
          label="Price of a pack"
          inputMode="decimal"
          width="short"
          money
        />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </KitchenForm>
  </details>
);

const LidForm = (form: StateOf<typeof lidForm>) => (
  <details class="fold" open={hasProblems(form)}>
    <summary>Count your new lids</summary>
    <KitchenForm part="jars" action="/kitchen/lids" form={form} label="Lids">
      <RadioField
        form={form}
        name="mouth"
        label="Mouth"
        choices={[
          { value: 'regular', words: 'regular' },
          { value: 'wide', words: 'wide' },
        ]}
      />
      <InputField form={form} name="onHand" label="New lids on hand" inputMode="numeric" width="short" />
      <div class="form-row">
        <InputField form={form} name="box" label="They come in boxes of" inputMode="numeric" width="short" />
        <InputField
          form={form}
          name="boxPrice"
          label="Price of a box"
          inputMode="decimal"
          width="short"
          money
        />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </KitchenForm>
  </details>
);
