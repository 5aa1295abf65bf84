import type { FastifyRequest } from 'fastify';
import type { ItemId } from '../../../shared/ids.ts';
import { yearPicture } from '../../year/year-picture.ts';
import type { ItemOutlook } from './present-stock.ts';

/** How long each item lasts if the plan is carried out, and when it can be had again. */
export async function outlookByItem(request: FastifyRequest): Promise<ReadonlyMap<ItemId, ItemOutlook>> {
  const { db, reference } = request.server;
  const { itemYearById } = await yearPicture(db, request.household.id, request.today, reference);
  return new Map(
    [...itemYearById.values()].flatMap(({ item, projection, withoutPlan, supply }) => {
      const shelfAsItStands = withoutPlan ?? projection;
      if (shelfAsItStands === null) return [];
      return [
        [
          item.id,
          {
            runOut: shelfAsItStands.runOut,
            nextSupplyWeek: supply.nextSupplyWeek,
            nextSupplyBy: supply.by,
          },
        ] as const,
      ];
    }),
  );
}
