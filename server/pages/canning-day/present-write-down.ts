import { feetPerMetre } from '../../../shared/measures.ts';
import { batchesWrittenDown } from '../../../src/preserving/day/begun-batches.ts';
import type { LoadsOfDay } from '../../../src/preserving/day/loads-of-day.ts';
import { type Instant, readClock } from '../../../src/preserving/day/process-clock.ts';
import type { BatchHere } from '../../../src/preserving/day/session-here.ts';
import { shownPressure } from '../../../src/preserving/lookup/display-units.ts';
import type { Schedule } from '../../../src/preserving/lookup/schedule.ts';
import type { ByProduct } from '../../../src/preserving/recipes/by-product.ts';
import type { WriteDownForm, WriteDownProps } from '../../../views/pages/canning-day/write-down-page.tsx';
import { formatNumber, formatQuantity, inReadersUnit, readersUnit } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { insideSentence } from '../../../views/words/sentences.ts';
import { jarChoices } from '../../words/jar-choices.ts';
import { plain } from '../../words/plain-number.ts';
import { presentSchedule, scheduleWords } from '../../words/process-words.ts';
import { figureAndUnit, unitsOf } from '../../words/shelf-units.ts';
import type { DayPicture } from './present-day.ts';

/** When the last load of a batch was done by its clock; without a clock that ran, now. */
export function processedAt(batch: BatchHere, { clockByLoad }: LoadsOfDay, now: Instant): number {
  if (batch.canned?.ok !== true) return now.at;
  const { loads, schedule } = batch.canned.value;
  const done = loads.flatMap(({ key }) => {
    const clock = readClock(clockByLoad.get(key) ?? [], schedule.minutes, now);
    return clock.state === 'done' && clock.doneAt !== null ? [clock.doneAt] : [];
  });
  return done.length === 0 ? now.at : Math.max(...done);
}

/** Heights are typed as they are read, in feet or meters. */
export const altitudeUnit = ({ units }: Pick<Reading, 'units'>): 'ft' | 'm' =>
  units === 'metric' ? 'm' : 'ft';

/** What stands in the form at first: what the plan made ready, and what the ticks and clocks of the day already know. */
export function writeDownValues(
  batch: BatchHere,
  { loads, results }: DayPicture,
  {
    altitudeFt,
    watchedBy,
    reading,
  }: { readonly altitudeFt: number | null; readonly watchedBy: string; readonly reading: Reading },
): WriteDownForm['values'] {
  const schedule = batch.canned?.ok === true ? batch.canned.value.schedule : null;
  const left = Math.max(0, batch.batches - batchesWrittenDown(batch.recipe.id, results));
  const keys = batch.canned?.ok === true ? batch.canned.value.loads.map(({ key }) => key) : [];
  const isTicked = (key: string) => loads.tickedByLoad.get(key)?.has('acid-per-jar') === true;
  const isDone = (key: string): boolean =>
    schedule !== null &&
    readClock(loads.clockByLoad.get(key) ?? [], schedule.minutes, { at: Number.POSITIVE_INFINITY }).state ===
      'done';
  return {
    batches: String(left),
    units: unitsSetOut(batch, left),
    jarKind: batch.recipe.jarKind ?? '',
    otherUnits: '',
    otherKind: '',
    minutesRun: schedule !== null && keys.length > 0 && keys.every(isDone) ? String(schedule.minutes) : '',
    psi: '',
    psiHeld: false,
    altitudeFt:
      altitudeFt === null
        ? ''
        : plain(altitudeUnit(reading) === 'm' ? altitudeFt / feetPerMetre : altitudeFt),
    acidTicked: keys.length > 0 && keys.every(isTicked),
    doneBy: watchedBy,
    minutesTaken: '',
    byProduct: '',
    note: '',
  };
}

/** As many as were set out for the batches that are left, and were not kept aside; empty where nobody can say. */
const unitsSetOut = ({ canned, batches, low, high }: BatchHere, left: number): string => {
  if (left === 0) return '';
  const share = left / batches;
  if (canned?.ok === true)
    return plain(Math.round(canned.value.loads.reduce((sum, { jars }) => sum + jars, 0) * share));
  return canned === null && low === high ? plain(high * share) : '';
};

/** What the batches are likely to give, in the item's own unit, as its readers weigh it. */
const expectedWords = ({ item, recipe, low, high }: BatchHere, reading: Reading): string => {
  if (recipe.jarKind !== null || readersUnit(item.unit, reading) === item.unit)
    return spanWords(Math.floor(low), Math.ceil(high - 1e-9), reading);
  const [least, most] = [low, high].map((units) => inReadersUnit(units, item.unit, reading));
  return spanWords(Math.floor(least ?? 0), Math.ceil((most ?? 0) - 1e-9), reading);
};

const spanWords = (low: number, high: number, reading: Reading): string =>
  low < high
    ? `${formatNumber(low, reading)} to ${formatNumber(high, reading)}`
    : formatNumber(high, reading);

/** What the pressure is held against: the row of the day, or each row that may have been followed. */
const pressureWords = (printed: readonly Schedule[]): string => {
  const [only, ...others] = printed;
  return only !== undefined && only.psi !== null && others.length === 0
    ? `${shownPressure(only.psi)} psi or more.`
    : `Printed: ${printed.map(scheduleWords).join(', ')}; one of them, whole.`;
};

export function presentWriteDown(
  batch: BatchHere,
  left: ByProduct | null,
  /** `6 lb of apple pulp`: what its batches take of what others left; null for nothing. */
  taken: string | null,
  setting: {
    readonly action: string;
    readonly form: WriteDownForm;
    readonly jarKinds: readonly string[];
    readonly reading: Reading;
  },
): Omit<WriteDownProps, 'frame' | 'back'> {
  const { reading, form, action } = setting;
  const schedule = batch.canned?.ok === true ? batch.canned.value.schedule : null;
  const printed = schedule === null ? batch.alternatives : [schedule];
  const { atFirst, yieldLow, yieldHigh } = batch.recipe;
  return {
    title: batch.item.name,
    line: `${formatQuantity(batch.batches, 'batch', reading)} planned: ${expectedWords(batch, reading)} ${unitsOf(batch.item, reading)} expected.`,
    learnt:
      atFirst.batchesSeen === 0
        ? 'We learn from what you write here: the next plan expects a little more or less from a batch.'
        : `Published: ${formatNumber(atFirst.yieldLow, reading)} to ${formatNumber(atFirst.yieldHigh, reading)} a batch. After ${formatQuantity(atFirst.batchesSeen, 'batch', reading)} of yours the plan expects ${formatNumber(yieldLow, reading)} to ${formatNumber(yieldHigh, reading)}.`,
    taken: taken === null ? null : `Its batches take ${taken}; as much of it as waits is used up with them.`,
    units: figureAndUnit(`0 ${unitsOf(batch.item, reading)}`).unit,
    schedule: schedule === null ? null : presentSchedule(schedule, reading),
    refusal:
      batch.canned !== null && !batch.canned.ok && printed.length === 0
        ? batch.canned.problems.map(({ message }) => message)
        : [],
    asks: {
      altitudeUnit: altitudeUnit(reading),
      jars: batch.recipe.jarKind !== null,
      evidence: printed.length > 0,
      psi: printed[0]?.psi == null ? null : pressureWords(printed),
      psiHeld:
        schedule?.psi == null
          ? null
          : `The gauge stood at ${shownPressure(schedule.psi)} psi or more the whole time`,
      acid: printed.some(({ acid }) => acid !== null),
      byProduct:
        left === null
          ? null
          : {
              label: `${insideSentence(left.name)} left over`,
              unit: readersUnit(left.unit, reading),
              days: left.keepsDays,
            },
    },
    jarKinds: [{ value: '', words: 'none' }, ...jarChoices(setting.jarKinds)],
    form,
    action,
  };
}
