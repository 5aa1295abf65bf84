import { counted } from '../../../shared/counting.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { fieldsWith, SelectField } from '../../parts/fields.tsx';
import { EmptyState, FoldedPart } from '../../parts/part.tsx';
import { elementId } from '../../words/element-id.ts';
import { pageNames } from '../../words/page-names.ts';

export interface BookPart {
  readonly title: string;
  readonly recipes: readonly {
    readonly key: string;
    readonly name: string;
    readonly href: string;
    /** "8 to 9 pints; no tested process here yet" */
    readonly note: string;
  }[];
}

export interface RecipeListProps {
  readonly frame: Frame;
  /** Words looked for. */
  readonly words: string;
  /** What it is put up in: boiling water, pressure or no canner; empty for all. */
  readonly by: string;
  /** Item a recipe is added to; null for something new. */
  readonly addTo: { readonly id: string; readonly name: string } | null;
  readonly parts: readonly BookPart[];
}

const byChoices = [
  { value: '', words: 'anything' },
  { value: 'boiling-water', words: 'boiling water or steam' },
  { value: 'pressure', words: 'a pressure canner' },
  { value: 'none', words: 'no canner' },
] as const;

/** The tested recipes to choose from. */
export const RecipeListPage = ({ frame, words, by, addTo, parts }: RecipeListProps) => (
  <Page frame={frame} title="Add something to put up" section="items" about="Tested recipes to choose from.">
    <p class="page-back">
      <a href={addTo === null ? '/items' : `/items/${addTo.id}`}>{addTo?.name ?? pageNames.items}</a>
    </p>
    <h1 class="page-title">
      {addTo === null ? 'Add something to put up' : `Another recipe for ${addTo.name}`}
    </h1>
    <p class="page-line">
      Tested recipes and canner loads from the published guides, then what is frozen, dried, stored or
      fermented without a canner. Choose one; its amounts come with it.
    </p>
    {addTo === null ? (
      <p class="more">
        <a href="/items/new?kind=own">A recipe of your own that is in no book</a>
      </p>
    ) : null}
    {addTo === null ? (
      <p class="more">
        <a href="/items/new?kind=uncanned">Something you freeze, dry or store your own way</a>
      </p>
    ) : null}
    <search aria-label="Recipes">
      <form method="get" action="/items/new" class="search-form">
        {addTo === null ? null : <input type="hidden" name="item" value={addTo.id} />}
        <label for="recipe-words">Find in the book</label>
        <span class="search-line">
          <input id="recipe-words" type="search" name="find" value={words} autocomplete="off" />
          <Button>Find</Button>
        </span>
        <SelectField form={fieldsWith('book', { by })} name="by" label="Put up in" choices={byChoices} />
      </form>
    </search>
    {parts.length === 0 ? (
      <EmptyState
        text={
          words === ''
            ? 'The book has nothing of that.'
            : `The book has no such recipe with “${words}” in its name. Try the fruit or vegetable alone.`
        }
        action={{ words: 'See the whole book', href: '/items/new' }}
      />
    ) : null}
    {parts.map((part) => (
      <FoldedPart
        key={part.title}
        id={elementId(part.title)}
        title={part.title}
        line={counted(part.recipes.length, 'recipe')}
        open={words !== '' || by !== ''}
      >
        <ul class="book">
          {part.recipes.map((recipe) => (
            <li key={recipe.key}>
              <a href={recipe.href}>{recipe.name}</a>
              <span class="small quiet">{recipe.note}</span>
            </li>
          ))}
        </ul>
      </FoldedPart>
    ))}
  </Page>
);
