import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import { type BatchDays, stageMinutes } from '../../src/planning/days/batch-days.ts';
import type { DayLine } from '../../src/planning/days/day-lines.ts';
import type { RecipeStage } from '../../src/preserving/stages/recipe-stages.ts';
import { localDateTime, nextStages } from '../../src/preserving/stages/stages-done.ts';
import { stagesHere } from '../../src/preserving/stages/stages-here.ts';
import type { BatchDayLine, BatchDaysProps } from '../../views/parts/batch-days.tsx';
import type { FormKeys } from '../../views/parts/form.tsx';
import {
  formatMinutes,
  formatQuantity,
  formatTimeOfDay,
  formatWeekday,
  withCelsius,
} from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { insideSentence, listed } from '../../views/words/sentences.ts';
import { localWords, presentStep, waitWords } from './stage-step.ts';

/** A line in words, the same on page, paper, letter, calendar and in the terminal. */
export interface LineWords {
  /** `Pinto beans: cover the sorted beans with cold water and soak` */
  readonly what: string;
  /** The same where the recipe stands above it already: `cover the sorted beans with cold water and soak` */
  readonly task: string;
  /** `3:00 PM to 9:00 PM`; empty where any time of the day will do. */
  readonly when: string;
  /** How long it then waits and where, the work it is, what for; and whether it is written down. */
  readonly more: readonly string[];
}

const minuteOf = (time: string): number => Number(time.slice(11, 13)) * 60 + Number(time.slice(14, 16));

/** `3:00 PM to 9:00 PM`; `9:00 PM to Sun, Aug 23, 1:00 AM` never comes up: a time lies within its day. */
const spanWords = (from: string, until: string, reading: Reading): string => {
  const [first, last] = [minuteOf(from), minuteOf(until)];
  if (last - first >= 12 * 60) return '';
  return first === last
    ? formatTimeOfDay(first, reading)
    : `${formatTimeOfDay(first, reading)} to ${formatTimeOfDay(last, reading)}`;
};

const temperatureWords = ({ temperatureF: { from, to } }: RecipeStage, reading: Reading): string => {
  if (from === null && to === null) return '';
  const degrees = from === null || to === null || from === to ? `${from ?? to}` : `${from} to ${to}`;
  return withCelsius(` at ${degrees} °F`, reading);
};

const ofRecipe = (name: string, task: string) => ({ what: `${name}: ${task}`, task });

export function lineWords(line: DayLine, reference: ReferenceTables, reading: Reading): LineWords {
  switch (line.kind) {
    case 'stage': {
      const { stage, state, from, until } = line.day;
      const { recipe, batches, calendar } = line.batch;
      const minutes = stageMinutes(recipe, stagesHere(recipe, reference), calendar.way, stage, batches);
      const { load } = calendar;
      return {
        ...ofRecipe(recipe.name, insideSentence(stage.what)),
        when: state === 'done' ? formatTimeOfDay(minuteOf(from), reading) : spanWords(from, until, reading),
        more: [
          formatQuantity(batches, 'batch', reading),
          ...(stage.mostHours === 0 ? [] : [`then ${waitWords(stage)}${temperatureWords(stage, reading)}`]),
          ...(minutes === 0 ? [] : [`about ${formatMinutes(minutes)}`]),
          ...(load === null ? [] : [`to can on ${formatWeekday(load.on, reading)}`]),
          ...(state === 'done' ? ['written down'] : state === 'missed' ? ['not written down'] : []),
        ],
      };
    }
    case 'load':
      return {
        ...ofRecipe(line.batch.recipe.name, 'fill jars and process'),
        when: '',
        more: [
          formatQuantity(line.batch.batches, 'batch', reading),
          ...(line.batch.calendar.load === null
            ? []
            : [`not before ${localWords(line.batch.calendar.load.at, reading)}`]),
        ],
      };
    case 'seals': {
      const what = `Check the seals: ${listed([...new Set(line.batches.map(({ recipe }) => insideSentence(recipe.name)))])}`;
      return {
        what,
        task: what,
        when: '',
        more: [
          '12 to 24 hours after each load came out',
          'then bands off, jars washed, labeled and put away',
        ],
      };
    }
    case 'ready':
      return { ...ofRecipe(line.batch.recipe.name, 'ready to eat from today'), when: '', more: [] };
  }
}

/** A line as one line of text: `Fri, Aug 21, 3:00 PM to 9:00 PM: Pinto beans: …; 1 batch; …`. */
export const lineText = (line: DayLine, reference: ReferenceTables, reading: Reading): string => {
  const words = lineWords(line, reference, reading);
  return onItsDay(line, words.what, words, reading);
};

/** The same line under the name of its recipe. */
export const taskText = (line: DayLine, reference: ReferenceTables, reading: Reading): string => {
  const words = lineWords(line, reference, reading);
  return onItsDay(line, words.task, words, reading);
};

const onItsDay = (
  { on }: DayLine,
  what: string,
  { when, more }: Pick<LineWords, 'when' | 'more'>,
  reading: Reading,
): string => `${formatWeekday(on, reading)}${when === '' ? '' : `, ${when}`}: ${[what, ...more].join('; ')}`;

/** Why the load of some batches is not on its planned day, or not at all; null where it is as planned. */
export function heldBackWords({ calendar, plannedOn, recipe }: BatchDays, reading: Reading): string | null {
  const { state, load, fill } = calendar;
  const planned = plannedOn === null ? 'its day' : formatWeekday(plannedOn, reading);
  switch (state) {
    case 'not begun in time':
      return `${recipe.name} should have been started by now, and nothing is written down, so it can’t be canned on ${planned}. If you did start it in time, write down when.${fill === null ? '' : ` Started today, it can be canned from ${formatWeekday(dayOf(fill.from), reading)}.`}`;
    case 'moved':
      return `${recipe.name}: going by what is written down, it can’t be canned on ${planned}; ${load === null ? 'no day is left' : `the nearest day is ${formatWeekday(load.on, reading)}`}${fill === null || fill.until === null ? '' : `, the last ${formatWeekday(dayOf(fill.until), reading)}`}.`;
    case 'spoilt':
      return `${recipe.name}: a wait was longer than its source allows, or is not written down. If it was done in time, write down when; otherwise don’t can this batch, throw it away.`;
    default:
      return null;
  }
}

const dayOf = (time: string): CalendarDate => time.slice(0, 10) as CalendarDate;

export interface LinesPicture {
  readonly reference: ReferenceTables;
  readonly reading: Reading;
  readonly timeZone: string;
  readonly now: number;
  readonly today: CalendarDate;
  /** Null where nothing can be written down from the page. */
  readonly keys: (() => FormKeys) | null;
}

/** Lines under their days, each with the form that writes it down where that is possible now. */
export const presentBatchDays = (
  lines: readonly DayLine[],
  batches: readonly BatchDays[],
  picture: LinesPicture,
  from: string,
): BatchDaysProps => {
  const days = [...new Set(lines.map(({ on }) => on))];
  return {
    from,
    heldBack: [...new Set(batches.flatMap((batch) => heldBackWords(batch, picture.reading) ?? []))],
    days: days.map((on) => ({
      key: on,
      title: formatWeekday(on, picture.reading),
      isToday: on === picture.today,
      lines: lines.filter((line) => line.on === on).map((line) => presentLine(line, picture)),
    })),
  };
};

function presentLine(line: DayLine, picture: LinesPicture): BatchDayLine {
  const words = lineWords(line, picture.reference, picture.reading);
  return {
    key: line.key,
    ...words,
    state: line.kind === 'stage' ? line.day.state : 'ahead',
    step: line.kind === 'stage' ? stepOf(line, picture) : null,
    href: line.kind === 'seals' ? '/canning-day#results' : null,
  };
}

/** What the line asks for, if it can be written down now: the next stage of its batches, or their first. */
function stepOf(
  { batch, day }: Extract<DayLine, { kind: 'stage' }>,
  { keys, reference, reading, timeZone, now, today }: LinesPicture,
): BatchDayLine['step'] {
  if (keys === null || day.state === 'done' || day.on > today) return null;
  const stages = stagesHere(batch.recipe, reference);
  const begun = batch.calendar.before.flatMap(({ stage, state, from }) =>
    state === 'done' ? [{ position: stage.position, way: stage.way, begunAt: from }] : [],
  );
  const next = nextStages(stages, begun, timeZone).find(
    ({ stage, isLast }) => stage === day.stage && !isLast,
  );
  if (next === undefined || next.from > localDateTime(now, timeZone)) return null;
  const step = presentStep(
    { ...next, from: '', until: null },
    { reading, timeZone, now, keys },
    batch.begunId === null
      ? {
          action: '/stages',
          carried: [{ name: 'recipe', value: batch.recipe.id }],
          batches: String(batch.batches),
        }
      : { action: `/stages/${batch.begunId}`, carried: [], batches: null },
  );
  return { ...step, key: `${batch.key}-${day.stage.position}` };
}
