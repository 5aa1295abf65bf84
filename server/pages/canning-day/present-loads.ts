import { counted, wordFor } from '../../../shared/counting.ts';
import type { LoadsOfDay } from '../../../src/preserving/day/loads-of-day.ts';
import {
  type ClockDoubt,
  type ClockEvent,
  type Instant,
  readClock,
} from '../../../src/preserving/day/process-clock.ts';
import type {
  BatchHere,
  CannedHere,
  LoadHere,
  SessionHere,
} from '../../../src/preserving/day/session-here.ts';
import { shownPressure } from '../../../src/preserving/lookup/display-units.ts';
import type { Schedule } from '../../../src/preserving/lookup/schedule.ts';
import { phaseOf } from '../../../src/preserving/sheet/step-phase.ts';
import type { ClockProps, LoadProps } from '../../../views/pages/canning-day/load-card.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatClock, formatJars, formatMinutes, withMetric } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { Interruption } from '../../records/canning/canning-session.ts';
import { loadTitle } from '../../words/canning/running-clocks.ts';

export interface LoadSetting {
  /** Path of the day: `/canning-day/2026-W34/2026-08-22`. */
  readonly path: string;
  readonly loads: LoadsOfDay;
  readonly now: Instant;
  readonly timeZone: string;
  readonly reading: Reading;
  readonly keys: () => FormKeys;
  /** A load whose last step was refused, and why. */
  readonly problem: { readonly loadKey: string; readonly words: string } | null;
}

/** Every load of the day's canned batches, with its checklist and clock, in the order in which they go into a canner. */
export const presentLoads = (
  { batches, timeline }: SessionHere,
  setting: LoadSetting,
  /** Recipes whose batches are all written down: no load of them is asked for any more. */
  written: ReadonlySet<string>,
): readonly LoadProps[] => {
  const startOf = new Map(
    timeline?.ok
      ? timeline.value.day.tasks
          .filter(({ kind }) => kind === 'load')
          .map((task) => [`${task.batch}.${task.pot}.${task.load ?? 1}`, task.fromMinute])
      : [],
  );
  const inOrder = batches
    .flatMap((batch) =>
      batch.canned?.ok === true
        ? batch.canned.value.loads
            .filter(({ key }) => !written.has(batch.recipe.id) || isBegunLoad(setting.loads, key))
            .map((load) => presentLoad(batch, load, setting))
        : [],
    )
    .toSorted((one, other) => (startOf.get(one.key) ?? 0) - (startOf.get(other.key) ?? 0));
  return unfolded(inOrder);
};

const isBegunLoad = ({ tickedByLoad, clockByLoad }: LoadsOfDay, key: string): boolean =>
  orEmpty(tickedByLoad.get(key)).size > 0 || clockByLoad.has(key);

const orEmpty = (ticked: ReadonlySet<string> | undefined): ReadonlySet<string> => ticked ?? new Set();

/**
 * The loads at hand stand open: one whose clock runs, was broken or is doubted, one refused, one begun by a tick, and one
 * that is done as long as no later load was begun. Where there is none, the first that was not started.
 */
function unfolded(loads: readonly LoadProps[]): readonly LoadProps[] {
  const isBegun = ({ clock, steps }: LoadProps) =>
    clock.state !== 'not-started' || steps.some(({ ticked }) => ticked);
  const lastBegun = loads.findLastIndex(isBegun);
  const isAtHand = (load: LoadProps, index: number): boolean =>
    load.problem !== null ||
    load.clock.doubt !== null ||
    (load.clock.state === 'done' ? index === lastBegun : isBegun(load));
  const firstWaiting = loads.some(isAtHand)
    ? -1
    : loads.findIndex(({ clock }) => clock.state === 'not-started');
  return loads.map((load, index) => ({ ...load, isOpen: isAtHand(load, index) || index === firstWaiting }));
}

export function presentLoad(batch: BatchHere, load: LoadHere, setting: LoadSetting): LoadProps {
  if (batch.canned?.ok !== true) throw new RangeError('presentLoad: expected a batch that can be canned');
  const canned: CannedHere = batch.canned.value;
  const { schedule, steps, canner } = canned;
  const ticked = setting.loads.tickedByLoad.get(load.key) ?? new Set<string>();
  const jarKind = batch.recipe.process?.jarKind;
  return {
    key: load.key,
    title: loadTitle(batch.item.name, canned, load),
    line: `${jarKind === undefined ? load.jars : formatJars(load.jars, jarKind, setting.reading)} in ${canner.name}`,
    minutes: formatMinutes(schedule.minutes),
    pressure: schedule.psi === null ? null : `${shownPressure(schedule.psi)} psi`,
    steps: steps.map(({ key, text, blocksLoad }, at) => ({
      key,
      text: withMetric(text, setting.reading),
      ticked: ticked.has(key),
      blocks: blocksLoad,
      phase: phaseOf(steps, at),
    })),
    clock: presentClock(schedule, setting.loads.clockByLoad.get(load.key) ?? [], setting),
    keys: setting.keys(),
    ticksTo: `${setting.path}/loads/${load.key}/ticks`,
    clockTo: `${setting.path}/loads/${load.key}/clock`,
    isOpen: true,
    problem: setting.problem?.loadKey === load.key ? setting.problem.words : null,
  };
}

const startWords: Readonly<Record<Schedule['method'], string>> = {
  'boiling-water': 'Full boil: start the clock',
  'atmospheric-steam': 'Full steam: start the clock',
  pressure: 'At pressure: start the clock',
};

const interruptionWords: Readonly<Record<Interruption, string>> = {
  'boil-stopped': 'Boil stopped',
  'pressure-dropped': 'Pressure dropped',
  'power-cut': 'Power cut',
};

/** Why a time is doubted, what is counted meanwhile, and what only a person can know. */
function doubtWords({ kind, byMs }: ClockDoubt, minutes: number): string {
  const by = formatMinutes(Math.max(1, Math.round(byMs / 60_000)));
  const what =
    kind === 'wall-ahead'
      ? `The time of day went ${by} further than what surely passed: the clock was set forward, or the machine slept.`
      : `The time of day was set back by ${by}.`;
  return `${what} The longer wait is counted here. Do you have a timer of your own that ran from the start? Only if it shows the whole ${formatMinutes(minutes)} without a stop is this load done sooner; without one, wait.`;
}

const interruptionsOf = (method: Schedule['method']): readonly Interruption[] =>
  method === 'pressure' ? ['pressure-dropped', 'power-cut'] : ['boil-stopped', 'power-cut'];

function presentClock(
  { minutes, method }: Schedule,
  events: readonly ClockEvent[],
  { now, timeZone, reading }: LoadSetting,
): ClockProps {
  const clock = readClock(events, minutes, now);
  const at = (instant: number) => formatClock(instant, timeZone, reading);
  const start = events.findLast(({ kind }) => kind === 'started');
  const started = clock.doneAt === null || start === undefined ? null : start.at;
  const broken =
    clock.interruptions === 0
      ? ''
      : ` Interrupted ${wordFor(clock.interruptions, 'once', counted(clock.interruptions, 'time'))}, so counted from zero.`;
  const words: Readonly<Record<ClockProps['state'], string>> = {
    'not-started': 'Not started.',
    interrupted: `Back to zero: bring it back, then start the whole ${formatMinutes(minutes)} again.`,
    running: `Started ${started === null ? '' : at(started)}.${broken}`,
    done: `Started ${started === null ? '' : at(started)} and ran its ${formatMinutes(minutes)}.${broken}`,
  };
  return {
    state: clock.state,
    words: words[clock.state],
    due: clock.doneAt === null ? null : at(clock.doneAt),
    start: clock.state === 'not-started' || clock.state === 'interrupted' ? startWords[method] : null,
    doubt: clock.doubt === null ? null : doubtWords(clock.doubt, minutes),
    interruptions:
      clock.state === 'running'
        ? interruptionsOf(method).map((why) => ({ value: why, words: interruptionWords[why] }))
        : [],
  };
}
