import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

export interface SearchPageProps {
  readonly frame: Frame;
  readonly words: string;
  readonly items: readonly { readonly itemId: string; readonly item: ItemLabel; readonly note: string }[];
  readonly lots: readonly FoundLotLine[];
  readonly moreLots: number;
}

export interface FoundLotLine {
  readonly key: string;
  readonly item: ItemLabel;
  /** "260812-A, Aug 12, 2026" */
  readonly batch: string;
  readonly left: string;
  readonly where: string;
  readonly until: string;
}

/** What a search found among items and batches. */
export const SearchPage = ({ frame, words, items, lots, moreLots }: SearchPageProps) => (
  <Page frame={frame} title="Search" section="search" about="Look for an item or a batch." wide>
    <h1 class="page-title">Search</h1>
    <search aria-label="Search">
      <form method="get" action="/search" class="search-form">
        <label for="search-words">An item, a batch code, a day like 2026-08-12, or a place</label>
        <span class="search-line">
          <input id="search-words" type="search" name="q" value={words} autocomplete="off" />
          <Button weight="main">Search</Button>
        </span>
      </form>
    </search>
    {words === '' ? null : <Found words={words} items={items} lots={lots} moreLots={moreLots} />}
  </Page>
);

const Found = ({ words, items, lots, moreLots }: Omit<SearchPageProps, 'frame'>) =>
  items.length + lots.length === 0 ? (
    <EmptyState
      text={`Nothing kept here has “${words}” in its name, batch code, day or place. Try one word, or part of one.`}
      action={{ words: 'All that is kept', href: '/items' }}
    />
  ) : (
    <>
      <Part title="Items" id="found-items">
        {items.length === 0 ? (
          <EmptyState text="No item is called so." />
        ) : (
          <ul class="book">
            {items.map(({ itemId, item, note }) => (
              <li key={itemId}>
                <ItemName item={item} />
                <span class="small quiet">{note}</span>
              </li>
            ))}
          </ul>
        )}
      </Part>
      <Part
        title="Batches"
        id="found-batches"
        line={moreLots > 0 ? `${moreLots} older ones are not shown; add a word to narrow it.` : undefined}
      >
        {lots.length === 0 ? (
          <EmptyState text="No batch found." />
        ) : (
          <DataTable
            caption="Batches found"
            columns={[
              { title: 'item', heading: true },
              { title: 'batch' },
              { title: 'left', kind: 'number' },
              { title: 'place' },
              { title: 'best until' },
            ]}
            rows={lots.map((lot) => ({
              key: lot.key,
              cells: [<ItemName key="name" item={lot.item} />, lot.batch, lot.left, lot.where, lot.until],
            }))}
          />
        )}
      </Part>
    </>
  );
