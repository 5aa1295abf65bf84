import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

/** How many days the shelf feeds the household, beside what public guides advise. */
export interface EmergencyProps {
  readonly keys: FormKeys;
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
  readonly form: {
    readonly values: Readonly<Record<'days' | 'water' | 'filledOn', string>>;
    readonly problems: FieldProblems;
  };
}

export const EmergencyPart = ({
  keys,
  summary,
  water,
  food,
  items,
  advice,
  sources,
  unit,
  form,
}: EmergencyProps) => (
  <Part
    id="emergency"
    title="For an emergency"
    folded={{ words: summary, open: Object.keys(form.problems).length > 0 }}
  >
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
    <PostForm action="/targets/emergency" keys={keys} problems={form.problems} label="For an emergency">
      <div class="form-row">
        <InputField
          form="emergency"
          name="days"
          label="For how many days"
          hint="That you want to be ready for."
          value={form.values.days}
          inputMode="numeric"
          width="short"
          unit="days"
          problem={form.problems.days}
        />
        <InputField
          form="emergency"
          name="water"
          label="Water you keep"
          value={form.values.water}
          inputMode="decimal"
          width="short"
          unit={unit}
          problem={form.problems.water}
        />
        <InputField
          form="emergency"
          name="filledOn"
          type="date"
          label="Filled on"
          hint="Leave it blank for water from a store: that keeps until its own date."
          value={form.values.filledOn}
          problem={form.problems.filledOn}
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
