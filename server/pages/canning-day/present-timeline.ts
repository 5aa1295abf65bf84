import { counted, wordFor } from '../../../shared/counting.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { addDays, dateInZone, instantOnClock } from '../../../shared/week.ts';
import { sealChecks } from '../../../src/preserving/afterwards/seal-check.ts';
import type { DayTask, TaskKind } from '../../../src/preserving/day/day-kitchen.ts';
import type { BatchHere, SessionHere, Timeline } from '../../../src/preserving/day/session-here.ts';
import type {
  DayStripProps,
  StripBlock,
  TimelineProps,
  TimelineRow,
} from '../../../views/pages/canning-day/timeline.tsx';
import {
  formatClock,
  formatMinutes,
  formatTimeOfDay,
  formatWeekdayName,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { insideSentence, sentenceCase } from '../../../views/words/sentences.ts';

interface DaySetting {
  readonly on: CalendarDate;
  readonly reading: Reading;
}

interface Setting extends DaySetting {
  /** Zone of the household, for the hours at which seals are checked. */
  readonly timeZone: string;
}

const minutesPerDay = 24 * 60;

/** `9:45 AM`, with the weekday when it is not the canning day itself. */
export const timeWords = (minutes: number, { on, reading }: DaySetting): string => {
  const days = Math.floor(minutes / minutesPerDay);
  const time = formatTimeOfDay(minutes - days * minutesPerDay, reading);
  return days === 0 ? time : `${formatWeekdayName(addDays(on, days), reading)} ${time}`;
};

const words: Readonly<Record<TaskKind, (what: string, canner: string) => string>> = {
  prepare: (what) => `Prepare ${what}`,
  cook: (what) => `Cook ${what}`,
  'keep-hot': (what) => `Keep ${what} hot`,
  fill: (what) => `Fill jars with ${what}`,
  load: (what, canner) => `Load ${canner} with ${what}`,
  'heat-up': (_, canner) => `${canner} comes to a boil`,
  'heat-up-and-vent': (_, canner) => `${canner} heats and vents`,
  vent: (_, canner) => `${canner} vents`,
  pressurise: (_, canner) => `${canner} comes to pressure`,
  process: (what) => `Process ${what}`,
  depressurise: (_, canner) => `${canner} cools by itself`,
  wait: (_, canner) => `Leave the jars in ${canner}`,
  unload: (what, canner) => `Lift ${what} out of ${canner}`,
  rest: (what) => `${what} rest`,
  'check-seals': (what) => `Check the seals: ${what}`,
};

/** In a pressure canner the heat-up ends in venting, not in a boil. */
const phaseWords = (task: DayTask, batch: BatchHere | undefined, cannerName: string): string => {
  const name = insideSentence(batch?.item.name ?? task.batch);
  const isPressure = batch?.canned?.ok === true && batch.canned.value.schedule.method === 'pressure';
  if (task.kind === 'heat-up' && isPressure) return `${cannerName} heats until steam streams out`;
  return words[task.kind](name, cannerName);
};

const shownKinds: readonly TaskKind[] = [
  'prepare',
  'cook',
  'fill',
  'load',
  'heat-up',
  'heat-up-and-vent',
  'vent',
  'pressurise',
  'process',
  'depressurise',
  'wait',
  'unload',
];

export function presentTimeline(
  { batches, setting: { people, who = [] } }: SessionHere,
  timeline: Timeline,
  setting: Setting,
  cannerNames: ReadonlyMap<string, string>,
): TimelineProps {
  const { day, startsAt, endsAt, setUpMinutes } = timeline;
  const from = startsAt + setUpMinutes;
  const isAlone = people < 2;
  const batchOf = (id: string) => batches.find(({ recipe }) => recipe.id === id);
  const whatOf = (task: DayTask): string =>
    phaseWords(task, batchOf(task.batch), cannerNames.get(task.canner ?? '') ?? 'the canner');
  const several = (task: DayTask): string => {
    const loads = batchOf(task.batch)?.canned;
    const parts = [
      (batchOf(task.batch)?.batches ?? 1) > 1 ? `batch ${task.pot}` : '',
      loads?.ok && task.load !== null && loads.value.dayBatch.loadsPerPot > 1 ? `load ${task.load}` : '',
    ].filter((part) => part !== '');
    return parts.length === 0 ? '' : `, ${parts.join(', ')}`;
  };
  const rows = day.tasks
    .filter(({ kind }) => shownKinds.includes(kind))
    .map(
      (task): TimelineRow => ({
        key: `${task.batch}-${task.pot}-${task.load ?? 0}-${task.kind}`,
        at: timeWords(from + task.fromMinute, setting),
        what: `${whatOf(task)}${several(task)}${task.tickFirst === null ? '' : '. Tick the acid first'}`,
        lasts: formatMinutes(task.toMinute - task.fromMinute),
        where: placeWords(task, cannerNames),
        who: task.person === null ? '' : personName(who, task.person),
        person: task.person,
        isProcess: task.kind === 'process',
      }),
    );
  const setOut: TimelineRow = {
    key: 'set-out',
    at: timeWords(startsAt, setting),
    what: 'Set out, wash jars, fill the canners and put them on',
    lasts: formatMinutes(setUpMinutes),
    where: '',
    who: isAlone ? personName(who, 0) : 'everybody',
    person: null,
    isProcess: false,
  };
  return {
    line: `${timeWords(startsAt, setting)} to ${timeWords(endsAt, setting)}, ${formatMinutes(endsAt - startsAt)}; ${formatMinutes(setUpMinutes)} of it to set out. Heating and cooling are counted at the longest published times.`,
    strip: presentStrip(timeline, whatOf, cannerNames, { ...setting, who }),
    rows: [...(setUpMinutes > 0 ? [setOut] : []), ...rows, ...restRows(day.tasks, from, setting)],
    lists: personLists(setUpMinutes > 0 ? setOut : null, rows, day.tasks, { people, who, setUpMinutes }),
  };
}

/** `Ann`; `person 2` of whom nobody said a name. */
const personName = (who: readonly string[], person: number): string => who[person] ?? `person ${person + 1}`;

/** What each person does, in the order of the day; one list alone where one works and has no name. */
function personLists(
  setOut: TimelineRow | null,
  rows: readonly TimelineRow[],
  tasks: readonly DayTask[],
  {
    people,
    who,
    setUpMinutes,
  }: { readonly people: number; readonly who: readonly string[]; readonly setUpMinutes: number },
): TimelineProps['lists'] {
  if (people < 2 && who.length === 0) return [];
  return Array.from({ length: people }, (_, person) => {
    const minutes = tasks
      .filter((task) => task.person === person)
      .reduce((sum, { fromMinute, toMinute }) => sum + toMinute - fromMinute, setUpMinutes);
    const own = rows.filter((row) => row.person === person);
    return {
      name: sentenceCase(personName(who, person)),
      line: minutes < 1 ? '' : `${formatMinutes(minutes)} of work`,
      steps: [...(setOut === null ? [] : [setOut]), ...own].map(({ key, at, what }) => ({ key, at, what })),
    };
  });
}

const placeWords = (task: DayTask, cannerNames: ReadonlyMap<string, string>): string => {
  if (task.canner !== null) return cannerNames.get(task.canner) ?? task.canner;
  return task.burner === null ? '' : `burner ${task.burner + 1}`;
};

/** The rest and the look at the seals, once for all loads. */
function restRows(tasks: readonly DayTask[], from: number, setting: Setting): readonly TimelineRow[] {
  const unloaded = tasks.filter(({ kind }) => kind === 'unload').map(({ toMinute }) => toMinute);
  if (unloaded.length === 0) return [];
  const last = from + Math.max(...unloaded);
  const row = { lasts: '', where: '', who: '', person: null, isProcess: false };
  const checks = sealChecks(
    unloaded.map((minute) => instantOnClock(setting.on, from + minute, setting.timeZone)),
    setting.timeZone,
  );
  let checked = 0;
  return [
    {
      ...row,
      key: 'rest',
      at: timeWords(last, setting),
      what: 'Leave every jar alone for 12 to 24 hours; do not tighten the bands',
    },
    ...checks.map(({ from: at, to, loads }, place) => {
      const which = wordFor(checks.length, 'every seal', `the seals of ${loadsWords(checked, loads)}`);
      checked += loads;
      return {
        ...row,
        key: place === 0 ? 'check-seals' : `check-seals-${place + 1}`,
        at: instantWords(at, setting),
        what: `Check ${which}, at the latest by ${instantWords(to, setting)}`,
      };
    }),
  ];
}

/** `the first 2 loads`, `loads 3 to 5`. */
const loadsWords = (before: number, loads: number): string => {
  if (before === 0) return wordFor(loads, 'the first load', `the first ${counted(loads, 'load')}`);
  return wordFor(loads, `load ${before + 1}`, `loads ${before + 1} to ${before + loads}`);
};

/** `Sunday 7:00 AM`, with the weekday when it is not the canning day itself. */
const instantWords = (instant: number, { on, reading, timeZone }: Setting): string => {
  const date = dateInZone(instant, timeZone);
  const time = formatClock(instant, timeZone, reading);
  return date === on ? time : `${formatWeekdayName(date, reading)} ${time}`;
};

/** Widest spacing of the hours under the strip. */
const hoursShown = 12;

function presentStrip(
  { day, startsAt, endsAt, setUpMinutes }: Timeline,
  whatOf: (task: DayTask) => string,
  cannerNames: ReadonlyMap<string, string>,
  setting: Setting & { readonly who: readonly string[] },
): DayStripProps {
  const blockOf = (task: DayTask, kind: StripBlock['kind']): StripBlock => ({
    key: `${task.batch}-${task.pot}-${task.load ?? 0}-${task.kind}`,
    from: setUpMinutes + task.fromMinute,
    to: setUpMinutes + task.toMinute,
    words: `${timeWords(startsAt + setUpMinutes + task.fromMinute, setting)} ${whatOf(task)}`,
    kind,
  });
  const people = [...new Set(day.tasks.flatMap(({ person }) => (person === null ? [] : [person])))].toSorted(
    (one, other) => one - other,
  );
  const canners = [
    ...new Set(day.tasks.flatMap(({ canner }) => (canner === null ? [] : [canner]))),
  ].toSorted();
  const every = Math.max(60, Math.ceil((endsAt - startsAt) / hoursShown / 60) * 60);
  const firstHour = Math.ceil(startsAt / 60) * 60;
  const hours = [];
  for (let at = firstHour; at <= endsAt; at += every)
    hours.push({ at: at - startsAt, words: timeWords(at, setting).replace(/:00/, '') });
  return {
    minutes: endsAt - startsAt,
    hours,
    lanes: [
      ...people.map((person) => ({
        name: sentenceCase(personName(setting.who, person)),
        blocks: [
          ...(setUpMinutes > 0
            ? [
                {
                  key: `set-out-${person}`,
                  from: 0,
                  to: setUpMinutes,
                  words: 'Set out',
                  kind: 'work' as const,
                },
              ]
            : []),
          ...day.tasks.filter((task) => task.person === person).map((task) => blockOf(task, 'work')),
        ],
      })),
      ...canners.map((canner) => ({
        name: cannerNames.get(canner) ?? canner,
        blocks: day.tasks
          .filter((task) => task.canner === canner)
          .map((task) => blockOf(task, task.kind === 'process' ? 'process' : 'canner')),
      })),
    ],
  };
}

/** `Ann: prepare peaches`, where several are there or one has a name. */
export const stepWithName = (
  { what, who }: Pick<TimelineRow, 'what' | 'who'>,
  lists: TimelineProps['lists'],
): string => (who === '' || lists.length === 0 ? what : `${sentenceCase(who)}: ${insideSentence(what)}`);

/** The few lines of the timeline that go on paper: what a hand is needed for, and the processing. */
export const paperTimeline = ({
  rows,
  lists,
}: TimelineProps): readonly { readonly key: string; readonly at: string; readonly what: string }[] =>
  rows
    .filter(
      (row) => row.who !== '' || row.isProcess || row.key === 'rest' || row.key.startsWith('check-seals'),
    )
    .map((row) => ({ key: row.key, at: row.at, what: stepWithName(row, lists) }));
