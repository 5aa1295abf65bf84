import { groupedBy } from '../../shared/grouped-by.ts';
import type { ItemId, LotId } from '../../shared/ids.ts';
import type { JarKind } from '../../shared/jar.ts';
import { asDate, type CalendarDate, isDay } from '../../shared/week.ts';
import type { Item } from '../household/item.ts';
import type { JarEvent } from '../household/ledger.ts';
import { keepColdDaysOf } from './keep-cold.ts';
import { type JarHappening, openJars } from './open-jars.ts';

/** Jars of one batch opened on one day, as the household knows them. */
export interface OpenJarsHere {
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly lotId: LotId;
  readonly batchCode: string;
  readonly jarKind: JarKind;
  readonly jars: number;
  readonly openedOn: CalendarDate;
  readonly eatBy: CalendarDate;
  readonly isPast: boolean;
  /** False where nobody wrote down how long it keeps open: then fewer days than any published figure were taken. */
  readonly limitIsKnown: boolean;
}

/** Jars that stand open in the refrigerator on a day, by what was taken and finished; the soonest limit first. */
export function openJarsHere(
  items: readonly Item[],
  events: readonly JarEvent[],
  asOf: CalendarDate,
): readonly OpenJarsHere[] {
  const itemById = new Map(items.map((item) => [item.id, item]));
  return [...groupedBy(events, (event) => event.itemId)]
    .flatMap(([id, ofItem]) => {
      const item = itemById.get(id);
      if (item === undefined) return [];
      const { days, isKnown } = keepColdDaysOf(item);
      const lotById = new Map(ofItem.map((event) => [event.lotId as string, event]));
      return openJars(ofItem.flatMap(happeningOf), days, asOf).flatMap((open): OpenJarsHere[] => {
        const lot = lotById.get(open.lotId);
        return lot === undefined || lot.jarKind === null
          ? []
          : [
              {
                ...open,
                itemId: id,
                itemName: lot.itemName,
                lotId: lot.lotId,
                batchCode: lot.batchCode,
                jarKind: lot.jarKind,
                limitIsKnown: isKnown,
              },
            ];
      });
    })
    .sort((one, other) => (one.eatBy < other.eatBy ? -1 : one.eatBy > other.eatBy ? 1 : 0));
}

/** A jar taken to eat is open from that day on; a finished one names the day it was opened. */
function happeningOf(event: JarEvent): JarHappening[] {
  if (event.isReversed || event.jarKind === null) return [];
  if (event.kind === 'taken')
    return [{ lotId: event.lotId, kind: 'opened', openedOn: event.occurredOn, jars: -event.units }];
  return event.kind === 'finished' && event.reason !== null && isDay(event.reason)
    ? [{ lotId: event.lotId, kind: 'finished', openedOn: asDate(event.reason), jars: 1 }]
    : [];
}
