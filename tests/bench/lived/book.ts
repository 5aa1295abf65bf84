import { addDays, type CalendarDate } from '../../../shared/week.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import { entry, orNone } from '../../../src/planning/lookup.ts';
import { eventOf, type LivedHousehold, lotOf } from './household.ts';
import type { LivedYear, WeekEnd } from './live.ts';
import { luckOf } from './luck.ts';

/** Of all takes, so many are never written down. */
const forgottenShare = 0.12;
/** Every item is counted once in so many weeks, and the book set right by it. */
const weeksBetweenCounts = 8;

/** What the household has written down of its shelf while it lives the year. */
export interface Book {
  /** Writes down what came since, as it came. */
  arrivals(year: LivedYear, week: number): void;
  /** Writes down what was taken in a week, some of it, and counts some shelves at its end. */
  takes(end: WeekEnd, year: LivedYear, week: number): void;
  facts(): Pick<HouseholdFacts, 'lots' | 'events' | 'counts'>;
}

export function openBook({ facts, startsOn }: LivedHousehold, seed: number): Book {
  const memory = luckOf(seed, 'what is written down');
  const lots = new Map(facts.lots.map((lot) => [String(lot.id), lot]));
  const events = [...facts.events];
  const counts: HouseholdFacts['counts'][number][] = [];
  let seq = events.length;
  const dayOf = (week: number, day: number): CalendarDate => addDays(startsOn, 7 * week + day);

  function take(lotId: string, units: number, on: CalendarDate, kind: 'taken' | 'counted'): void {
    const lot = lots.get(lotId);
    const item = facts.items.find(({ id }) => id === lot?.itemId);
    const gone = Math.min(units, orNone(lot?.unitsLeft));
    if (lot === undefined || item === undefined || gone <= 0) return;
    lots.set(lotId, { ...lot, unitsLeft: lot.unitsLeft - gone });
    seq += 1;
    events.push(
      eventOf(lot, item, {
        seq,
        kind,
        units: -gone,
        on,
        ...(kind === 'counted' ? { reason: 'taken-unrecorded' } : {}),
      }),
    );
  }

  function arrivals(year: LivedYear, week: number): void {
    facts.items.forEach((item, at) => {
      for (const lot of year.lots(at)) {
        if (lots.has(lot.id)) continue;
        const isMade = item.kind === 'preserve';
        const written = lotOf(item, {
          id: lot.id,
          madeOn: dayOf(lot.madeIn, 0),
          readyFrom: dayOf(lot.readyIn, 0),
          units: lot.units,
          left: lot.units,
          origin: isMade ? 'put-up' : 'bought',
        });
        lots.set(lot.id, written);
        seq += 1;
        events.push(
          eventOf(written, item, {
            seq,
            kind: isMade ? 'put up' : 'bought',
            units: lot.units,
            on: dayOf(week, 0),
          }),
        );
      }
    });
  }

  function takes(end: WeekEnd, year: LivedYear, week: number): void {
    end.taken.forEach(({ lot, units }, at) => {
      let written = 0;
      for (let unit = 0; unit < units; unit += 1) if (memory() >= forgottenShare) written += 1;
      take(lot, written, dayOf(week, at % 7), 'taken');
    });
    facts.items.forEach((item, at) => {
      if ((week + at) % weeksBetweenCounts !== weeksBetweenCounts - 1) return;
      const standing = new Map(year.lots(at).map(({ id, units }) => [id, units]));
      const own = [...lots.values()].filter(({ itemId }) => itemId === item.id);
      const bookUnits = own.reduce((sum, { unitsLeft }) => sum + unitsLeft, 0);
      for (const lot of own) {
        const counted = orNone(standing.get(String(lot.id)));
        if (lot.unitsLeft > counted + 1e-9)
          take(String(lot.id), lot.unitsLeft - counted, dayOf(week, 6), 'counted');
      }
      counts.push({
        itemId: item.id,
        countedOn: dayOf(week, 6),
        bookUnits,
        countedUnits: year.standing(at),
        explainedAs: 'taken-unrecorded',
      });
    });
  }

  return {
    arrivals,
    takes,
    facts: () => ({ lots: [...lots.values()], events, counts }),
  };
}

/** Jars, lids and supplies as whoever stands before them sees them. */
export function cupboardsSeen(
  { facts, world }: LivedHousehold,
  year: LivedYear,
): Pick<HouseholdFacts, 'jars' | 'lids' | 'supplies'> {
  const empties = year.empties();
  const lids = year.lidsOnHand();
  const supplies = year.suppliesOnHand();
  return {
    jars: facts.jars.map((stock, at) => {
      const full = world.items.reduce(
        (sum, { jarKind }, item) => (jarKind === stock.kind ? sum + year.standing(item) : sum),
        0,
      );
      const empty = entry(empties, at, 'empties');
      return { ...stock, full, empty, owned: full + empty };
    }),
    lids: facts.lids.map((stock, at) => ({ ...stock, onHand: entry(lids, at, 'lids') })),
    supplies: facts.supplies.map((supply, at) => ({ ...supply, onHand: entry(supplies, at, 'supplies') })),
  };
}
