import { z } from 'zod';
import { counted } from '../../shared/counting.ts';
import { optionalIdField } from '../../shared/schemas/id-fields.ts';
import { type CalendarDate, laterOf, type WeekKey, weekHolding, weekKey } from '../../shared/week.ts';
import type { Material } from '../../src/household/supplies.ts';
import type { BatchDays } from '../../src/planning/days/batch-days.ts';
import { neededFor } from '../../src/planning/days/buy-by.ts';
import { type DayLine, daysBesides } from '../../src/planning/days/day-lines.ts';
import { type FetchAsked, fetchDays } from '../../src/planning/days/fetch-days.ts';
import { whoIsThere } from '../../src/planning/days/session-dates.ts';
import { nextCanningWeek, sessionDays } from '../../src/planning/days/week-sessions.ts';
import type { Plan, PlannedWeek } from '../../src/planning/plan.ts';
import { pickAndBuyBy } from '../../src/preserving/day/day-batch.ts';
import {
  type BatchHere,
  type SessionHere,
  type SessionKitchen,
  sessionHere,
  usualSetting,
} from '../../src/preserving/day/session-here.ts';
import { measuresIn } from '../../src/preserving/foods/trade-measures.ts';
import { cautionsFor, everyCaution } from '../../src/preserving/sheet/cautions.ts';
import { formatLongDay, formatWeek } from '../../views/words/format.ts';
import { readingOf } from '../../views/words/reading.ts';
import { presentSetOut } from '../pages/canning-day/present-set-out.ts';
import { sheetMark } from '../pages/canning-day/present-sheet.ts';
import { presentTimeline, stepWithName } from '../pages/canning-day/present-timeline.ts';
import { canningSessionsOf } from '../queries/canning/canning-sessions.ts';
import { itemsOf } from '../queries/household/items.ts';
import { cannersOf, kitchenHoursOf } from '../queries/household/kitchen.ts';
import { materialsOf, recipesOf, suppliesOf } from '../queries/household/recipes.ts';
import { sourcesOf } from '../queries/year/harvest.ts';
import { standingPlanOf } from '../queries/year/plans.ts';
import { type WaitingMaterial, waitingMaterialsOf } from '../queries/year/waiting-material.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';
import { closePlanner, planYear } from '../solver/plan-year.ts';
import { heldBackWords, lineText } from '../words/batch-days.ts';
import { whereAndLater, whereAndWhen } from '../words/buying/fetch-words.ts';
import { type PlannedNames, purchaseWords } from '../words/planned-words.ts';
import { acidInWords, presentSchedule, scheduleWords } from '../words/process-words.ts';
import { sheetSteps } from '../words/sheet-steps.ts';
import { batchDaysBy } from '../year/batch-days-by.ts';
import { loadPlanningYear } from '../year/load-year.ts';
import { planHousehold } from '../year/plan-household.ts';
import { preparationsOf } from '../year/preparations.ts';
import {
  complain,
  couldNot,
  done,
  notUnderstood,
  type Opened,
  readOptions,
  usualFields,
  usualOptions,
  withHousehold,
} from './options.ts';

const schema = z.object({
  ...usualFields,
  week: optionalIdField('--week', weekKey, { like: 'a week like 2026-W34' }),
});

/** Prints the canning days of a week: what to fetch, what to set out, when, and how long each load is processed here. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, { ...usualOptions, week: { type: 'string' } }, schema);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { demo, json, database, week, 'as-of': asOf } = options.value;
  try {
    return await withHousehold({ demo, asOf, database }, async (opened) => {
      const answer = await canningWeek(opened, week);
      if (answer === null) {
        console.error(
          week === null
            ? 'The plan has no week with something to put up. Plan the year first, or name a week with --week.'
            : `The plan has nothing to put up in the ${formatWeek(week, readingOf(opened.household, opened.today))}. Leave --week out for the next canning week.`,
        );
        return couldNot;
      }
      if (json) console.log(JSON.stringify(inJson(answer), null, 1));
      else for (const line of inText(answer)) console.log(line);
      return done;
    });
  } finally {
    await closePlanner();
  }
}

interface CanningWeek {
  readonly week: WeekKey;
  readonly planned: PlannedWeek | null;
  readonly kitchen: SessionKitchen;
  readonly names: PlannedNames;
  readonly today: CalendarDate;
  readonly days: readonly SessionHere[];
  readonly batches: readonly BatchDays[];
  readonly fetchFrom: FetchAsked;
  readonly materials: readonly Material[];
  readonly waiting: readonly WaitingMaterial[];
}

async function canningWeek(
  { db, household, today, at }: Opened,
  asked: WeekKey | null,
): Promise<CanningWeek | null> {
  const reference = loadReferenceTables();
  const [stored, begun, items, recipes, canners, hours, sources, supplies, preparations, materials, waiting] =
    await Promise.all([
      standingPlanOf(db, household.id),
      canningSessionsOf(db, household.id),
      itemsOf(db, household.id),
      recipesOf(db, household.id),
      cannersOf(db, household.id),
      kitchenHoursOf(db, household.id),
      sourcesOf(db, household.id),
      suppliesOf(db, household.id),
      preparationsOf(db, household.id),
      materialsOf(db, household.id),
      waitingMaterialsOf(db, household.id),
    ]);
  const plan: Plan = stored?.plan ?? (await planned());
  const week = asked ?? nextCanningWeek(plan, begun, today, household.weekStartsOn);
  if (week === null) return null;
  const kitchen: SessionKitchen = {
    household,
    canners,
    items,
    recipes,
    hours,
    reference,
    preparations,
    now: at,
  };
  const plannedWeek = plan.weeks.find((one) => one.week === week) ?? null;
  const days = sessionDays(
    plannedWeek,
    begun.filter(({ on }) => weekHolding(on, household.weekStartsOn) === week),
    hours,
    household.weekStartsOn,
  );
  if (days.length === 0) return null;
  return {
    week,
    today,
    materials,
    waiting,
    batches: await batchDaysBy(plan, db, household, today, reference),
    planned: plannedWeek,
    fetchFrom: {
      plan,
      year: stored?.year ?? (await loadPlanningYear(db, household.id, today, reference)).year,
      hours,
      weekStartsOn: household.weekStartsOn,
    },
    kitchen,
    names: {
      items,
      recipes,
      sources,
      supplies,
      canners,
      reading: readingOf(household, today),
      measuresOf: measuresIn(reference),
    },
    days: days.map((day) =>
      sessionHere(
        day.work,
        kitchen,
        day.on,
        day.session?.setting ?? usualSetting(household, hours, whoIsThere(hours, day.on)),
      ),
    ),
  };

  async function planned(): Promise<Plan> {
    const { answer } = await planHousehold(db, household.id, today, reference, planYear);
    return answer.outcome === 'planned' ? answer.plan : answer.fallback.plan;
  }
}

/** The shopping day before; one that has passed is today, as the pages say it. */
const buyByFor = ({ on }: SessionHere, { batches, kitchen, today }: CanningWeek): CalendarDate => {
  const usual = neededFor([on], batches, kitchen.hours)?.buyBy ?? pickAndBuyBy(on);
  return today <= on ? laterOf(usual, today) : usual;
};

const pickAndBuy = ({ planned, names, fetchFrom }: CanningWeek) =>
  planned === null
    ? []
    : planned.purchases
        .filter(({ kind }) => kind !== 'item')
        .map((purchase) => {
          const ways = fetchDays(purchase, planned, fetchFrom);
          return {
            ...purchaseWords(names, purchase),
            where: whereAndWhen(purchase, ways, names, null),
            notBefore: ways[0].notBefore,
            by: ways[0].by,
            kind: purchase.kind,
            id: purchase.what,
          };
        });

const timelineOf = (here: SessionHere, { kitchen, names }: CanningWeek) =>
  here.timeline?.ok
    ? presentTimeline(
        here,
        here.timeline.value,
        { on: here.on, reading: names.reading, timeZone: kitchen.household.timeZone },
        new Map<string, string>(kitchen.canners.map(({ id, name }) => [id, name])),
      )
    : null;

/** Fields are added, never renamed. */
const inJson = (answer: CanningWeek) => ({
  week: answer.week,
  pickAndBuy: pickAndBuy(answer),
  days: answer.days.map((here) => ({
    on: here.on,
    pickAndBuyBy: buyByFor(here, answer),
    mark: here.basis.length === 0 ? null : sheetMark(here.basis),
    batches: here.batches.map(batchInJson),
    beforeAndAfter: daysBesides(answer.batches, here.on).map(dayInJson),
    setOut: presentSetOut(here.batches, answer, answer.kitchen.reference, answer.names.reading),
    timeline: here.timeline?.ok
      ? {
          startsAtMinute: here.timeline.value.startsAt,
          endsAtMinute: here.timeline.value.endsAt,
          setUpMinutes: here.timeline.value.setUpMinutes,
          tasks: here.timeline.value.day.tasks,
        }
      : null,
  })),
});

const dayInJson = (line: DayLine) => ({
  on: line.on,
  kind: line.kind,
  recipes: (line.kind === 'seals' ? line.batches : [line.batch]).map(({ recipe }) => recipe.id),
  ...(line.kind === 'stage'
    ? {
        position: line.day.stage.position,
        way: line.day.stage.way,
        what: line.day.stage.what,
        from: line.day.from,
        until: line.day.until,
        state: line.day.state,
      }
    : {}),
});

const batchInJson = ({
  recipe,
  item,
  headline,
  batches,
  canned,
  heldBack,
  alternatives,
  low,
  high,
}: BatchHere) => ({
  recipe: recipe.id,
  item: item.id,
  headline,
  batches,
  changes: recipe.changes,
  unitsLow: low,
  unitsHigh: high,
  canner: canned?.ok ? canned.value.canner.id : null,
  loads: canned?.ok ? canned.value.loads : [],
  schedule: canned?.ok ? canned.value.schedule : null,
  steps: canned?.ok ? canned.value.steps : [],
  // Only its stages stand in the way: it may be canned once they are done.
  isHeldBack: heldBack !== null,
  // Printed schedules of which one is still to be chosen; empty where one is printed or was chosen.
  choices: canned?.ok ? [] : alternatives.map(({ rowKey, minutes, psi }) => ({ rowKey, minutes, psi })),
  refusals: canned !== null && !canned.ok ? canned.problems : [],
  cautions: canned === null ? [] : canned.ok ? cautionsFor(canned.value.schedule) : everyCaution,
});

const inText = (answer: CanningWeek): readonly string[] => [
  `Canning in the ${formatWeek(answer.week, answer.names.reading)}`,
  ...answer.days.flatMap((here) => dayInText(here, answer)),
];

function dayInText(here: SessionHere, answer: CanningWeek): readonly string[] {
  const { reading } = answer.names;
  const timeline = timelineOf(here, answer);
  const cautions = new Set(
    here.batches.flatMap(({ canned }) =>
      (canned?.ok ? cautionsFor(canned.value.schedule) : everyCaution).map(({ text }) => text),
    ),
  );
  const usual = buyByFor(here, answer);
  return [
    '',
    `${formatLongDay(here.on, reading)}${timeline === null ? '' : `: ${timeline.line}`}`,
    `  By ${formatLongDay(usual, reading)} pick and buy:`,
    ...pickAndBuy(answer).map(
      ({ amount, about, what, where, by }) =>
        `    ${amount} ${what}${about === '' ? '' : `, ${about}`} (${whereAndLater(where, { by, usual }, reading)})`,
    ),
    ...presentSetOut(here.batches, answer, answer.kitchen.reference, reading).flatMap(({ title, lines }) => [
      `  ${title}:`,
      ...lines.map((line) => `    ${line}`),
    ]),
    ...beforeAndAfter(here, answer),
    '  Processing times:',
    ...here.batches.flatMap((batch) => processInText(batch, reading)),
    ...(timeline === null
      ? []
      : [
          '  When:',
          ...timeline.rows.map((row) => `    ${row.at.padStart(17)}  ${stepWithName(row, timeline.lists)}`),
        ]),
    ...stepsInText(here, reading),
    '  Safety notes:',
    ...[...cautions].map((text) => `    - ${text}`),
  ];
}

const beforeAndAfter = ({ on }: SessionHere, { batches, kitchen, names }: CanningWeek): readonly string[] => {
  const ofDay = batches.filter(({ plannedOn, calendar }) => plannedOn === on || calendar.load?.on === on);
  const lines = [
    ...ofDay.flatMap((batch) => heldBackWords(batch, names.reading) ?? []),
    ...daysBesides(batches, on).map((line) => lineText(line, kitchen.reference, names.reading)),
  ];
  return lines.length === 0 ? [] : ['  Before and after:', ...lines.map((line) => `    ${line}`)];
};

/** Every step of a load, in order, as on the paper sheet. */
const stepsInText = ({ batches }: SessionHere, reading: PlannedNames['reading']): readonly string[] => {
  const steps = sheetSteps(
    batches.flatMap(({ item, canned }) =>
      canned?.ok ? [{ name: item.name, steps: canned.value.steps }] : [],
    ),
    reading,
  );
  return steps.length === 0
    ? []
    : [
        '  Each load, step by step:',
        ...steps.map(
          ({ words, page, blocks }) =>
            `    [ ] ${words}${blocks ? ' Before the clock starts.' : ''} (${page})`,
        ),
      ];
};

function processInText(
  { headline, batches, canned, heldBack, alternatives }: BatchHere,
  reading: PlannedNames['reading'],
): readonly string[] {
  const title = `    ${headline}, ${counted(batches, 'batch')}`;
  if (canned === null) return [`${title}: not canned`];
  if (!canned.ok && alternatives.length > 0)
    return [
      `${title}: CHOOSE one of the printed schedules on the canning-day page, and follow it whole`,
      ...alternatives.map((schedule) => `      ${scheduleWords(schedule)}`),
    ];
  if (!canned.ok && heldBack !== null)
    return [`${title}: NOT YET`, ...canned.problems.map(({ message }) => `      ${message}`)];
  if (!canned.ok) return [`${title}: NO TIME`, ...canned.problems.map(({ message }) => `      ${message}`)];
  const { schedule, loads, canner } = canned.value;
  const shown = presentSchedule(schedule, reading);
  return [
    `${title}: ${shown.minutes} MINUTES${shown.pressure === null ? '' : ` at ${shown.pressure}`} ${shown.how} (${canner.name}), ${counted(loads.length, 'load')}`,
    ...shown.facts.map(({ name, value }) => `      ${name}: ${value}`),
    ...(schedule.acid === null
      ? []
      : [`      Into every jar first: ${schedule.acid.oneOf.map(acidInWords).join(', or ')}`]),
    `      ${shown.source}`,
  ];
}
