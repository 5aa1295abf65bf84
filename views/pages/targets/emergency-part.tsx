import type { emergencyWishForm } from '../../../shared/schemas/meals.ts';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { hasProblems, InputField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

/** How many days the shelf feeds the household, beside what public guides advise. */
export interface EmergencyProps {
  /** "36 gallons of water missing" */
  readonly summary: string;
  readonly water: { readonly title: string; readonly figures: string; readonly replace: string | null };
  readonly food: { readonly title: string; readonly figures: string; readonly uncounted: string | null };
  readonly items: readonly {
    readonly key: string;
    readonly item: ItemLabel;
    readonly wanted: string;
    readonly standing: string;
    readonly servings: string;
  }[];
  readonly advice: string;
  readonly sources: readonly { readonly words: string; readonly href: string | null }[];
  readonly unit: string;
  readonly form: StateOf<typeof emergencyWishForm>;
}

export const EmergencyPart = ({
  summary,
  water,
  food,
  items,
  advice,
  sources,
  unit,
  form,
}: EmergencyProps) => (
  <Part id="emergency" title="For an emergency" folded={{ words: summary, open: hasProblems(form) }}>
    <p>What always stays, whatever the plan does.</p>
    <h3>{water.title}</h3>
    <p>{water.figures}</p>
    {water.replace === null ? null : <p>{water.replace}</p>}
    <h3>{food.title}</h3>
    <p>{food.figures}</p>
    {food.uncounted === null ? null : <p class="quiet">{food.uncounted}</p>}
    {items.length === 0 ? (
      <EmptyState text="No food is kept for an emergency. Open an item and write how many of it always stay." />
    ) : (
      <DataTable
        caption="What is kept for an emergency, and how much of it stands today"
        columns={[
          { title: 'item', heading: true },
          { title: 'always stays', kind: 'number' },
          { title: 'there today', kind: 'number' },
          { title: 'servings', kind: 'number' },
        ]}
        rows={items.map((line) => ({
          key: line.key,
          cells: [<ItemName key="name" item={line.item} />, line.wanted, line.standing, line.servings],
        }))}
      />
    )}
    <PostForm action="/targets/emergency" form={form} label="For an emergency">
      <div class="form-row">
        <InputField
          form={form}
          name="days"
          label="For how many days"
          hint="That you want to be ready for."
          inputMode="numeric"
          width="short"
          unit="days"
        />
        <InputField
          form={form}
          name="water"
          label="Water you keep"
          inputMode="decimal"
          width="short"
          unit={unit}
        />
        <InputField
          form={form}
          name="filledOn"
          type="date"
          label="Filled on"
          hint="Leave it blank for water from a store: that keeps until its own date."
        />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </PostForm>
    <p class="small quiet">
      {advice}
      {sources.map(({ words, href }) => (
        <span key={words}> {href === null ? words : <a href={href}>{words}</a>}.</span>
      ))}
    </p>
  </Part>
);
