import type { ItemLabel } from '../../parts/item-name.tsx';
import { ItemName } from '../../parts/item-name.tsx';
import { SuspectJar, type SuspectJarProps } from './suspect-jar.tsx';
import { TakeForm, type TakeFormProps } from './take-form.tsx';

/** One item on the shelf: how many, how long they last, and the jar to take. */
export interface ShelfRowProps {
  readonly itemId: string;
  readonly item: ItemLabel;
  readonly stock: ShelfStockProps;
  /** Null when nothing can be taken; then `whyNot` says why, unless nothing stands there at all. */
  readonly take: TakeFormProps | null;
  readonly whyNot: string;
  /** What to do with the jar just reported swollen, leaking or unsealed, said where the person is looking. */
  readonly suspect?: SuspectJarProps;
}

export interface ShelfStockProps {
  /** "12" with "pints" beside it. */
  readonly left: string;
  readonly unit: string;
  /** "Lasts to early March. Then none for 9 weeks. Made again in August." */
  readonly lasts: string;
  /** "to early March": the same on a phone, where the sentence waits until the row is opened. */
  readonly brief: string;
  /** How loudly `lasts` is said: plainly, or strong because it runs short or has run out. */
  readonly urgency: 'calm' | 'short' | 'over';
  /** "4 are past best quality: eat these first." */
  readonly remark: string | null;
}

export const ShelfRow = ({ itemId, item, stock, take, whyNot, suspect }: ShelfRowProps) => (
  <li class="shelf-row" id={`item-${itemId}`}>
    <div class="shelf-what">
      <h3>
        <ItemName item={item} />
      </h3>
      <ShelfStock {...stock} />
    </div>
    {take === null ? <WhyNot words={whyNot} /> : <TakeForm {...take} />}
    {suspect === undefined ? null : <SuspectJar {...suspect} />}
  </li>
);

/** Why nothing is offered; nothing more is said where nothing stands. */
export const WhyNot = ({ words }: { words: string }) =>
  words === '' ? null : <p class="take-none quiet">{words}</p>;

export const ShelfStock = ({ left, unit, lasts, brief, urgency, remark }: ShelfStockProps) => (
  <>
    <p class="shelf-left">
      <b class="big-number">{left}</b> <span class="unit">{unit}</span>
    </p>
    {brief === '' ? null : <p class={`shelf-brief shelf-${urgency}`}>{brief}</p>}
    <p class={`shelf-lasts shelf-${urgency}`}>{lasts}</p>
    {remark === null ? null : <p class="shelf-remark">{remark}</p>}
  </>
);
