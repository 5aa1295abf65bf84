import { counted } from '../../../shared/counting.ts';
import { dateWords } from '../../../shared/date-words.ts';
import type { SourceId } from '../../../shared/ids.ts';
import { found, type Outcome, refused, together } from '../../../shared/problems.ts';
import type {
  FirstPicked,
  GardenYieldRequest,
  HarvestWindowRequest,
  SourceRequest,
} from '../../../shared/schemas/harvest.ts';
import { addDays, daysBetween, yearOf } from '../../../shared/week.ts';
import type { HarvestWindow, Source } from '../../../src/household/source.ts';
import { sourcesOf } from '../../queries/year/harvest.ts';
import { freshId } from '../fresh-id.ts';
import { problemsIn, type Recorder, type Recording, type Rules, record, refuse } from '../record.ts';
import { settleGuess } from './guesses.ts';

async function knownSource(recorder: Recorder, sourceId: string): Promise<Outcome<Source>> {
  const all = await sourcesOf(recorder.trx, recorder.householdId);
  const source = all.find((candidate) => candidate.id === sourceId);
  return source
    ? found(source)
    : refuse('source-unknown', 'sourceId', 'Choose a source from the harvest page, or add it first.');
}

/** Adds a source or changes one. */
export const saveSource = (
  recording: Recording,
  request: SourceRequest & Partial<Pick<Source, 'pricedIn'>>,
): Promise<Outcome<{ readonly sourceId: SourceId }>> =>
  record(recording, 'save source', request, async (recorder) => {
    if (request.sourceId !== null) {
      const known = await knownSource(recorder, request.sourceId);
      if (!known.ok) return known;
    }
    const taken = await recorder.trx
      .selectFrom('source')
      .select('id')
      .where('household_id', '=', recorder.householdId)
      .execute();
    const id =
      request.sourceId ??
      (freshId(
        request.name,
        taken.map((row) => row.id),
      ) as SourceId);
    const said = {
      crop: request.crop,
      name: request.name,
      kind: request.kind,
      price_cents_per_lb: request.pricePerLb,
      price_measure: request.pricedIn?.measure ?? null,
      price_measure_cents: request.pricedIn?.cents ?? null,
      plants: request.plants,
      lb_per_plant: request.lbPerPlant,
      use_by_days: request.useByDays,
      poor_year_chance: request.poorYearChance,
      poor_year_share: request.poorYearShare,
      fall_back: request.fallBack,
    };
    await recorder.trx
      .insertInto('source')
      .values({ household_id: recorder.householdId, id, ...said, retired_on: null })
      .onConflict((same) => same.columns(['household_id', 'id']).doUpdateSet(said))
      .execute();
    await settleGuess(recorder, 'source', id);
    return found({ sourceId: id });
  });

/** A source that is no longer used; its past stays. */
export const retireSource = (
  recording: Recording,
  sourceId: string,
): Promise<Outcome<{ readonly sourceId: string }>> =>
  record(recording, 'retire source', { sourceId }, async (recorder) => {
    const known = await knownSource(recorder, sourceId);
    if (!known.ok) return known;
    await recorder.trx
      .updateTable('source')
      .set({ retired_on: recorder.today })
      .where('household_id', '=', recorder.householdId)
      .where('id', '=', sourceId)
      .execute();
    return found({ sourceId });
  });

/** Writes down one year's harvest of a source: first and last day, the most active days, pounds a week. */
export const saveHarvestWindow = (
  recording: Recording,
  request: HarvestWindowRequest,
  { datesGuessed = false }: { readonly datesGuessed?: boolean } = {},
): Promise<Outcome<{ readonly year: number }>> =>
  record(recording, 'save harvest window', request, async (recorder) => {
    const known = await knownSource(recorder, request.sourceId);
    if (!known.ok) return known;
    const dates = datesInOrder(request);
    if (!dates.ok) return dates;
    const year = yearOf(request.beginsOn);
    const before = known.value.windows.find((window) => window.year === year) ?? null;
    const said = {
      begins_on: request.beginsOn,
      ends_on: addDays(request.lastOn, 1),
      most_active_from: dates.value?.fromOn ?? null,
      most_active_until: dates.value?.untilOn ?? null,
      lb_per_week: request.lbPerWeek,
      // A year in which nothing grew says nothing of the next: what was usual before stays beside it.
      usual_lb_per_week:
        request.lbPerWeek > 0 ? null : (before?.usualLbPerWeek ?? (before?.lbPerWeek || null)),
      dates_guessed: datesGuessed || isAsGuessed(before, request) ? 1 : 0,
    };
    await recorder.trx
      .insertInto('harvest_window')
      .values({
        household_id: recorder.householdId,
        source_id: request.sourceId,
        year,
        ...said,
        first_picked_on: null,
      })
      .onConflict((same) => same.columns(['household_id', 'source_id', 'year']).doUpdateSet(said))
      .execute();
    return found({ year });
  });

/** Whether the dates are those that were guessed: then they go on moving with the ground. */
const isAsGuessed = (before: HarvestWindow | null, request: HarvestWindowRequest): boolean =>
  before?.datesGuessed === true &&
  before.beginsOn === request.beginsOn &&
  before.endsOn === addDays(request.lastOn, 1) &&
  (before.mostActive?.fromOn ?? null) === request.mostActiveFrom &&
  (before.mostActive === null ? null : addDays(before.mostActive.untilOn, -1)) === request.mostActiveLastOn;

const longestWindowInDays = 365;

/** Both spans of a harvest: its days, and those of them in which most comes. */
function datesInOrder(request: HarvestWindowRequest) {
  const both = together(wholeSpan(request), spanOfMost(request));
  return both.ok ? found(both.value[1]) : both;
}

type Dates = Readonly<Partial<HarvestWindowRequest>>;

/** Both spans are in order, as far as their days can be read. */
export const harvestWindowRules: Rules<HarvestWindowRequest> = (_reader, dates) =>
  problemsIn(wholeSpan(dates), spanOfMost(dates));

function wholeSpan({ beginsOn, lastOn }: Dates): Outcome<null> {
  if (beginsOn === undefined || lastOn === undefined) return found(null);
  if (lastOn < beginsOn)
    return refuse(
      'window-ends-before-begin',
      'lastOn',
      `The last day, ${dateWords(lastOn)}, is before the first, ${dateWords(beginsOn)}. Change one of the two.`,
    );
  if (daysBetween(beginsOn, lastOn) > longestWindowInDays)
    return refuse(
      'window-too-long',
      'lastOn',
      `A harvest of ${counted(daysBetween(beginsOn, lastOn), 'day')} is more than ${longestWindowInDays}. Check the year of both dates.`,
    );
  return found(null);
}

function spanOfMost({ beginsOn, lastOn, mostActiveFrom, mostActiveLastOn }: Dates) {
  if (mostActiveFrom === undefined || mostActiveLastOn === undefined) return found(null);
  if (mostActiveFrom === null && mostActiveLastOn === null) return found(null);
  if (mostActiveFrom === null || mostActiveLastOn === null)
    return refuse(
      'most-active-half-said',
      mostActiveFrom === null ? 'mostActiveFrom' : 'mostActiveLastOn',
      'The most active days have a first and a last one; one is empty. Fill in the other or clear it.',
    );
  if (beginsOn === undefined || lastOn === undefined) return found(null);
  if (mostActiveLastOn < mostActiveFrom || mostActiveFrom < beginsOn || mostActiveLastOn > lastOn)
    return refuse(
      'most-active-outside',
      'mostActiveFrom',
      `The most active days, ${dateWords(mostActiveFrom)} to ${dateWords(mostActiveLastOn)}, are not in order between ${dateWords(beginsOn)} and ${dateWords(lastOn)}. Change them or leave both blank.`,
    );
  return found({ fromOn: mostActiveFrom, untilOn: addDays(mostActiveLastOn, 1) });
}

/** "First picked today": this year's window moves with it. */
export const sayFirstPicked = (recording: Recording, request: FirstPicked): Promise<Outcome<FirstPicked>> =>
  record(recording, 'first picked', request, async (recorder) => {
    const known = await knownSource(recorder, request.sourceId);
    if (!known.ok) return known;
    const { firstPickedOn, year } = request;
    if (firstPickedOn !== null && firstPickedOn > recorder.today)
      return refuse(
        'date-in-future',
        'firstPickedOn',
        `${dateWords(firstPickedOn)} is still to come; today is ${dateWords(recorder.today)}. Say it when the first was picked.`,
      );
    const { numUpdatedRows } = await recorder.trx
      .updateTable('harvest_window')
      .set({ first_picked_on: firstPickedOn })
      .where('household_id', '=', recorder.householdId)
      .where('source_id', '=', request.sourceId)
      .where('year', '=', year)
      .executeTakeFirstOrThrow();
    if (numUpdatedRows === 0n)
      return refuse(
        'window-missing',
        'year',
        `The dates of ${known.value.name} for ${year} are not written down yet. Fill in first and last day first.`,
      );
    return found(request);
  });

/** Writes down what a garden source gave in a year, in place of what was written before; no amount takes it back. */
export const sayGardenYield = (
  recording: Recording,
  request: GardenYieldRequest,
): Promise<Outcome<GardenYieldRequest>> =>
  record(
    recording,
    'say garden yield',
    request,
    async (recorder) => {
      const known = await knownSource(recorder, request.sourceId);
      if (!known.ok) return known;
      const amiss = await gardenYieldRules(recorder, request);
      if (amiss.length > 0) return refused(...amiss);
      const key = { household_id: recorder.householdId, source_id: request.sourceId, year: request.year };
      const { trx } = recorder;
      if (request.lb === null) {
        await trx
          .deleteFrom('garden_yield')
          .where('household_id', '=', key.household_id)
          .where('source_id', '=', key.source_id)
          .where('year', '=', key.year)
          .execute();
        return found(request);
      }
      const said = { lb: request.lb, plants: request.plants };
      await trx
        .insertInto('garden_yield')
        .values({ ...key, ...said })
        .onConflict((same) => same.columns(['household_id', 'source_id', 'year']).doUpdateSet(said))
        .execute();
      return found(request);
    },
    'no facts',
  );

/** A year that is still to come has given nothing. */
export const gardenYieldRules: Rules<GardenYieldRequest> = async ({ today }, { year }) =>
  year === undefined || year <= yearOf(today)
    ? []
    : problemsIn(
        refuse(
          'year-in-future',
          'year',
          `${year} is still to come; it is ${yearOf(today)}. Write down a year whose harvest has begun.`,
        ),
      );
