import type { jarWishForm } from '../../../shared/schemas/jar-wish.ts';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { hasProblems, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

/** Which jar to put an item up in, and what the household wants of its jars. */
export interface JarSizeProps {
  readonly itemId: string;
  /** "Plum jam: half-pints, because an opened one keeps 30 days and 4 % of it is thrown away." */
  readonly sentence: string;
  /** What the advice stands on, or what it waits for. */
  readonly notes: readonly string[];
  readonly sizes: readonly JarSizeLine[];
  readonly wish: JarWishProps;
}

export interface JarSizeLine {
  readonly size: string;
  readonly isAdvised: boolean;
  readonly servings: string;
  readonly thrown: string;
  readonly cost: string;
}

export interface JarWishProps {
  readonly form: StateOf<typeof jarWishForm, 'itemId'>;
  /** "pint", the jar that servings are counted in. */
  readonly usualJar: string;
  readonly sizes: readonly Choice[];
  /** The advice waits for an answer. */
  readonly isAwaited: boolean;
}

export const JarSizePart = ({ itemId, sentence, notes, sizes, wish }: JarSizeProps) => (
  <Part id="jar-size" title="Which jar" line={sentence}>
    {notes.map((note) => (
      <p key={note} class="quiet">
        {note}
      </p>
    ))}
    {sizes.length === 0 ? null : (
      <details class="jar-sizes">
        <summary>The sizes compared</summary>
        <DataTable
          caption="Sizes with a tested process here"
          stacks={false}
          columns={[
            { title: 'jar', heading: true },
            { title: 'servings', kind: 'number' },
            { title: 'thrown away', kind: 'number' },
            { title: 'cost a serving', kind: 'number' },
          ]}
          rows={sizes.map((line) => ({
            key: line.size,
            cells: [
              line.isAdvised ? <strong key="size">{line.size}</strong> : line.size,
              line.servings,
              line.thrown,
              line.cost,
            ],
          }))}
        />
        <p class="hint">
          Thrown away: the part of an opened jar that is likely left when its days in the refrigerator are
          over. Cost: a new lid, and the jars that do not come back.
        </p>
      </details>
    )}
    <details class="jar-wish" open={wish.isAwaited || hasProblems(wish.form)}>
      <summary>Meals, gifts and lunches</summary>
      <JarWishForm itemId={itemId} {...wish} />
    </details>
  </Part>
);

const JarWishForm = ({ itemId, form, usualJar, sizes }: JarWishProps & { readonly itemId: string }) => {
  const own = (purpose: 'gift' | 'lunch', label: string) => (
    <div class="form-row">
      <SelectField form={form} name={`${purpose}Size`} label={`Jar for ${label}`} choices={sizes} />
      <InputField
        form={form}
        name={`${purpose}Jars`}
        label={`Jars for ${label}`}
        inputMode="numeric"
        width="short"
        unit="a year"
      />
    </div>
  );
  return (
    <PostForm action={`/targets/${itemId}/jar-size`} form={form} label="What a jar is to be">
      <div class="form-row">
        <InputField
          form={form}
          name="servingsPerUnit"
          label={`Servings in one ${usualJar}`}
          inputMode="decimal"
          width="short"
        />
        <InputField
          form={form}
          name="mealServings"
          label="Servings in one meal"
          hint="Leave blank for what you eat by the spoonful, over many days."
          inputMode="decimal"
          width="short"
        />
      </div>
      {own('gift', 'gifts')}
      {own('lunch', 'lunches')}
      <p>
        <Button weight="main">Save</Button>
      </p>
    </PostForm>
  );
};
