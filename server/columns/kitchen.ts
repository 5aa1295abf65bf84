import { z } from 'zod';
import { bounds, letters, moneyBounds } from '../../shared/bounds.ts';
import { currencies } from '../../shared/currency.ts';
import { mouths } from '../../shared/jar.ts';
import { canningMethods, gaugeTypes, isTimeZone, locales, placeKinds } from '../../shared/schemas/kitchen.ts';
import { sessionPlaces } from '../../src/household/kitchen.ts';
import { type CarriedTable, expectThat, firstDayBefore, isSaid, table } from './carried-table.ts';
import {
  centsOf,
  day,
  dayAfter,
  flag,
  instant,
  jar,
  key,
  line,
  oneOf,
  orNone,
  slug,
  week,
  withDefault,
  within,
} from './column-kinds.ts';

// Of the household itself, its kitchen and its jars.

/** Of the household itself. */
export const householdRow: CarriedTable = table('The household', 1, [], {
  name: line(letters.name),
  people: withDefault(within(bounds.people)),
  time_zone: {
    ...line(letters.timeZone),
    expected: 'a time zone like “America/Chicago”',
    schema: z.string().max(letters.timeZone).refine(isTimeZone),
  },
  locale: withDefault(oneOf(locales)),
  currency: withDefault(oneOf(currencies)),
  units: withDefault(oneOf(['us', 'metric'])),
  week_starts_on: withDefault(oneOf(['monday', 'sunday'])),
  region: orNone(line(letters.region)),
  altitude_ft: orNone(within(bounds.altitudeFt)),
  storage_temperature_f: orNone(within(bounds.storageTemperatureF)),
  crock_quarts: withDefault(within(bounds.crockQuarts)),
  freezer_quarts_per_day: orNone(within(bounds.freezerQuartsPerDay)),
  discard_ceiling_months: withDefault(within(bounds.discardCeilingMonths)),
  recorded_since: orNone(day),
  emergency_days: orNone(within(bounds.emergencyDays)),
  water_gallons: orNone(within(bounds.waterKept)),
  water_filled_on: orNone(day),
  fruit_servings: orNone(within(bounds.servingsAWeek)),
  vegetable_servings: orNone(within(bounds.servingsAWeek)),
  protein_servings: orNone(within(bounds.servingsAWeek)),
  sweet_servings: orNone(within(bounds.servingsAWeek)),
  says_who_took: withDefault(flag),
  created_at: instant,
});

export const kitchenColumns = {
  place: table('Places', 500, ['id'], {
    id: slug,
    name: line(letters.shortName),
    kind: oneOf(placeKinds),
    capacity_quarts: orNone(within(bounds.placeQuarts)),
  }),
  canner: table(
    'Canners',
    100,
    ['id'],
    {
      id: slug,
      name: line(letters.shortName),
      method: oneOf(canningMethods),
      gauge: orNone(oneOf(gaugeTypes)),
      gauge_checked_on: orNone(day),
      gauge_off_at_5_psi: orNone(within(bounds.gaugeOffPsi)),
      gauge_off_at_10_psi: orNone(within(bounds.gaugeOffPsi)),
      gauge_off_at_15_psi: orNone(within(bounds.gaugeOffPsi)),
      volume_quarts: orNone(within(bounds.cannerVolumeQuarts)),
      quart_jars: within(bounds.quartsInLoad),
      pint_jars: within(bounds.pintsInLoad),
      half_pint_jars: within(bounds.halfPintsInLoad),
      retired_on: orNone(day),
    },
    {
      rules: [
        expectThat(
          (row) => row.method === 'pressure' || !isSaid(row.gauge),
          'a gauge on a pressure canner alone',
        ),
      ],
    },
  ),
  upkeep_task: table(
    'Upkeep',
    2000,
    ['id'],
    {
      id: slug,
      canner_id: orNone(slug),
      device: orNone(line(letters.shortName)),
      name: line(letters.name),
      every_months: orNone(within(bounds.upkeepMonths)),
      retired_on: orNone(day),
    },
    {
      pointsTo: { canner_id: 'canner' },
      rules: [
        expectThat(
          (row) => isSaid(row.canner_id) !== isSaid(row.device),
          'a canner or another device, not both',
        ),
      ],
    },
  ),
  upkeep_event: table(
    'Upkeep done',
    20_000,
    ['id'],
    {
      id: key,
      kind: oneOf(['gauge', 'look-over', 'own']),
      canner_id: orNone(slug),
      task_id: orNone(slug),
      done_on: day,
      note: orNone(line(letters.note)),
      gauge_off_at_5_psi: orNone(within(bounds.gaugeOffPsi)),
      gauge_off_at_10_psi: orNone(within(bounds.gaugeOffPsi)),
      gauge_off_at_15_psi: orNone(within(bounds.gaugeOffPsi)),
      recorded_by: orNone(line(letters.person)),
      recorded_at: instant,
      undone_at: orNone(instant),
    },
    {
      pointsTo: { canner_id: 'canner', task_id: 'upkeep_task' },
      rules: [
        expectThat(
          (row) =>
            (row.kind === 'own') === isSaid(row.task_id) && (row.kind === 'own') !== isSaid(row.canner_id),
          'a task where it is your own, otherwise a canner',
        ),
      ],
    },
  ),
  kitchen_time: table('Kitchen time', 1, [], {
    sessions_per_week: withDefault(within(bounds.sessionsPerWeek)),
    hours_per_session: withDefault(within(bounds.hoursPerSession)),
    set_up_minutes: withDefault(within(bounds.setUpMinutes)),
    stove_burners: withDefault(within(bounds.stoveBurners)),
    session_weekday: withDefault(within(bounds.weekday)),
    who: withDefault(line(letters.whoIsThere, 0)),
  }),
  week_time: table('Weeks that differ from the usual', 2000, ['week'], {
    week,
    sessions: within(bounds.sessionsPerWeek),
    hours_per_session: orNone(within(bounds.hoursPerSession)),
    reason: orNone(line(letters.note)),
  }),
  session_rule: table('Session days', 60, ['id'], {
    id: key,
    weekday: within(bounds.weekday),
    which: oneOf(sessionPlaces),
    hours: within(bounds.hoursPerSession),
    who: withDefault(line(letters.whoIsThere, 0)),
  }),
  session_pause: table(
    'Weeks without sessions',
    200,
    ['id'],
    { id: key, from_on: day, until_on: dayAfter, each_year: flag },
    { rules: [firstDayBefore('from_on', 'until_on')] },
  ),
  away: table(
    'Days away',
    2000,
    ['from_on'],
    { from_on: day, until_on: dayAfter },
    {
      rules: [firstDayBefore('from_on', 'until_on')],
    },
  ),
  school_holiday: table(
    'School holidays',
    2000,
    ['from_on'],
    { from_on: day, until_on: dayAfter },
    {
      rules: [firstDayBefore('from_on', 'until_on')],
    },
  ),
  season_fund: table('Season fund', 1, [], {
    balance_cents: withDefault(centsOf(moneyBounds.fund)),
    balance_on: day,
    weekly_cents: withDefault(centsOf(moneyBounds.weeklyFund)),
    told_at: orNone(instant),
  }),
  jar_holding: table('Jars', 100, ['jar_kind'], {
    jar_kind: jar,
    owned: withDefault(within(bounds.jars)),
    price_cents: withDefault(centsOf(moneyBounds.jarPack)),
    pack: withDefault(within(bounds.jarsInPack)),
    return_share: withDefault(within(bounds.share)),
  }),
  lid_price: table('Lids to buy', 2, ['mouth'], {
    mouth: oneOf(mouths),
    box: withDefault(within(bounds.lidsInBox)),
    box_price_cents: centsOf(moneyBounds.lidBox),
  }),
  lid_box: table('Boxes of lids', 2000, ['id'], {
    id: key,
    mouth: oneOf(mouths),
    lids: within(bounds.lids),
    bought_on: day,
  }),
} as const;
