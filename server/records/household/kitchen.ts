import { randomUUID } from 'node:crypto';
import { counted } from '../../../shared/counting.ts';
import { dateWords } from '../../../shared/date-words.ts';
import type { CannerId } from '../../../shared/ids.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type {
  CannerRequest,
  DaysOffRequest,
  HouseholdRequest,
  KitchenTimeRequest,
  LidRequest,
  SeasonFundRequest,
  SessionPauseRequest,
  SessionRuleRequest,
  StorageRequest,
  WeekTimeRequest,
} from '../../../shared/schemas/kitchen.ts';
import { addDays, addMonths, type CalendarDate } from '../../../shared/week.ts';
import { cannersOf, kitchenHoursOf, lidStockOf } from '../../queries/household/kitchen.ts';
import { freshId } from '../fresh-id.ts';
import { problem, type Recorder, type Recording, type Rules, record, refuse } from '../record.ts';
import { settleListed } from '../year/settle-listed.ts';
import { logGaugeCheck } from './upkeep.ts';

/** Altitude of the kitchen, in feet: always asked, never assumed; every schedule is looked up anew with it. */
export interface Altitude {
  readonly altitudeFt: number;
}

export const setAltitude = (recording: Recording, request: Altitude): Promise<Outcome<Altitude>> =>
  record(recording, 'set altitude', request, async ({ trx, householdId }) => {
    await trx
      .updateTable('household')
      .set({ altitude_ft: request.altitudeFt })
      .where('id', '=', householdId)
      .execute();
    return found(request);
  });

export const saveHousehold = (
  recording: Recording,
  request: HouseholdRequest,
): Promise<Outcome<HouseholdRequest>> =>
  record(recording, 'save household', request, async ({ trx, householdId }) => {
    await trx
      .updateTable('household')
      .set({
        name: request.name,
        people: request.people,
        units: request.units,
        week_starts_on: request.weekStartsOn,
        locale: request.locale,
        currency: request.currency,
        region: request.region,
        time_zone: request.timeZone,
      })
      .where('id', '=', householdId)
      .execute();
    return found(request);
  });

/** How warm it is where things stand, how long they are kept at most, and what crocks and the freezer take. */
export const saveStorage = (
  recording: Recording,
  request: StorageRequest,
): Promise<Outcome<StorageRequest>> =>
  record(recording, 'save storage', request, async ({ trx, householdId }) => {
    await trx
      .updateTable('household')
      .set({
        storage_temperature_f: request.storageTemperatureF,
        discard_ceiling_months: request.discardCeilingMonths,
        crock_quarts: request.crockQuarts,
        freezer_quarts_per_day: request.freezerQuartsPerDay,
      })
      .where('id', '=', householdId)
      .execute();
    return found(request);
  });

/** A gauge was checked on a day that has come. */
export const cannerRules: Rules<CannerRequest> = ({ today }, { gaugeCheckedOn = null }) =>
  gaugeCheckedOn !== null && gaugeCheckedOn > today
    ? [
        problem(
          'date-in-future',
          'gaugeCheckedOn',
          `${dateWords(gaugeCheckedOn)} is still to come; today is ${dateWords(today)}. Write it down when the gauge has been checked.`,
        ),
      ]
    : [];

/** Adds a canner or changes one. */
export const saveCanner = (
  recording: Recording,
  request: CannerRequest,
): Promise<Outcome<{ readonly cannerId: CannerId }>> =>
  record(recording, 'save canner', request, async (recorder) => {
    const { trx, householdId } = recorder;
    if (request.cannerId !== null) {
      const known = await knownCanner(recorder, request.cannerId);
      if (!known.ok) return known;
    }
    const wrong = await cannerRules(recorder, request);
    if (wrong.length > 0) return refused(...wrong);
    const taken = await trx
      .selectFrom('canner')
      .select('id')
      .where('household_id', '=', householdId)
      .execute();
    const id =
      request.cannerId ??
      (freshId(
        request.name,
        taken.map((row) => row.id),
      ) as CannerId);
    const said = {
      name: request.name,
      method: request.method,
      gauge: request.gauge,
      gauge_checked_on: request.gaugeCheckedOn,
      gauge_off_at_5_psi: request.gaugeOffAt5,
      gauge_off_at_10_psi: request.gaugeOffAt10,
      gauge_off_at_15_psi: request.gaugeOffAt15,
      volume_quarts: request.volumeQuarts,
      quart_jars: request.quartJars,
      pint_jars: request.pintJars,
      half_pint_jars: request.halfPintJars,
    };
    const before = (await cannersOf(trx, householdId)).find((canner) => canner.id === id);
    await trx
      .insertInto('canner')
      .values({ household_id: householdId, id, ...said, retired_on: null })
      .onConflict((same) => same.columns(['household_id', 'id']).doUpdateSet(said))
      .execute();
    await logGaugeCheck(
      recorder,
      id,
      before === undefined
        ? null
        : {
            gaugeCheckedOn: before.gaugeCheckedOn,
            gaugeOffAt5: before.gaugeOff?.at5 ?? null,
            gaugeOffAt10: before.gaugeOff?.at10 ?? null,
            gaugeOffAt15: before.gaugeOff?.at15 ?? null,
          },
      request,
    );
    return found({ cannerId: id });
  });

/** A canner that is no longer used; what it processed keeps its evidence. */
export const retireCanner = (
  recording: Recording,
  cannerId: string,
): Promise<Outcome<{ readonly cannerId: string }>> =>
  record(recording, 'retire canner', { cannerId }, async (recorder) => {
    const known = await knownCanner(recorder, cannerId);
    if (!known.ok) return known;
    await recorder.trx
      .updateTable('canner')
      .set({ retired_on: recorder.today })
      .where('household_id', '=', recorder.householdId)
      .where('id', '=', cannerId)
      .execute();
    return found({ cannerId });
  });

async function knownCanner(recorder: Recorder, cannerId: string): Promise<Outcome<true>> {
  const canners = await cannersOf(recorder.trx, recorder.householdId);
  return canners.some((canner) => canner.id === cannerId)
    ? found(true)
    : refuse('canner-unknown', 'cannerId', 'Choose a canner from the kitchen page.');
}

export const setKitchenTime = (
  recording: Recording,
  request: KitchenTimeRequest,
): Promise<Outcome<KitchenTimeRequest>> =>
  record(recording, 'set kitchen time', request, async ({ trx, householdId }) => {
    const said = {
      sessions_per_week: request.sessionsPerWeek,
      hours_per_session: request.hoursPerSession,
      set_up_minutes: request.setUpMinutes,
      stove_burners: request.stoveBurners,
      session_weekday: request.sessionWeekday,
      who: request.who,
    };
    await trx
      .insertInto('kitchen_time')
      .values({ household_id: householdId, ...said })
      .onConflict((same) => same.column('household_id').doUpdateSet(said))
      .execute();
    return found(request);
  });

/** Gives one week other sessions or hours than usual. */
export const setWeekTime = (
  recording: Recording,
  request: WeekTimeRequest,
): Promise<Outcome<WeekTimeRequest>> =>
  record(recording, 'set week time', request, async ({ trx, householdId }) => {
    const said = {
      sessions: request.sessions,
      hours_per_session: request.hoursPerSession,
      reason: request.reason || null,
    };
    await trx
      .insertInto('week_time')
      .values({ household_id: householdId, week: request.week, ...said })
      .onConflict((same) => same.columns(['household_id', 'week']).doUpdateSet(said))
      .execute();
    return found(request);
  });

/** The week is as usual again. */
export const clearWeekTime = (
  recording: Recording,
  week: string,
): Promise<Outcome<{ readonly week: string }>> =>
  record(recording, 'clear week time', { week }, async ({ trx, householdId }) => {
    await trx
      .deleteFrom('week_time')
      .where('household_id', '=', householdId)
      .where('week', '=', week)
      .execute();
    return found({ week });
  });

/** No more rules than a year has use for, and none twice. */
export const sessionRuleRules: Rules<SessionRuleRequest> = async (
  { trx, householdId },
  { weekday: day, which: rhythm },
) => {
  const { rules = [] } = await kitchenHoursOf(trx, householdId);
  if (rules.length >= mostSessionRules)
    return [
      problem(
        'too-many-rules',
        'weekday',
        `${counted(mostSessionRules, 'kind')} of canning days are the most you can have. Remove one first.`,
      ),
    ];
  return rules.some(({ weekday, which }) => weekday === day && which === rhythm)
    ? [
        problem(
          'rule-said',
          'weekday',
          'You already can on these days. Remove them first to give them other hours.',
        ),
      ]
    : [];
};

/** A session rule more: from then on sessions fall on the days of the rules alone. */
export const addSessionRule = (
  recording: Recording,
  request: SessionRuleRequest,
): Promise<Outcome<SessionRuleRequest>> =>
  record(recording, 'add session rule', request, async (recorder) => {
    const { trx, householdId, at } = recorder;
    const wrong = await sessionRuleRules(recorder, request);
    if (wrong.length > 0) return refused(...wrong);
    const { rules = [] } = await kitchenHoursOf(trx, householdId);
    await trx
      .insertInto('session_rule')
      .values({ household_id: householdId, id: `${at}-${rules.length}`, ...request })
      .execute();
    return found(request);
  });

const mostSessionRules = 12;

export const removeSessionRule = (
  recording: Recording,
  id: string,
): Promise<Outcome<{ readonly id: string }>> =>
  record(recording, 'remove session rule', { id }, async ({ trx, householdId }) => {
    await trx
      .deleteFrom('session_rule')
      .where('household_id', '=', householdId)
      .where('id', '=', id)
      .execute();
    return found({ id });
  });

/** It ends after it begins, and within a year where it comes back each year. */
export const sessionPauseRules: Rules<SessionPauseRequest> = (_reader, { fromOn, lastOn, eachYear }) => {
  if (fromOn === undefined || lastOn === undefined) return [];
  if (lastOn < fromOn)
    return [
      problem(
        'days-off-order',
        'lastOn',
        `The last day, ${dateWords(lastOn)}, is before the first, ${dateWords(fromOn)}. Choose the same day or a later one.`,
      ),
    ];
  return eachYear && addMonths(fromOn, 12) <= lastOn
    ? [
        problem(
          'pause-over-a-year',
          'lastOn',
          'It comes back each year, so it must be less than a year. Choose an earlier last day.',
        ),
      ]
    : [];
};

/** Days without sessions though somebody is at home, once or each year. */
export const addSessionPause = (
  recording: Recording,
  request: SessionPauseRequest,
): Promise<Outcome<SessionPauseRequest>> =>
  record(recording, 'add session pause', request, async (recorder) => {
    const { trx, householdId, at } = recorder;
    const wrong = await sessionPauseRules(recorder, request);
    if (wrong.length > 0) return refused(...wrong);
    await trx
      .insertInto('session_pause')
      .values({
        household_id: householdId,
        id: `${dateWords(request.fromOn)}-${at}`,
        from_on: request.fromOn,
        until_on: addDays(request.lastOn, 1),
        each_year: request.eachYear ? 1 : 0,
      })
      .execute();
    return found(request);
  });

export const removeSessionPause = (
  recording: Recording,
  id: string,
): Promise<Outcome<{ readonly id: string }>> =>
  record(recording, 'remove session pause', { id }, async ({ trx, householdId }) => {
    await trx
      .deleteFrom('session_pause')
      .where('household_id', '=', householdId)
      .where('id', '=', id)
      .execute();
    return found({ id });
  });

type DaysOffKind = 'away' | 'school_holiday';

/** They end after they begin, and no day is written down twice. */
export const daysOffRules =
  (kind: DaysOffKind): Rules<DaysOffRequest> =>
  async ({ trx, householdId }, { fromOn, lastOn }) => {
    if (fromOn !== undefined && lastOn !== undefined && lastOn < fromOn)
      return [
        problem(
          'days-off-end-before-begin',
          'lastOn',
          `The last day, ${dateWords(lastOn)}, is before the first, ${dateWords(fromOn)}. Change one of the two.`,
        ),
      ];
    // While only one of the two can be read, it alone may lie within days that are written down.
    const [from, last] = [fromOn ?? lastOn, lastOn ?? fromOn];
    if (from === undefined || last === undefined) return [];
    const overlapping = await trx
      .selectFrom(kind)
      .select(['from_on', 'until_on'])
      .where('household_id', '=', householdId)
      .where('from_on', '<=', last)
      .where('until_on', '>', from)
      .executeTakeFirst();
    return overlapping === undefined
      ? []
      : [
          problem(
            'days-off-overlap',
            fromOn === undefined ? 'lastOn' : 'fromOn',
            `${dateWords(overlapping.from_on as CalendarDate)} to ${dateWords(addDays(overlapping.until_on as CalendarDate, -1))} is written down already. Remove that first or choose other days.`,
          ),
        ];
  };

/** Days away (nothing is eaten or made) or days without school. */
export const addDaysOff = (
  recording: Recording,
  kind: DaysOffKind,
  request: DaysOffRequest,
): Promise<Outcome<DaysOffRequest>> =>
  record(recording, `add ${kind}`, request, async (recorder) => {
    const { trx, householdId } = recorder;
    const wrong = await daysOffRules(kind)(recorder, request);
    if (wrong.length > 0) return refused(...wrong);
    const untilOn = addDays(request.lastOn, 1);
    await trx
      .insertInto(kind)
      .values({ household_id: householdId, from_on: request.fromOn, until_on: untilOn })
      .execute();
    return found(request);
  });

export const removeDaysOff = (
  recording: Recording,
  kind: DaysOffKind,
  fromOn: CalendarDate,
): Promise<Outcome<{ readonly fromOn: CalendarDate }>> =>
  record(recording, `remove ${kind}`, { fromOn }, async ({ trx, householdId }) => {
    await trx
      .deleteFrom(kind)
      .where('household_id', '=', householdId)
      .where('from_on', '=', fromOn)
      .execute();
    return found({ fromOn });
  });

/** What is in the season fund today and what is set aside each week. */
export const setSeasonFund = (
  recording: Recording,
  request: SeasonFundRequest,
): Promise<Outcome<SeasonFundRequest>> =>
  record(recording, 'set season fund', request, async ({ trx, householdId, today, at }) => {
    const said = {
      balance_cents: request.balance,
      balance_on: today,
      weekly_cents: request.weekly,
      told_at: at,
    };
    await trx
      .insertInto('season_fund')
      .values({ household_id: householdId, ...said })
      .onConflict((same) => same.column('household_id').doUpdateSet(said))
      .execute();
    return found(request);
  });

/** New lids of one mouth: how many are there, and what a new box costs. */
export const setLids = (recording: Recording, request: LidRequest): Promise<Outcome<LidRequest>> =>
  record(recording, 'set lids', request, async (recorder) => {
    const { trx, householdId, today } = recorder;
    const before =
      (await lidStockOf(trx, householdId)).find(({ mouth }) => mouth === request.mouth)?.onHand ?? 0;
    const price = { box: request.box, box_price_cents: request.boxPrice };
    await trx
      .insertInto('lid_price')
      .values({ household_id: householdId, mouth: request.mouth, ...price })
      .onConflict((same) => same.columns(['household_id', 'mouth']).doUpdateSet(price))
      .execute();
    await trx
      .deleteFrom('lid_box')
      .where('household_id', '=', householdId)
      .where('mouth', '=', request.mouth)
      .execute();
    await trx
      .insertInto('lid_box')
      .values({
        household_id: householdId,
        id: randomUUID(),
        mouth: request.mouth,
        lids: request.onHand,
        bought_on: today,
      })
      .execute();
    if (request.onHand > before)
      await settleListed(recorder, {
        kind: 'lids',
        what: request.mouth,
        quantity: request.onHand - before,
        entryId: null,
      });
    return found(request);
  });
