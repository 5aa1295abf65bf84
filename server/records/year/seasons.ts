import { found, type Outcome } from '../../../shared/problems.ts';
import type { GroundRequest, LatenessRequest } from '../../../shared/schemas/ground.ts';
import { addDays, addMonths, type CalendarDate, yearOf } from '../../../shared/week.ts';
import type { SeasonTables } from '../../../src/harvest/ground.ts';
import { guessedSeason } from '../../../src/harvest/known-ground.ts';
import type { LocalWindow } from '../../../src/harvest/local-window.ts';
import { seasonIn } from '../../../src/harvest/season.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { sourcesOf } from '../../queries/year/harvest.ts';
import { guessedLbPerWeek } from '../../reference/guessed-harvest.ts';
import { householdGround } from '../../year/ground.ts';
import { type Recorder, type Recording, record } from '../record.ts';

/** Where the household gardens; the dates that were guessed move with it. */
export const saveGround = (
  recording: Recording,
  request: GroundRequest,
  tables: SeasonTables,
): Promise<Outcome<{ readonly moved: number }>> =>
  record(recording, 'save ground', request, async (recorder) => {
    const { trx, householdId } = recorder;
    const { region, ...stated } = request;
    const said = {
      town: stated.town,
      station: stated.station,
      state: stated.state,
      last_frost: stated.lastFrost,
      first_frost: stated.firstFrost,
      strawberries_from: stated.strawberriesFrom,
    };
    await trx
      .insertInto('ground')
      .values({ household_id: householdId, ...said })
      .onConflict((same) => same.column('household_id').doUpdateSet(said))
      .execute();
    if (region !== undefined)
      await trx.updateTable('household').set({ region }).where('id', '=', householdId).execute();
    return found({ moved: await renewGuessedDates(recorder, tables) });
  });

/** Guesses the dates anew that were guessed, after the region or the height of the household changed. */
export const renewSeasons = (
  recording: Recording,
  tables: SeasonTables,
): Promise<Outcome<{ readonly moved: number }>> =>
  record(recording, 'renew seasons', {}, async (recorder) =>
    found({ moved: await renewGuessedDates(recorder, tables) }),
  );

/** How many years of sources have other dates now. Dates of the household's own stay; what has none yet gets them; what cannot ripen keeps none. */
async function renewGuessedDates(recorder: Recorder, tables: SeasonTables): Promise<number> {
  const { trx, householdId, today } = recorder;
  const guessed = (await sourcesOf(trx, householdId)).filter(
    ({ windows }) => windows.length === 0 || windows.some(({ datesGuessed }) => datesGuessed),
  );
  if (guessed.length === 0) return 0;
  const ground = await householdGround(trx, householdId, tables);
  const recipes = await recipesOf(trx, householdId);
  let moved = 0;
  for (const source of guessed) {
    const answer = guessedSeason(source, ground, tables);
    if (source.windows.length === 0 && answer.kind === 'window') {
      moved += 1;
      await trx
        .insertInto('harvest_window')
        .values({
          household_id: householdId,
          source_id: source.id,
          year: yearOf(today),
          ...datesIn(answer.local, yearOf(today)),
          lb_per_week: guessedLbPerWeek(source.crop, source.kind, recipes),
          usual_lb_per_week: null,
          first_picked_on: null,
          dates_guessed: 1,
        })
        .execute();
    }
    for (const { year, datesGuessed, beginsOn, endsOn } of source.windows) {
      if (!datesGuessed || answer.kind !== 'window') continue;
      const dates = datesIn(answer.local, year);
      if (dates.begins_on === beginsOn && dates.ends_on === endsOn) continue;
      moved += 1;
      await trx
        .updateTable('harvest_window')
        .set(dates)
        .where('household_id', '=', householdId)
        .where('source_id', '=', source.id)
        .where('year', '=', year)
        .execute();
    }
  }
  return moved;
}

/** A guessed season laid on a year, as the table holds it: every end is the day after the last. */
function datesIn({ window }: LocalWindow, year: number) {
  const season = seasonIn(window, year);
  const isActive = season.plannedOn === 'most-active';
  return {
    begins_on: season.beginsOn,
    ends_on: addDays(season.endsOn, 1),
    most_active_from: isActive ? season.plannedFrom : null,
    most_active_until: isActive ? addDays(season.plannedTo, 1) : null,
  };
}

/** This year, or another, runs early or late, for all crops or for one; 0 takes it back. */
export const saveLateness = (
  recording: Recording,
  request: LatenessRequest,
): Promise<Outcome<LatenessRequest>> =>
  record(recording, 'save lateness', request, async ({ trx, householdId }) => {
    const { year, crop, days } = request;
    // A crop of its own may run as usual in a year in which the others do not.
    await trx
      .deleteFrom('season_lateness')
      .where('household_id', '=', householdId)
      .where('year', '=', year)
      .where('crop', '=', crop ?? '')
      .execute();
    if (days !== null)
      await trx
        .insertInto('season_lateness')
        .values({ household_id: householdId, year, crop: crop ?? '', days })
        .execute();
    return found(request);
  });

/** Nothing grew this year: other years keep what is usual. Said back, this year gives the usual again. */
export const sayFailed = (
  recording: Recording,
  request: { readonly sourceId: string; readonly failed: boolean },
): Promise<Outcome<{ readonly year: number }>> =>
  record(recording, 'say failed', request, async ({ trx, householdId, today }) => {
    const year = yearOf(today);
    const source = (await sourcesOf(trx, householdId)).find(({ id }) => id === request.sourceId);
    const own = source?.windows.find((window) => window.year === year);
    const pattern = own ?? source?.windows.findLast((window) => window.year < year) ?? source?.windows[0];
    if (source === undefined || pattern === undefined) return found({ year });
    const usual = pattern.usualLbPerWeek ?? pattern.lbPerWeek;
    const years = year - pattern.year;
    const moved = (date: CalendarDate): CalendarDate => addMonths(date, 12 * years);
    const said = {
      lb_per_week: request.failed ? 0 : usual,
      usual_lb_per_week: request.failed && usual > 0 ? usual : null,
    };
    await trx
      .insertInto('harvest_window')
      .values({
        household_id: householdId,
        source_id: source.id,
        year,
        begins_on: moved(pattern.beginsOn),
        ends_on: moved(pattern.endsOn),
        most_active_from: pattern.mostActive === null ? null : moved(pattern.mostActive.fromOn),
        most_active_until: pattern.mostActive === null ? null : moved(pattern.mostActive.untilOn),
        first_picked_on: null,
        dates_guessed: pattern.datesGuessed ? 1 : 0,
        ...said,
      })
      .onConflict((same) => same.columns(['household_id', 'source_id', 'year']).doUpdateSet(said))
      .execute();
    return found({ year });
  });
