import type { ItemId } from '../../../shared/ids.ts';
import { gapWords, runOutSummary } from '../../words/year/run-out.ts';
import { oncePerPicture } from '../../year/year-of-request.ts';
import type { ItemOutlook } from './present-stock.ts';

/** How long what stands of each item lasts, when it likely has none, and when it can be had again; and how many run out. */
export const shelfOutlook = oncePerPicture<{
  readonly byItem: ReadonlyMap<ItemId, ItemOutlook>;
  readonly summary: string;
}>((picture) => {
  const byItem = [...picture.itemYearById.values()].flatMap((itemYear) => {
    const { item, runOut, supply } = itemYear;
    if (runOut === null) return [];
    const outlook = {
      runOut,
      gap: gapWords(itemYear, picture.asOf),
      nextSupplyWeek: supply.nextSupplyWeek,
      nextSupplyBy: supply.by,
    };
    return [[item.id, outlook] as const];
  });
  return { byItem: new Map(byItem), summary: picture.items.length === 0 ? '' : runOutSummary(picture) };
});
