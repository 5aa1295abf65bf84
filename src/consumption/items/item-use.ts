import { groupedBy } from '../../../shared/grouped-by.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { addMonths, type CalendarDate, lastOf, type WeekKey, yearOf } from '../../../shared/week.ts';
import type { DeclaredUseSetting } from '../../household/appetite.ts';
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

/** How much of each item is eaten: from what was said, what was taken, and what the counts of the shelf showed. */
export function itemUses(
  facts: HouseholdFacts,
  asOf: CalendarDate,
  horizonWeeks: number,
): ReadonlyMap<ItemId, ItemUse> {
  const calendar = calendarOf(facts, asOf);
  const standing = facts.events.filter((event) => event.kind !== 'reversed' && !event.isReversed);
  const eventsByItem = groupedBy(standing, (event) => event.itemId);
  const silent = silentWeeks(daysOfRecording(facts, standing), asOf);
  const seen = facts.items.map((item) => ({
    item,
    ledger: itemLedger(facts, item, eventsByItem.get(item.id) ?? [], asOf),
  }));
  const share = tappedShare(seen.map(({ ledger }) => ledger.checked));
  return new Map(
    seen.map(({ item, ledger }) => [
      item.id,
      useOf(facts, item, ledger, { calendar, silent, share, asOf, horizonWeeks }),
    ]),
  );
}

interface Setting {
  readonly calendar: HouseholdCalendar;
  readonly silent: ReadonlySet<WeekKey>;
  readonly share: number;
  readonly asOf: CalendarDate;
  readonly horizonWeeks: number;
}

function useOf(facts: HouseholdFacts, item: Item, ledger: ItemLedger, setting: Setting): ItemUse {
  const { asOf, horizonWeeks, calendar } = setting;
  const said = facts.declaredUses.get(item.id) ?? null;
  const dated = datedUnits(facts, item.id, asOf);
  const nothing = {
    declared: said,
    declaredPerWeek: 0,
    dated,
    history: [],
    checked: ledger.checked,
    recordedSince: ledger.recordedSince,
    forecast: null,
  };
  const start = startOf(facts, item, dated, asOf, calendar);
  if (start === null) return nothing;
  const ordinary = facts.ordinaryUse.get(item.id);
  const history =
    ledger.from === null
      ? []
      : useHistory({
          ...ledger,
          from: lastOf([start.since ?? ledger.from, ledger.from]) ?? ledger.from,
          asOf,
          occasions: dated.filter((occasion) => occasion.kind === 'occasion'),
          away: calendar.away,
          silent: setting.silent,
          tappedShare: setting.share,
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
}

/** What learning starts from: the household's word, else what items are like; null for what it says is not eaten. */
function startOf(
  facts: HouseholdFacts,
  item: Item,
  occasions: ItemUse['dated'],
  asOf: CalendarDate,
  calendar: HouseholdCalendar,
): DeclaredUse | null {
  const said = facts.declaredUses.get(item.id) ?? null;
  const byMonth = facts.seasonMultipliers.get(item.id) ?? null;
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

/** School holidays that nobody entered are assumed, so that "school weeks only" means something from the first day. */
const calendarOf = ({ daysOff }: HouseholdFacts, asOf: CalendarDate): HouseholdCalendar => {
  const spans = (off: typeof daysOff.away) =>
    off.map(({ fromOn, untilOn }) => ({ from: fromOn, until: untilOn }));
  const entered = spans(daysOff.schoolHolidays);
  const assumed = [-1, 0, 1, 2].flatMap((step) => assumedSchoolHolidays(yearOf(asOf) + step));
  return { away: spans(daysOff.away), schoolHolidays: entered.length > 0 ? entered : assumed };
};

/** Years after its first in which a yearly occasion is looked at: since then, and at least from last year to the year after next. */
const yearsOf = (first: number, thisYear: number): readonly number[] => {
  const from = Math.min(first, thisYear - 1);
  return Array.from({ length: thisYear + 3 - from }, (_, step) => from + step - first);
};

/** Dated units up to two years ahead; a yearly one falls on its day each year. */
function datedUnits(facts: HouseholdFacts, itemId: ItemId, asOf: CalendarDate): ItemUse['dated'] {
  return facts.occasions
    .filter((occasion) => occasion.itemId === itemId)
    .flatMap(({ on, units, note, kind, isYearly }) => {
      const steps = isYearly ? yearsOf(yearOf(on), yearOf(asOf)) : [0];
      return steps.map((step) => ({ on: addMonths(on, 12 * step), units, name: note, kind }));
    });
}
