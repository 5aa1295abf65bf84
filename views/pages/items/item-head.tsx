import type { YearBoardProps } from '../../charts/year-board.tsx';
import type { YearAxis } from '../../charts/year-picture.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { type ItemPart, ItemParts } from '../../parts/item-parts.tsx';
import { pageNames } from '../../words/page-names.ts';
import { ShelfStock, type ShelfStockProps, WhyNot } from '../shelf/shelf-row.tsx';
import { TakeForm, type TakeFormProps } from '../shelf/take-form.tsx';
import { UndoBar, type UndoBarProps } from '../shelf/undo-bar.tsx';
import { OneBoard } from '../year/year-boards.tsx';

/** What stands on top of every part of an item. */
export interface ItemHeadProps {
  readonly itemId: string;
  readonly item: ItemLabel;
  /** False for what is no longer kept: then the shelf is all there is of it. */
  readonly isKept: boolean;
  readonly isMade: boolean;
  readonly stock: ShelfStockProps;
  /** Null when nothing can be taken; then `whyNot` says why, unless nothing stands there at all. */
  readonly take: TakeFormProps | null;
  readonly whyNot: string;
  readonly undo: UndoBarProps;
  /** Its board, as in the year; null for what the year does not hold. */
  readonly picture: { readonly axis: YearAxis; readonly board: YearBoardProps } | null;
}

const upOf: Readonly<Record<ItemPart, { readonly words: string; readonly href: string }>> = {
  shelf: { words: 'Shelf', href: '/shelf' },
  year: { words: 'The year', href: '/year' },
  much: { words: pageNames.targets, href: '/targets' },
  recipe: { words: pageNames.items, href: '/items' },
};

/** One item, the same on all its parts: how many stand there and how long they last, the jar to take, its year as a board. */
export const ItemHead = ({ head, current }: { head: ItemHeadProps; current: ItemPart }) => (
  <>
    <p class="page-back">
      <a href={upOf[current].href}>{upOf[current].words}</a>
    </p>
    <h1 class="page-title">
      <ItemName item={head.item} />
    </h1>
    <div class={`item-head family-${head.item.family}`}>
      <div class="item-stock">
        <ShelfStock {...head.stock} />
      </div>
      {head.take === null ? <WhyNot words={head.whyNot} /> : <TakeForm {...head.take} />}
      {head.picture === null ? null : (
        <OneBoard id={`item-${head.itemId}`} withKey={current === 'year'} {...head.picture} />
      )}
    </div>
    <UndoBar {...head.undo} />
    {head.isKept ? (
      <ItemParts itemId={head.itemId} name={head.item.name} current={current} isMade={head.isMade} />
    ) : null}
  </>
);
