import type { declaredUseForm } from '../../../shared/schemas/declared-use.ts';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { CheckField, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

/** What the household says it eats, in its own words, and what other words would do to the year. */
export interface DeclaredUseProps {
  readonly itemId: string;
  /** "You said 1.5 pints a week since Sep 1." */
  readonly said: string;
  readonly form: StateOf<typeof declaredUseForm, 'itemId'>;
  readonly countedIn: readonly Choice[];
  readonly per: readonly Choice[];
  readonly whatIf: WhatIfProps | null;
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
  const { form } = props;
  return (
    <Part id="declared-use" title="In your own words" line={props.said}>
      <PostForm
        action={`/targets/${props.itemId}/declared-use`}
        form={form}
        replaces="#declared-use"
        label="How much you eat"
      >
        <div class="form-row">
          <InputField form={form} name="amount" label="How much you eat" inputMode="decimal" width="short" />
          <SelectField form={form} name="countedIn" label="Counted in" choices={props.countedIn} />
          <SelectField form={form} name="per" label="Every" choices={props.per} />
        </div>
        <details class="declared-more" open={moreIsNeeded(props)}>
          <summary>For meals, servings, or a change of habit</summary>
          <div class="declared-more-fields">
            <InputField
              form={form}
              name="mealsPerWeek"
              label="Such meals a week"
              hint="Only when you count by the meal."
              inputMode="decimal"
              width="short"
            />
            <InputField
              form={form}
              name="people"
              label="People who eat it"
              hint="Only when you count in servings."
              inputMode="decimal"
              width="short"
            />
            <InputField form={form} name="sinceOn" type="date" label="Since" />
            <CheckField
              form={form}
              name="restartsFilter"
              label="A change of habit: what you ate before this day no longer counts"
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

const moreIsNeeded = ({ form: { values, problems } }: DeclaredUseProps): boolean =>
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
