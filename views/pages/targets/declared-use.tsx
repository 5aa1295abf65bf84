import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import {
  CheckField,
  type Choice,
  type FieldProblems,
  type FormKeys,
  InputField,
  PostForm,
  SelectField,
} from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

/** What the household says it eats, in its own words, and what other words would do to the year. */
export interface DeclaredUseProps {
  readonly itemId: string;
  /** "You said 1.5 pints a week since Sep 1." */
  readonly said: string;
  readonly keys: FormKeys;
  readonly values: DeclaredUseValues;
  readonly problems: FieldProblems;
  readonly countedIn: readonly Choice[];
  readonly per: readonly Choice[];
  readonly whatIf: WhatIfProps | null;
}

export interface DeclaredUseValues {
  readonly amount: string;
  readonly countedIn: string;
  readonly per: string;
  readonly people: string;
  readonly mealsPerWeek: string;
  readonly sinceOn: string;
  readonly restartsFilter: boolean;
}

export interface WhatIfProps {
  readonly words: string;
  readonly rows: readonly WhatIfRow[];
  /** Why the year hardly moves, when it does not; null when it does. */
  readonly why: string | null;
}

export interface WhatIfRow {
  readonly what: string;
  readonly now: string;
  readonly instead: string;
}

export const DeclaredUse = (props: DeclaredUseProps) => {
  const { values, problems } = props;
  return (
    <Part id="declared-use" title="In your own words" line={props.said}>
      <PostForm
        action={`/targets/${props.itemId}/declared-use`}
        keys={props.keys}
        replaces="#declared-use"
        problems={problems}
        label="How much you eat"
      >
        <div class="form-row">
          <InputField
            form="use"
            name="amount"
            label="How much you eat"
            value={values.amount}
            inputMode="decimal"
            width="short"
            problem={problems.amount}
          />
          <SelectField
            form="use"
            name="countedIn"
            label="Counted in"
            value={values.countedIn}
            choices={props.countedIn}
            problem={problems.countedIn}
          />
          <SelectField
            form="use"
            name="per"
            label="Every"
            value={values.per}
            choices={props.per}
            problem={problems.per}
          />
        </div>
        <details class="declared-more" open={moreIsNeeded(props)}>
          <summary>For meals, servings, or a change of habit</summary>
          <div class="declared-more-fields">
            <InputField
              form="use"
              name="mealsPerWeek"
              label="Such meals a week"
              hint="Only when you count by the meal."
              value={values.mealsPerWeek}
              inputMode="decimal"
              width="short"
              problem={problems.mealsPerWeek}
            />
            <InputField
              form="use"
              name="people"
              label="People who eat it"
              hint="Only when you count in servings."
              value={values.people}
              inputMode="decimal"
              width="short"
              problem={problems.people}
            />
            <InputField
              form="use"
              name="sinceOn"
              type="date"
              label="Since"
              value={values.sinceOn}
              problem={problems.sinceOn}
            />
            <CheckField
              form="use"
              name="restartsFilter"
              label="A change of habit: what you ate before this day no longer counts"
              checked={values.restartsFilter}
              problem={problems.restartsFilter}
            />
          </div>
        </details>
        <p class="page-actions">
          <Button weight="main" name="intent" value="save">
            Save
          </Button>
          <Button name="intent" value="try">
            What would it do to the year?
          </Button>
        </p>
      </PostForm>
      {props.whatIf === null ? null : <WhatIf {...props.whatIf} />}
    </Part>
  );
};

const moreIsNeeded = ({ values, problems }: DeclaredUseProps): boolean =>
  values.per === 'meal' ||
  values.countedIn === 'servings' ||
  values.restartsFilter ||
  ['mealsPerWeek', 'people', 'sinceOn', 'restartsFilter'].some((name) => problems[name] !== undefined);

const WhatIf = ({ words, rows, why }: WhatIfProps) => (
  <div class="what-if" role="status">
    <p>
      <strong>{words}</strong>
    </p>
    <DataTable
      caption="The year now, and with these words"
      stacks={false}
      columns={[
        { title: 'a year', heading: true },
        { title: 'now', kind: 'number' },
        { title: 'then', kind: 'number' },
      ]}
      rows={rows.map((row) => ({ key: row.what, cells: [row.what, row.now, row.instead] }))}
    />
    {why === null ? null : <p>{why}</p>}
    <p class="quiet">Nothing has been saved yet.</p>
  </div>
);
