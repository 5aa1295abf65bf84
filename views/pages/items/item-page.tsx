import type { itemForm } from '../../../shared/schemas/item.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormState, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
import { type AskedName, NameQuestion } from '../../parts/name-question.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { ItemHead, type ItemHeadProps } from './item-head.tsx';
import { OwnRecipe, type OwnRecipeProps } from './own-recipe.tsx';
import { type PackFormProps, PackForms } from './pack-forms.tsx';
import { HowSureField } from './use-fields.tsx';

export interface ItemPageProps {
  readonly frame: Frame;
  readonly head: ItemHeadProps;
  readonly kind: 'preserve' | 'staple';
  readonly line: string;
  readonly isRetired: boolean;
  /** "12 pints" that still stand; null when the shelf has none. */
  readonly left: string | null;
  /** What is published of how long it keeps, and what the household may choose. */
  readonly bestQualityHint: string;
  /** "pints" */
  readonly unit: string;
  readonly families: readonly Choice[];
  readonly countsAs: readonly Choice[];
  readonly form: StateOf<typeof itemForm, 'itemId', 'inIt'>;
  /** Asked once a new name was sent that names another food. */
  readonly asked: AskedName | null;
  readonly recipes: readonly OwnRecipeProps[];
  readonly retiredRecipes: readonly { readonly id: string; readonly name: string; readonly keys: FormKeys }[];
  readonly canners: readonly Choice[];
  readonly packs: readonly PackFormProps[];
  /** What one takes that is made here, beside what a store asks; empty for what is bought. */
  readonly storeBeside: readonly string[];
  readonly retire: FormState<Readonly<Record<never, string>>>;
}

/** One thing that is kept: what it is called, how it is made or bought, and whether it is still wanted. */
export const ItemPage = (props: ItemPageProps) => (
  <Page
    frame={props.frame}
    title={props.head.item.name}
    section="items"
    about={`What ${props.head.item.name} is called, how it is made or bought, and whether it is still kept.`}
    moreCss={props.frame.assets.yearCss}
  >
    <ItemHead head={props.head} current="recipe" />
    <p class="page-line">{props.line}</p>
    {props.isRetired ? (
      <PostForm action={`/items/${props.head.itemId}/return`} keys={props.retire.keys}>
        <p>
          <Button weight="main">Bring it back</Button>
        </p>
      </PostForm>
    ) : (
      <KeptItem {...props} />
    )}
  </Page>
);

const KeptItem = (props: ItemPageProps) => (
  <>
    {props.kind === 'preserve' ? <Recipes {...props} /> : null}
    <PackForms itemId={props.head.itemId} packs={props.packs} storeBeside={props.storeBeside} />
    <Facts {...props} />
    <Retire {...props} />
  </>
);

const Recipes = ({ head: { itemId }, recipes, retiredRecipes, canners }: ItemPageProps) => (
  <Part title="How it is made" id="recipes">
    {recipes.length === 0 ? <EmptyState text="No recipe makes it." /> : null}
    {recipes.map((recipe) => (
      <OwnRecipe key={recipe.recipeId} itemId={itemId} recipe={recipe} canners={canners} />
    ))}
    <p class="more">
      <a href={`/items/new?item=${itemId}`}>Add another recipe from the book</a>
    </p>
    {retiredRecipes.map(({ id, name, keys }) => (
      <PostForm key={id} action={`/items/${itemId}/recipes/${id}/return`} keys={keys} class="inline-form">
        <Button weight="quiet">{`Bring back the recipe ${name}`}</Button>
      </PostForm>
    ))}
  </Part>
);

const Facts = ({
  head: { itemId },
  form,
  asked,
  families,
  countsAs,
  unit,
  bestQualityHint,
}: ItemPageProps) => (
  <Part title="Its name and its limits" id="facts">
    <PostForm action={`/items/${itemId}`} form={form} label="Name and limits">
      <div class="form-row">
        <InputField form={form} name="name" label="Name" />
        <SelectField form={form} name="family" label="Kind of food" choices={families} />
      </div>
      {asked === null ? null : <NameQuestion form={form} asked={asked} />}
      <HowSureField form={form} />
      <InputField
        form={form}
        name="familyMinimum"
        label="Never less than"
        hint="A year, whatever else has to wait. Optional."
        inputMode="decimal"
        width="short"
        unit={unit}
      />
      <InputField
        form={form}
        name="emergencyUnits"
        label="Kept for an emergency"
        hint="So many always stay. No plan uses them up: the oldest are eaten and replaced. Optional."
        inputMode="numeric"
        width="short"
        unit={unit}
      />
      <div class="form-row">
        <InputField
          form={form}
          name="servingsPerUnit"
          label="Servings in one"
          hint="As you serve it. Optional."
          inputMode="decimal"
          width="short"
          unit="servings"
        />
        <SelectField form={form} name="countsAs" label="Counts in meals as" choices={countsAs} />
      </div>
      <div class="form-row">
        <InputField
          form={form}
          name="bestQualityDays"
          label="Best quality for"
          hint={bestQualityHint}
          inputMode="numeric"
          width="short"
          unit="days"
        />
        <InputField
          form={form}
          name="keepColdDays"
          label="Once opened, keeps cold for"
          hint="A safety limit for low-acid food."
          inputMode="numeric"
          width="short"
          unit="days"
        />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </PostForm>
  </Part>
);

const Retire = ({ head: { itemId, item }, left, retire }: ItemPageProps) => (
  <Part
    title="No longer wanted"
    id="retire"
    line={`${left === null ? 'None on the shelf.' : `${left} still on the shelf, to be eaten.`} No more is planned, made or bought. Its history and recipes stay, and it can be brought back.`}
  >
    <PostForm action={`/items/${itemId}/retirement`} form={retire}>
      <p>
        <Button weight="quiet">{`Stop keeping ${item.name}`}</Button>
      </p>
    </PostForm>
  </Part>
);
