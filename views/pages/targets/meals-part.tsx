import type { servingsWantedForm } from '../../../shared/schemas/meals.ts';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { hasProblems, InputField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

type ServingsForm = StateOf<typeof servingsWantedForm>;

/** Servings for each person and week from the shelf, beside what the household wants. */
export interface MealsProps {
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
  readonly form: ServingsForm;
  /** Its fields with what each is called. */
  readonly labels: readonly { readonly name: keyof ServingsForm['values']; readonly label: string }[];
}

export const MealsPart = ({ line, summary, kinds, uncounted, form, labels }: MealsProps) => (
  <Part
    id="meals"
    title="Meals"
    folded={{
      words: summary,
      open: hasProblems(form),
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
    <details open={hasProblems(form)}>
      <summary>What you want a week</summary>
      <PostForm action="/targets/servings" form={form} label="Servings you want for each person and week">
        <div class="form-row">
          {labels.map(({ name, label }) => (
            <InputField
              key={name}
              form={form}
              name={name}
              label={label}
              inputMode="decimal"
              width="short"
              unit="servings"
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
