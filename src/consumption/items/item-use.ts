import { groupedBy } from '../../../shared/grouped-by.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import { addMonths, type CalendarDate, lastOf, type WeekKey, yearOf } from '../../../shared/week.ts';
import type { DeclaredUseSetting, OccasionSetting, OrdinaryUse } from '../../household/appetite.ts';
import type { HouseholdFacts } from '../../household/facts.ts';
import type { Item } from '../../household/item.ts';
import { declareUse } from '../declared-use.ts';
import { assumedSchoolHolidays, type HouseholdCalendar } from '../household-calendar.ts';
import { type CheckedTakings, silentWeeks, tappedShare } from '../recording-habit.ts';
import { assumedUse, type DeclaredUse, forecastUse, type UseForecast } from '../use-forecast.ts';
import { useHistory } from '../use-history.ts';
import { allYear } from '../use-pattern.ts';
import type { WeekOfUse } from '../week-of-use.ts';
import type { DatedUnits } from '../yearly-target.ts';
import { daysOfRecording, type ItemLedger, itemLedger } from './item-ledger.ts';

export interface ItemUse {
  readonly declared: DeclaredUseSetting | null;
  /** What was declared, in units of an ordinary week; 0 when nothing was. */
  readonly declaredPerWeek: number;
  /** Dated units of the coming two years, gifts and promises among them. */
  readonly dated: readonly DatedUnits[];
  /** Weeks of use as the ledger knows them, oldest first. */
  readonly history: readonly WeekOfUse[];
  /** What the item's shelf counts showed about takings. */
  readonly checked: CheckedTakings;
  /** Since when what is eaten is recorded as it happens; null before. */
  readonly recordedSince: CalendarDate | null;
  /** Null for what is not eaten, and for what nobody said they eat until some of it was seen to be. */
  readonly forecast: UseForecast | null;
}

/**
 * How much of each item is eaten: from what was said, what was taken, and what the counts of the shelf showed. What nothing new is
 * known of is answered from memory: a jar taken changes the use of one item out of forty.
 */
export function itemUses(
  facts: HouseholdFacts,
  asOf: CalendarDate,
  horizonWeeks: number,
): ReadonlyMap<ItemId, ItemUse> {
  const calendar = calendarOf({ daysOff: facts.daysOff, asOf });
  const standing = facts.events.filter((event) => event.kind !== 'reversed' && !event.isReversed);
  const eventsByItem = groupedBy(standing, (event) => event.itemId);
  const lotsByItem = groupedBy(facts.lots, (lot) => lot.itemId);
  const countsByItem = groupedBy(facts.counts, (count) => count.itemId);
  const occasionsByItem = groupedBy(facts.occasions, (occasion) => occasion.itemId);
  const silent = silentWeeks(daysOfRecording(facts, standing), asOf);
  const seen = facts.items.map((item) => ({
    item,
    ledger: ledgerOf({
      item,
      events: eventsByItem.get(item.id) ?? [],
      lots: lotsByItem.get(item.id) ?? [],
      counts: countsByItem.get(item.id) ?? [],
      timeZone: facts.household.timeZone,
      saidSince: facts.household.recordedSince,
      asOf,
    }),
  }));
  const share = tappedShare(seen.map(({ ledger }) => ledger.checked));
  return new Map(
    seen.map(({ item, ledger }) => [
      item.id,
      useOf({
        item,
        ledger,
        said: facts.declaredUses.get(item.id) ?? null,
        byMonth: facts.seasonMultipliers.get(item.id) ?? null,
        occasions: occasionsByItem.get(item.id) ?? [],
        ordinary: facts.ordinaryUse.get(item.id) ?? null,
        calendar,
        silent,
        share,
        asOf,
        horizonWeeks,
      }),
    ]),
  );
}

/** What the use of one item is worked out from. */
interface UseAsked {
  readonly item: Item;
  readonly ledger: ItemLedger;
  readonly said: DeclaredUseSetting | null;
  /** Twelve multipliers of use, January first. */
  readonly byMonth: readonly number[] | null;
  readonly occasions: readonly OccasionSetting[];
  readonly ordinary: OrdinaryUse | null;
  readonly calendar: HouseholdCalendar;
  readonly silent: ReadonlySet<WeekKey>;
  readonly share: number;
  readonly asOf: CalendarDate;
  readonly horizonWeeks: number;
}

const ledgerOf = whileTheSame('item', itemLedger);

const useOf = whileTheSame('item', (asked: UseAsked): ItemUse => {
  const { said, ledger, ordinary, calendar, asOf, horizonWeeks } = asked;
  const dated = datedUnits(asked.occasions, asOf);
  const nothing = {
    declared: said,
    declaredPerWeek: 0,
    dated,
    history: [],
    checked: ledger.checked,
    recordedSince: ledger.recordedSince,
    forecast: null,
  };
  const start = startOf(asked, dated);
  if (start === null) return nothing;
  const history =
    ledger.from === null
      ? []
      : useHistory({
          ...ledger,
          from: lastOf([start.since ?? ledger.from, ledger.from]) ?? ledger.from,
          asOf,
          occasions: dated.filter((occasion) => occasion.kind === 'occasion'),
          away: calendar.away,
          silent: asked.silent,
          tappedShare: asked.share,
        }).map((week) => (ordinary?.weeks.has(week.week) ? { ...week, isOrdinary: true as const } : week));
  if (start.isAssumed && !isSeenToBeEaten(history)) return { ...nothing, history };
  return {
    declared: said,
    declaredPerWeek: start.isAssumed ? 0 : start.perWeek,
    dated,
    history,
    checked: ledger.checked,
    recordedSince: ledger.recordedSince,
    forecast: forecastUse(
      history,
      { ...start, isAllYearAlike: ordinary?.isAllYearAlike === true },
      asOf,
      horizonWeeks,
      calendar,
    ),
  };
});

/** What learning starts from: the household's word, else what items are like; null for what it says is not eaten. */
function startOf(
  { item, said, byMonth, asOf, calendar }: UseAsked,
  occasions: ItemUse['dated'],
): DeclaredUse | null {
  if (said === null) return assumedUse(byMonth === null ? allYear : { kind: 'by-month', byMonth }, occasions);
  if (said.amount === 0) return null;
  const declared = declareUse(
    {
      words: said,
      servingsPerUnit: item.servingsPerUnit,
      byMonth,
      occasions,
      ...(said.restartsFilter ? { since: said.sinceOn, firmness: 'sure' as const } : {}),
    },
    asOf,
    calendar,
  );
  return declared.ok ? declared.value : null;
}

/** Weeks that must have counted before what nobody declared is forecast at all. Judged, no source. */
const leastWeeksSeen = 4;

const isSeenToBeEaten = (history: readonly WeekOfUse[]): boolean =>
  history.some(({ taken }) => taken > 0) &&
  history.reduce((sum, { exposure }) => sum + exposure, 0) >= leastWeeksSeen;

interface CalendarAsked {
  readonly daysOff: HouseholdFacts['daysOff'];
  readonly asOf: CalendarDate;
}

/** School holidays that nobody entered are assumed, so that "school weeks only" means something from the first day. */
const calendarOf = whileTheSame('daysOff', ({ daysOff, asOf }: CalendarAsked): HouseholdCalendar => {
  const spans = (off: typeof daysOff.away) =>
    off.map(({ fromOn, untilOn }) => ({ from: fromOn, until: untilOn }));
  const entered = spans(daysOff.schoolHolidays);
  const assumed = [-1, 0, 1, 2].flatMap((step) => assumedSchoolHolidays(yearOf(asOf) + step));
  return { away: spans(daysOff.away), schoolHolidays: entered.length > 0 ? entered : assumed };
});

/** Years after its first in which a yearly occasion is looked at: since then, and at least from last year to the year after next. */
const yearsOf = (first: number, thisYear: number): readonly number[] => {
  const from = Math.min(first, thisYear - 1);
  return Array.from({ length: thisYear + 3 - from }, (_, step) => from + step - first);
};

/** Dated units up to two years ahead; a yearly one falls on its day each year. */
const datedUnits = (occasions: readonly OccasionSetting[], asOf: CalendarDate): ItemUse['dated'] =>
  occasions.flatMap(({ on, units, note, kind, isYearly }) => {
    const steps = isYearly ? yearsOf(yearOf(on), yearOf(asOf)) : [0];
    return steps.map((step) => ({ on: addMonths(on, 12 * step), units, name: note, kind }));
  });
