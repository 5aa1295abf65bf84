import type { CannerId, LotId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';

/** What is known of a lot's processing, as far as setting aside asks. */
export interface ProcessedLot {
  readonly lotId: LotId;
  readonly cannerId: CannerId | null;
  readonly processedOn: CalendarDate;
}

/** Which lots are doubted: one, or all from a canner since a day, that day included. */
export type Doubt =
  | { readonly kind: 'lot'; readonly lotId: LotId }
  | { readonly kind: 'canner'; readonly cannerId: CannerId; readonly since: CalendarDate };

/** Lots a doubt covers, in the order given: they are hidden from taking, projection and plan until released or discarded. */
export const lotsInDoubt = (lots: readonly ProcessedLot[], doubt: Doubt): readonly LotId[] =>
  lots
    .filter((lot) =>
      doubt.kind === 'lot'
        ? lot.lotId === doubt.lotId
        : lot.cannerId === doubt.cannerId && lot.processedOn >= doubt.since,
    )
    .map((lot) => lot.lotId);
