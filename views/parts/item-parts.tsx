/** What one item is looked at for, each at its own address. */
export type ItemPart = 'shelf' | 'year' | 'much' | 'recipe';

const parts: readonly { readonly part: ItemPart; readonly at: string; readonly words: string }[] = [
  { part: 'shelf', at: 'shelf', words: 'Shelf' },
  { part: 'year', at: 'year', words: 'Year' },
  { part: 'much', at: 'targets', words: 'How much' },
  { part: 'recipe', at: 'items', words: 'Recipe' },
];

/** Where a part of an item stands; the shelf for what names none. */
export const addressOfPart = (part: string, itemId: string): string =>
  `/${parts.find((one) => one.part === part)?.at ?? 'shelf'}/${itemId}`;

/** The parts of one item, under its name on each of them: the only links between them. */
export const ItemParts = ({
  itemId,
  name,
  current,
  isMade = true,
}: {
  readonly itemId: string;
  readonly name: string;
  readonly current: ItemPart;
  /** False for what is only bought: then packs stand where a recipe would. */
  readonly isMade?: boolean;
}) => (
  <nav class="day-tabs not-on-paper" aria-label={`${name}: its parts`}>
    <ul>
      {parts.map(({ part, words }) => (
        <li key={part}>
          <a href={addressOfPart(part, itemId)} aria-current={part === current ? 'page' : undefined}>
            {part === 'recipe' && !isMade ? 'Packs' : words}
          </a>
        </li>
      ))}
    </ul>
  </nav>
);
