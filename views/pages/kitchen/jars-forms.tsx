import { counted } from '../../../shared/counting.ts';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type Choice, InputField, RadioField, SelectField } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { type FormState, hasProblems } from './form-state.ts';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export type JarHoldingValues = Readonly<Record<'jarKind' | 'empty' | 'price' | 'pack', string>>;
export type JarChangeValues = Readonly<Record<'jarKind' | 'change' | 'jars', string>>;
export type LidValues = Readonly<Record<'mouth' | 'onHand' | 'box' | 'boxPrice', string>>;

export interface JarsProps {
  readonly holdings: readonly JarHoldingLine[];
  readonly lids: readonly LidLine[];
  readonly jarKinds: readonly Choice[];
  readonly holding: FormState<JarHoldingValues>;
  readonly change: FormState<JarChangeValues>;
  readonly lid: FormState<LidValues>;
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
  keys,
  values,
  problems,
}: FormState<JarChangeValues> & { jarKinds: readonly Choice[] }) => (
  <details class="fold" open={Object.keys(problems).length > 0}>
    <summary>Jars that came back, broke or were bought</summary>
    <KitchenForm
      part="jars"
      action="/kitchen/jars/changes"
      keys={keys}
      problems={problems}
      label="Changes of jars"
    >
      <SelectField
        form="jar-changes"
        name="jarKind"
        label="Jar"
        value={values.jarKind}
        choices={jarKinds}
        problem={problems.jarKind}
      />
      <RadioField
        form="jar-changes"
        name="change"
        label="What happened"
        value={values.change}
        choices={jarChangeChoices}
        problem={problems.change}
      />
      <InputField
        form="jar-changes"
        name="jars"
        label="How many jars"
        value={values.jars}
        inputMode="numeric"
        width="short"
        problem={problems.jars}
      />
      <p>
        <Button weight="main">Write it down</Button>
      </p>
    </KitchenForm>
  </details>
);

const JarHoldingForm = ({
  jarKinds,
  keys,
  values,
  problems,
}: FormState<JarHoldingValues> & { jarKinds: readonly Choice[] }) => (
  <details class="fold" open={Object.keys(problems).length > 0}>
    <summary>Count your empty jars</summary>
    <KitchenForm part="jars" action="/kitchen/jars" keys={keys} problems={problems} label="Jars">
      <SelectField
        form="jars"
        name="jarKind"
        label="Jar"
        value={values.jarKind}
        choices={jarKinds}
        problem={problems.jarKind}
      />
      <div class="form-row">
        <InputField
          form="jars"
          name="empty"
          label="Empty now"
          hint="The full ones count from the shelf."
          value={values.empty}
          inputMode="numeric"
          width="short"
          problem={problems.empty}
        />
      </div>
      <div class="form-row">
        <InputField
          form="jars"
          name="pack"
          label="New ones come in packs of"
          value={values.pack}
          inputMode="numeric"
          width="short"
          problem={problems.pack}
        />
        <InputField
          form="jars"
          name="price"
          label="Price of a pack"
          value={values.price}
          inputMode="decimal"
          width="short"
          money
          problem={problems.price}
        />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </KitchenForm>
  </details>
);

const LidForm = ({ keys, values, problems }: FormState<LidValues>) => (
  <details class="fold" open={Object.keys(problems).length > 0}>
    <summary>Count your new lids</summary>
    <KitchenForm part="jars" action="/kitchen/lids" keys={keys} problems={problems} label="Lids">
      <RadioField
        form="lids"
        name="mouth"
        label="Mouth"
        value={values.mouth}
        choices={[
          { value: 'regular', words: 'regular' },
          { value: 'wide', words: 'wide' },
        ]}
        problem={problems.mouth}
      />
      <InputField
        form="lids"
        name="onHand"
        label="New lids on hand"
        value={values.onHand}
        inputMode="numeric"
        width="short"
        problem={problems.onHand}
      />
      <div class="form-row">
        <InputField
          form="lids"
          name="box"
          label="They come in boxes of"
          value={values.box}
          inputMode="numeric"
          width="short"
          problem={problems.box}
        />
        <InputField
          form="lids"
          name="boxPrice"
          label="Price of a box"
          value={values.boxPrice}
          inputMode="decimal"
          width="short"
          money
          problem={problems.boxPrice}
        />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </KitchenForm>
  </details>
);
