import { counted } from '../../../shared/counting.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button, ButtonLink } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface ItemsPageProps {
  readonly frame: Frame;
  readonly preserves: readonly ItemLine[];
  readonly staples: readonly ItemLine[];
  readonly supplies: readonly SupplyLine[];
  readonly guesses: readonly GuessLine[];
  readonly retired: readonly RetiredLine[];
}

export interface ItemLine {
  readonly itemId: string;
  readonly item: ItemLabel;
  /** "pints" */
  readonly counted: string;
  /** Its recipes, or its packs with their prices. */
  readonly how: string;
  /** "planned", "not planned yet: open it to see why"; empty for what is bought. */
  readonly state: string;
}

export interface SupplyLine {
  readonly supplyId: string;
  readonly name: string;
  /** "4 lb for $3.99" */
  readonly pack: string;
  readonly onHand: string;
  readonly isGuess: boolean;
}

/** A figure that was guessed for the household. */
export interface GuessLine {
  readonly key: string;
  /** "Your peach dates are our guess: they move 42 jars" */
  readonly words: string;
  readonly figure: string;
  /** The one step that replaces it. */
  readonly step: { readonly words: string; readonly href: string };
}

export interface RetiredLine {
  readonly itemId: string;
  readonly item: ItemLabel;
  readonly on: string;
  /** "12 pints" that are being eaten down; null when none stands. */
  readonly left: string | null;
  readonly keys: FormKeys;
}

/** Everything the household keeps: put up, bought, and what batches use up. */
export const ItemsPage = ({ frame, preserves, staples, supplies, guesses, retired }: ItemsPageProps) => (
  <Page
    frame={frame}
    title={pageNames.items}
    section="items"
    about="What the household keeps, and what it is made of."
    wide
  >
    <h1 class="page-title">{pageNames.items}</h1>
    <p class="page-line">
      Everything you keep on the shelf. How much of it a year needs is under{' '}
      <a href="/targets">{pageNames.targets}</a>.
    </p>
    <p class="page-actions">
      <ButtonLink href="/items/new" weight="main">
        Add something to put up
      </ButtonLink>
      <ButtonLink href="/items/new?kind=uncanned">Add something you freeze, dry or store</ButtonLink>
      <ButtonLink href="/items/new?kind=staple">Add something to buy</ButtonLink>
    </p>
    <Guesses guesses={guesses} />
    <Part title="Put up here" id="preserves" class="item-rows">
      {preserves.length === 0 ? (
        <EmptyState
          text="Nothing is put up yet."
          action={{ words: 'Choose from the recipe book', href: '/items/new' }}
        />
      ) : (
        <DataTable
          caption="What is put up"
          columns={[
            { title: 'item', heading: true },
            { title: 'counted in' },
            { title: 'recipes' },
            { title: 'this year' },
          ]}
          rows={preserves.map((line) => ({
            key: line.itemId,
            cells: [<ItemName key="name" item={line.item} />, line.counted, line.how, line.state],
          }))}
        />
      )}
    </Part>
    <div class="two-columns">
      <Part title="Bought" id="staples" class="item-rows">
        {staples.length === 0 ? (
          <EmptyState
            text="No staples yet."
            action={{ words: 'Add flour, oats or what you buy', href: '/items/new?kind=staple' }}
          />
        ) : (
          <DataTable
            caption="What is bought"
            columns={[{ title: 'item', heading: true }, { title: 'packs' }]}
            rows={staples.map((line) => ({
              key: line.itemId,
              cells: [<ItemName key="name" item={line.item} />, line.how],
            }))}
          />
        )}
      </Part>
      <Supplies supplies={supplies} />
    </div>
    <Retired lines={retired} />
  </Page>
);

const Guesses = ({ guesses }: { guesses: readonly GuessLine[] }) =>
  guesses.length === 0 ? null : (
    <Part
      title="Our guesses, until you put yours in"
      id="guesses"
      line={`We filled in ${counted(guesses.length, 'figure')} for you, and the plan counts on them. Those that the most jars depend on come first.`}
    >
      <details class="guess-fold" open={guesses.length <= 8}>
        <summary>See them</summary>
        <ul class="guesses">
          {guesses.map((guess) => (
            <li key={guess.key}>
              {guess.words}. <span class="quiet">{guess.figure}</span>{' '}
              <a href={guess.step.href}>
                {guess.step.words}
                <span class="heard-only">{`: ${guess.words}`}</span>
              </a>
            </li>
          ))}
        </ul>
      </details>
    </Part>
  );

const Supplies = ({ supplies }: { supplies: readonly SupplyLine[] }) => (
  <Part title="What batches use up" id="supplies" class="item-rows">
    {supplies.length === 0 ? (
      <EmptyState text="Sugar, vinegar and the like come with the recipes that need them." />
    ) : (
      <DataTable
        caption="Supplies"
        columns={[
          { title: 'supply', heading: true },
          { title: 'a pack' },
          { title: 'on hand', kind: 'number' },
        ]}
        rows={supplies.map((line) => ({
          key: line.supplyId,
          cells: [
            <a key="name" href={`/items/supplies/${line.supplyId}`}>
              {line.name}
            </a>,
            line.isGuess ? `${line.pack} (a guess)` : line.pack,
            line.onHand,
          ],
        }))}
      />
    )}
  </Part>
);

const Retired = ({ lines }: { lines: readonly RetiredLine[] }) =>
  lines.length === 0 ? null : (
    <Part
      title="No longer kept"
      id="retired"
      line="Their history stays. Each can be brought back with its recipes."
    >
      <ul class="retired-items">
        {lines.map((line) => (
          <li key={line.itemId}>
            <span>
              <ItemName item={line.item} /> <span class="quiet">{`since ${line.on}`}</span>
              {line.left === null ? null : (
                <>
                  {' '}
                  <a href={`/shelf/${line.itemId}`}>{`${line.left} still to be eaten`}</a>
                </>
              )}
            </span>
            <PostForm action={`/items/${line.itemId}/return`} keys={line.keys} class="inline-form">
              <Button weight="quiet" label={`Bring back ${line.item.name}`}>
                Bring back
              </Button>
            </PostForm>
          </li>
        ))}
      </ul>
    </Part>
  );
