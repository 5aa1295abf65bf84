import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type Choice, InputField, PostForm, RadioField, SelectField } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import type { FormState } from './form-state.ts';

export type JarHoldingValues = Readonly<Record<'jarKind' | 'owned' | 'price' | 'pack', string>>;
export type LidBoxValues = Readonly<Record<'mouth' | 'lids' | 'boughtOn', string>>;

export interface JarsProps {
  readonly holdings: readonly JarHoldingLine[];
  readonly lids: readonly LidLine[];
  readonly jarKinds: readonly Choice[];
  readonly holding: FormState<JarHoldingValues>;
  readonly lidBox: FormState<LidBoxValues>;
}

export interface JarHoldingLine {
  readonly kind: string;
  readonly words: string;
  readonly owned: string;
  readonly full: string;
  readonly empty: string;
  readonly price: string;
}

export interface LidLine {
  readonly mouth: string;
  readonly onHand: string;
}

/** Jars by size and mouth, full and empty; lids, used once. */
export const Jars = ({ holdings, lids, jarKinds, holding, lidBox }: JarsProps) => (
  <Part
    id="jars"
    title="Jars and lids"
    line="Empty jars come back as full ones are eaten; a lid is used once."
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
          { title: 'new ones' },
        ]}
        rows={holdings.map((line) => ({
          key: line.kind,
          cells: [line.words, line.owned, line.full, line.empty, line.price],
        }))}
      />
    )}
    <ul class="lid-lines">
      {lids.map((line) => (
        <li key={line.mouth}>{`${line.mouth}: ${line.onHand}`}</li>
      ))}
    </ul>
    <div class="two-columns">
      <JarHoldingForm jarKinds={jarKinds} {...holding} />
      <LidBoxForm {...lidBox} />
    </div>
  </Part>
);

const JarHoldingForm = ({
  jarKinds,
  keys,
  values,
  problems,
}: FormState<JarHoldingValues> & { jarKinds: readonly Choice[] }) => (
  <details class="fold" open={Object.keys(problems).length > 0}>
    <summary>Say how many jars there are</summary>
    <PostForm action="/kitchen/jars" keys={keys} problems={problems} label="Jars">
      <SelectField
        form="jars"
        name="jarKind"
        label="Jar"
        value={values.jarKind}
        choices={jarKinds}
        problem={problems.jarKind}
      />
      <InputField
        form="jars"
        name="owned"
        label="Owned in all, full and empty"
        value={values.owned}
        inputMode="numeric"
        width="short"
        problem={problems.owned}
      />
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
          unit="$"
          problem={problems.price}
        />
      </div>
      <p>
        <Button>Save</Button>
      </p>
    </PostForm>
  </details>
);

const LidBoxForm = ({ keys, values, problems }: FormState<LidBoxValues>) => (
  <details class="fold" open={Object.keys(problems).length > 0}>
    <summary>Lids bought</summary>
    <PostForm action="/kitchen/lids" keys={keys} problems={problems} label="Lids bought">
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
        name="lids"
        label="Lids"
        value={values.lids}
        inputMode="numeric"
        width="short"
        problem={problems.lids}
      />
      <InputField
        form="lids"
        name="boughtOn"
        type="date"
        label="Bought on"
        value={values.boughtOn}
        problem={problems.boughtOn}
      />
      <p>
        <Button>Save</Button>
      </p>
    </PostForm>
  </details>
);
