import { addDays, addMonths, asDate, type CalendarDate, mondayOf, weekOf } from '../../shared/week.ts';
import { isWithin, spansIn, yearsAround } from './demo-calendar.ts';
import { noonUtc, type Scene } from './scene.ts';

/** The household, its places and canners, and what is set aside for the season. */
export async function writeHousehold({ db, data, opensOn, own, asOf }: Scene): Promise<void> {
  const { household } = data;
  await db
    .insertInto('household')
    .values({
      id: household.id,
      name: household.name,
      people: household.people,
      time_zone: household.timeZone,
      region: household.region,
      altitude_ft: household.altitudeFt,
      storage_temperature_f: household.storageTemperatureF,
      crock_quarts: household.crockQuarts,
      freezer_quarts_per_day: household.freezerQuartsPerDay,
      discard_ceiling_months: household.discardCeilingMonths,
      emergency_days: household.emergency.days,
      water_gallons: household.emergency.waterGallons,
      water_filled_on: addMonths(asOf, -household.emergency.filledMonthsAgo),
      fruit_servings: household.servingsWanted.fruit,
      vegetable_servings: household.servingsWanted.vegetable,
      protein_servings: household.servingsWanted.protein,
      sweet_servings: household.servingsWanted.sweet,
      is_demo: 1,
      created_at: noonUtc(opensOn),
    })
    .execute();
  await db
    .insertInto('place')
    .values(
      household.places.map((place) => ({
        ...own,
        id: place.id,
        name: place.name,
        kind: place.kind,
        capacity_quarts: place.capacityQuarts,
      })),
    )
    .execute();
  await db
    .insertInto('canner')
    .values(
      household.canners.map((canner) => ({
        ...own,
        id: canner.id,
        name: canner.name,
        method: canner.method,
        gauge: canner.gauge,
        gauge_checked_on: null,
        quart_jars: canner.quartJars,
        pint_jars: canner.pintJars,
        half_pint_jars: canner.halfPintJars,
        retired_on: null,
      })),
    )
    .execute();
  await db
    .insertInto('season_fund')
    .values({
      ...own,
      balance_cents: household.seasonFund.balanceCentsByMonth[Number(asOf.slice(5, 7)) - 1] ?? 0,
      balance_on: asOf,
      weekly_cents: household.seasonFund.weeklyCents,
    })
    .execute();
}

/** What it looks after each spring: its pressure canners, and a scale by a weight it knows. */
export async function writeUpkeep({ db, data, asOf, own }: Scene): Promise<void> {
  await db
    .insertInto('upkeep_task')
    .values({
      ...own,
      id: 'scale-checked',
      canner_id: null,
      device: 'Kitchen scale',
      name: 'Check it with a known weight',
      every_months: 12,
      retired_on: null,
    })
    .execute();
  const springs = yearsAround(asOf)
    .map((year) => asDate(`${year}-04-18`))
    .filter((day) => day < asOf);
  const pressure = data.household.canners.filter(({ method }) => method === 'pressure');
  const done = springs.flatMap((day) => [
    ...pressure.map(({ id }) => ({
      id: `look-over-${id}-${day}`,
      kind: 'look-over' as const,
      canner_id: id,
      task_id: null,
      done_on: day,
    })),
    {
      id: `scale-checked-${day}`,
      kind: 'own' as const,
      canner_id: null,
      task_id: 'scale-checked',
      done_on: day,
    },
  ]);
  if (done.length > 0)
    await db
      .insertInto('upkeep_event')
      .values(done.map((event) => ({ ...own, ...event, recorded_at: noonUtc(event.done_on) })))
      .execute();
}

/** When it cans, when it does not, and when it is away. */
export async function writeTime({ db, data, asOf, own }: Scene): Promise<void> {
  const { household } = data;
  const years = yearsAround(asOf);
  await db
    .insertInto('kitchen_time')
    .values({
      ...own,
      sessions_per_week: household.kitchenTime.sessionsPerWeek,
      hours_per_session: household.kitchenTime.hoursPerSession,
      set_up_minutes: household.kitchenTime.setUpMinutes,
      stove_burners: household.kitchenTime.stoveBurners,
      session_weekday: household.kitchenTime.sessionWeekday,
    })
    .execute();
  const { sessionWeekday, secondWeekday, hoursPerSession } = household.kitchenTime;
  await db
    .insertInto('session_rule')
    .values(
      [sessionWeekday, secondWeekday].map((weekday, at) => ({
        ...own,
        id: `day-${at + 1}`,
        weekday,
        which: 'every' as const,
        hours: hoursPerSession,
      })),
    )
    .execute();
  for (const closed of household.closedWeeks) {
    const weeks = new Set(
      spansIn(years, closed).flatMap((span) => {
        const mondays: CalendarDate[] = [];
        for (let monday = mondayOf(weekOf(span.from)); monday < span.until; monday = addDays(monday, 7)) {
          if (isWithin(addDays(monday, household.kitchenTime.sessionWeekday - 1), [span]))
            mondays.push(monday);
        }
        return mondays.map(weekOf);
      }),
    );
    await db
      .insertInto('week_time')
      .values(
        [...weeks].map((week) => ({
          ...own,
          week,
          sessions: 0,
          hours_per_session: null,
          reason: closed.reason,
        })),
      )
      .execute();
  }
  const asRow = (span: { from: CalendarDate; until: CalendarDate }) => ({
    ...own,
    from_on: span.from,
    until_on: span.until,
  });
  await db
    .insertInto('away')
    .values(household.away.flatMap((span) => spansIn(years, span)).map(asRow))
    .execute();
  await db
    .insertInto('school_holiday')
    .values(household.schoolHolidays.flatMap((span) => spansIn(years, span)).map(asRow))
    .execute();
}
