import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

/** Servings for each person and week from the shelf, beside what the household wants. */
export interface MealsProps {
  readonly keys: FormKeys;
  readonly line: string;
  /** "Fruit 1.2, vegetables 2.6, protein 3.5 and sweet 5.4" */
  readonly summary: string;
  readonly kinds: readonly {
    readonly kind: string;
    readonly name: string;
    readonly wanted: string;
    readonly given: string;
    /** "2 too few", "enough"; empty where nothing is wanted. */
    readonly against: string;
    readonly from: string;
  }[];
  readonly uncounted: string | null;
  readonly form: {
    readonly fields: readonly { readonly name: string; readonly label: string; readonly value: string }[];
    readonly problems: FieldProblems;
  };
}

export const MealsPart = ({ keys, line, summary, kinds, uncounted, form }: MealsProps) => (
  <Part
    id="meals"
    title="Meals"
    folded={{
      words: summary,
      open: Object.keys(form.problems).length > 0,
    }}
  >
    <p>{line}</p>
    <DataTable
      caption="Servings for each person and week: what you want, and what the shelf gives"
      columns={[
        { title: 'kind', heading: true },
        { title: 'you want', kind: 'number' },
        { title: 'the shelf gives', kind: 'number' },
        { title: 'so' },
        { title: 'most of it from' },
      ]}
      rows={kinds.map((row) => ({
        key: row.kind,
        cells: [
          row.name,
          row.wanted,
          <strong key="given">{row.given}</strong>,
          row.against,
          <span key="from" class="small quiet">
            {row.from}
          </span>,
        ],
      }))}
    />
    {uncounted === null ? null : <p class="quiet">{uncounted}</p>}
    <details open={Object.keys(form.problems).length > 0}>
      <summary>What you want a week</summary>
      <PostForm
        action="/targets/servings"
        keys={keys}
        problems={form.problems}
        label="Servings you want for each person and week"
      >
        <div class="form-row">
          {form.fields.map(({ name, label, value }) => (
            <InputField
              key={name}
              form="servings"
              name={name}
              label={label}
              value={value}
              inputMode="decimal"
              width="short"
              unit="servings"
              problem={form.problems[name]}
            />
          ))}
        </div>
        <p class="small quiet">For each person and week. Leave blank what you want none of.</p>
        <p>
          <Button weight="main">Save</Button>
        </p>
      </PostForm>
    </details>
  </Part>
);
