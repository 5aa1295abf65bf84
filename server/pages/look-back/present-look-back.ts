import { compare } from '../../../shared/compare.ts';
import { counted } from '../../../shared/counting.ts';
import { asCents, type Cents, sumCents } from '../../../shared/money.ts';
import { addDays, type CalendarDate, daysBetween } from '../../../shared/week.ts';
import type { ForecastRecord } from '../../../src/consumption/forecast-record.ts';
import type { ItemLookBack, LookBack, PlanRecord } from '../../../src/look-back/look-back.ts';
import type { PlantsToGrow } from '../../../src/look-back/plants-to-grow.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';
import { isDue, type UpkeepLine } from '../../../src/preserving/upkeep.ts';
import type { ItemAccount } from '../../../src/shelf/account.ts';
import type {
  AcceptProps,
  CostLine,
  LookBackPageProps,
  PlantLine,
  YearLine,
} from '../../../views/pages/look-back/look-back-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import {
  formatDate,
  formatDay,
  formatMinutes,
  formatMoney,
  formatMonthOfYear,
  formatNumber,
  formatPercent,
  formatQuantity,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { insideSentence, listed } from '../../../views/words/sentences.ts';
import { taskName } from '../../words/canning/upkeep-tasks.ts';
import { reasonInWords } from '../../words/ledger-lines.ts';
import { type PlannedNames, purchaseWords } from '../../words/planned-words.ts';
import { amountOf, figureOf, wholeOf } from '../../words/shelf-units.ts';
import { dueWords } from '../shared/upkeep-words.ts';
import { presentWorth } from './present-worth.ts';

export interface LookBackSetting {
  readonly reading: Reading;
  readonly keys: () => FormKeys;
  readonly plan: StoredPlan | null;
  readonly names: PlannedNames;
  readonly upkeep: readonly UpkeepLine[];
  readonly plants: readonly PlantsToGrow[];
  readonly asOf: CalendarDate;
}

export function presentLookBack(
  back: LookBack,
  { reading, keys, plan, names, upkeep, plants, asOf }: LookBackSetting,
): Omit<LookBackPageProps, 'frame'> {
  const moved = back.items
    .filter(({ account }) => hasMoved(account))
    .sort((one, other) => compare(one.item.name, other.item.name));
  const waiting = moved.filter(mayAccept).length;
  const stays = (kind: ItemLookBack['item']['kind']) =>
    moved
      .filter((line) => !changes(line) && line.item.kind === kind)
      .map((line) => yearLine(line, reading, keys));
  return {
    period: `${formatDate(back.from, reading)} to ${formatDate(addDays(back.until, -1), reading)}`,
    summary: summaryOf(moved, reading),
    proposals: moved.filter(changes).map((line) => yearLine(line, reading, keys)),
    made: stays('preserve'),
    bought: stays('staple'),
    acceptAll: waiting < 2 ? null : { words: `Accept all ${waiting} as next year's targets`, keys: keys() },
    ranOut: moved
      .filter(({ account }) => account.daysWithout > 0)
      .sort((one, other) => other.account.daysWithout - one.account.daysWithout)
      .map(({ item, account }) => ({
        key: item.id,
        item: labelOf(item),
        when: withoutWords(account, reading),
        days: counted(account.daysWithout, 'day'),
        spans: account.withoutAny.map(({ from, until }) => ({
          from: daysBetween(back.from, from) / daysBetween(back.from, back.until),
          until: daysBetween(back.from, until) / daysBetween(back.from, back.until),
        })),
      })),
    thrownAway: moved
      .filter(({ account }) => account.thrownAway.length > 0)
      .map(({ item, account }) => ({
        key: item.id,
        item: labelOf(item),
        why: listed(
          account.thrownAway.map(
            ({ reason, units }) => `${amountOf(item, units, reading)}: ${thrownWords(reason)}`,
          ),
        ),
      })),
    costsInAll: inAllWords(moved, reading),
    months: presentMonths(back, reading),
    costs: moved.flatMap((line) => costLine(line, reading)),
    worth: presentWorth(back, reading),
    whoTook: presentWhoTook(back, reading),
    forecast: presentForecast(back.forecast, reading),
    plan: planWords(back.plan, reading),
    plants: plants.map((plants) => plantLine(plants, reading)),
    toBuy: lidsAndJars(plan, names),
    upkeep: upkeepAhead(upkeep, asOf, reading),
  };
}

/** Money and hours by month; nothing where nothing was put up. */
function presentMonths({ months: account }: LookBack, reading: Reading): LookBackPageProps['months'] {
  const { months, foods, foodsWithPrice } = account;
  if (foods === 0) return null;
  const sum = (cents: Cents) => formatMoney(cents, reading, true);
  return {
    months: months.map(({ month, money, minutes, inStore }) => ({
      key: month,
      month: formatMonthOfYear(`${month}-01` as CalendarDate, reading),
      money,
      moneyWords: money === 0 ? '' : sum(money),
      minutes,
      hoursWords: minutes < 1 ? '' : formatMinutes(minutes),
      inStore:
        inStore === null
          ? null
          : { ...inStore, words: `${sum(inStore.own)} instead of ${sum(inStore.asked)}` },
    })),
    storeWords:
      foodsWithPrice === 0
        ? 'What a store would have asked is not known: no store price of anything you put up is known.'
        : foodsWithPrice < foods
          ? `A store's price is known for ${formatNumber(foodsWithPrice, reading)} of the ${counted(formatNumber(foods, reading), 'food')} you put up; the others are in no comparison.`
          : "A store's price is known for everything you put up.",
  };
}

/** `Ida 31 times, Joan 12` and what each took most often. */
function presentWhoTook({ whoTook }: LookBack, reading: Reading): LookBackPageProps['whoTook'] {
  if (whoTook === null) return null;
  const { people, unsaid } = whoTook;
  return {
    inAll: listed(people.map(({ name, times }) => `${name} ${formatNumber(times, reading)}`)),
    people: people.map(({ name, times, mostOften }) => ({
      name,
      times: formatNumber(times, reading),
      mostOften: listed(mostOften),
    })),
    unsaid:
      unsaid === 0 ? '' : `Of ${counted(formatNumber(unsaid, reading), 'other take')} nobody said whose.`,
  };
}

/** More or less of it is wanted next year. */
const changes = ({ advice }: ItemLookBack): boolean => advice.advice === 'more' || advice.advice === 'less';

/** `$1,386, 74 hours` */
const inAllWords = (lines: readonly ItemLookBack[], reading: Reading): string => {
  const money = sumCents(lines.map((line) => line.money));
  const minutes = lines.reduce((total, line) => total + line.minutes, 0);
  return money === 0 && minutes === 0
    ? ''
    : `${formatMoney(money, reading, true)}, ${counted(formatNumber(minutes / 60, reading, 0), 'hour')}`;
};

const labelOf = (item: ItemLookBack['item']) => ({
  name: item.name,
  family: item.family,
  href: `/shelf/${item.id}`,
});

const came = ({ putUp, bought, received }: ItemAccount): number => putUp + bought + received;
const thrown = ({ thrownAway }: ItemAccount): number => thrownAway.reduce((sum, { units }) => sum + units, 0);
const hasMoved = (account: ItemAccount): boolean =>
  came(account) + account.eaten + account.given + thrown(account) + account.opening > 0;

/** Less than this of what is weighed is not spoken of, lb. */
const leastWeighed = 0.05;

function summaryOf(lines: readonly ItemLookBack[], reading: Reading): string {
  const kinds = (kind: ItemLookBack['item']['kind']) => lines.filter(({ item }) => item.kind === kind);
  // Jars, bags and pieces are counted together; pounds are no jars, and stand beside them.
  const sum = (of: readonly ItemLookBack[], units: (account: ItemAccount) => number) => {
    const total = (isWeighed: boolean) =>
      of
        .filter(({ item }) => (item.unit === 'lb') === isWeighed)
        .reduce((all, { account }) => all + units(account), 0);
    const [whole, weighed] = [Math.round(total(false)), total(true)];
    const counts = formatNumber(whole, reading, 0);
    if (weighed < leastWeighed) return counts;
    const weight = formatQuantity(weighed, 'lb', reading);
    return whole === 0 ? weight : `${counts} and ${weight}`;
  };
  const made = kinds('preserve');
  if (lines.length === 0) return 'Nothing was put up, bought or eaten in these twelve months.';
  const inShops = sumCents(lines.map((line) => line.moneyInShops));
  const putUp = asCents(sumCents(lines.map((line) => line.money)) - inShops);
  const minutes = lines.reduce((total, line) => total + line.minutes, 0);
  return `Of what you put up yourselves: ${sum(made, (account) => account.putUp)} put up, ${sum(made, (account) => account.eaten)} eaten, ${sum(made, (account) => account.given)} given away, ${sum(made, thrown)} thrown away. That took about ${formatMoney(putUp, reading, true)} and ${counted(formatNumber(minutes / 60, reading, 0), 'hour')} at the stove.${inShops <= 0 ? '' : ` What you bought ready-made cost ${formatMoney(inShops, reading, true)}.`}`;
}

const mayAccept = ({ advice, handTarget }: ItemLookBack): boolean =>
  advice.needUnits !== null && advice.needUnits !== handTarget;

/** Items whose advice has a figure that is not the target yet, with that figure. */
export const toAccept = (back: LookBack): readonly { readonly itemId: string; readonly units: number }[] =>
  back.items.flatMap((line) =>
    hasMoved(line.account) && mayAccept(line) && line.advice.needUnits !== null
      ? [{ itemId: line.item.id, units: line.advice.needUnits }]
      : [],
  );

function yearLine(line: ItemLookBack, reading: Reading, keys: () => FormKeys): YearLine {
  const { item, account, advice } = line;
  const whole = (units: number): string => figureOf(item, wholeOf(item, units), reading);
  const figure = (units: number): string => (units === 0 ? '' : whole(units));
  return {
    itemId: item.id,
    item: labelOf(item),
    came: figure(came(account)),
    eaten: figure(account.eaten),
    given: figure(account.given),
    thrown: figure(thrown(account)),
    left: whole(account.closing),
    advice:
      advice.advice === null ? 'cannot say' : `${item.kind === 'preserve' ? 'make' : 'buy'} ${advice.advice}`,
    because: advice.because,
    accept: presentAccept(line, reading, keys),
  };
}

export function presentAccept(line: ItemLookBack, reading: Reading, keys: () => FormKeys): AcceptProps {
  const { item, advice, handTarget } = line;
  if (advice.needUnits === null) return { itemId: item.id, state: { is: 'nothing' } };
  const units = amountOf(item, advice.needUnits, reading);
  return {
    itemId: item.id,
    state:
      advice.needUnits === handTarget
        ? { is: 'accepted', words: `${units} a year.` }
        : { is: 'open', units: String(advice.needUnits), words: `Accept ${units}`, keys: keys() },
  };
}

const withoutWords = ({ withoutAny, daysWithout }: ItemAccount, reading: Reading): string => {
  const spans = withoutAny.map(({ from, until }) =>
    addDays(from, 1) === until
      ? formatDay(from, reading)
      : `${formatDay(from, reading)} to ${formatDay(addDays(until, -1), reading)}`,
  );
  return `${listed(spans.slice(0, 4))}${spans.length > 4 ? ` and ${counted(spans.length - 4, 'more time')}` : ''}: ${counted(daysWithout, 'day')}`;
};

const thrownWords = (reason: string): string =>
  reason === 'seal failed' ? 'seal failed at the check' : reasonInWords(reason);

function costLine({ item, account, money, minutes }: ItemLookBack, reading: Reading): CostLine[] {
  const units = account.putUp + account.bought;
  if (units === 0 || (money === 0 && minutes === 0)) return [];
  return [
    {
      key: item.id,
      item: labelOf(item),
      money: formatMoney(money, reading, true),
      moneyEach: formatMoney(asCents(money / units), reading),
      time: minutes === 0 ? '' : formatMinutes(minutes),
      timeEach: minutes === 0 ? '' : formatMinutes(minutes / account.putUp),
    },
  ];
}

/** Fewer past forecasts say nothing about how sure they may be. */
const leastCases = 20;

function presentForecast(record: ForecastRecord, reading: Reading): LookBackPageProps['forecast'] {
  if (record.cases < leastCases)
    return {
      words: [
        `Only ${counted(record.cases, 'four-week span')} of this year can be compared with a forecast, and it takes ${leastCases} to judge. Take jars and count the shelf, and this will fill in.`,
      ],
      picture: null,
    };
  const ofTheTime = (share: number): string => formatPercent(share, reading, 0);
  const sure =
    record.within < 0.72
      ? 'They were surer than they had reason to be.'
      : record.within > 0.88
        ? 'They were more careful than they had to be.'
        : 'They were about as sure as they said.';
  const difference = record.eaten - record.expected;
  const share = record.expected === 0 ? 0 : difference / record.expected;
  const leaning =
    Math.abs(share) < 0.05
      ? 'In all, you ate as much as expected.'
      : `In all, you ate ${formatNumber(Math.abs(share) * 100, reading, 0)}% ${difference > 0 ? 'more' : 'less'} than expected.`;
  return {
    words: [
      `${formatNumber(record.cases, reading)} forecasts of four weeks each, made again from what was known at the time. What you ate was inside the range ${ofTheTime(record.within)} of the time (80% is what it promises), below it ${ofTheTime(record.below)} and above it ${ofTheTime(record.above)}.`,
      `${sure} ${leaning}`,
    ],
    picture: {
      id: 'forecast-tenths',
      title: 'Where what was eaten fell in its forecast',
      words: `${sure} ${leaning}`,
      tenths: record.tenths,
    },
  };
}

const planWords = (record: PlanRecord | null, reading: Reading): string =>
  record === null
    ? 'No plan here is four weeks old yet, so there is nothing to compare with what you did.'
    : `The plan of ${formatDate(record.madeOn, reading)} wanted ${formatQuantity(record.planned, 'batch', reading)} in the ${counted(record.weeks, 'week')} since; you made ${formatQuantity(record.done, 'batch', reading)}.`;

const plantLine = (plants: PlantsToGrow, reading: Reading): PlantLine => ({
  key: plants.sourceName,
  source: plants.sourceName,
  wanted: formatNumber(plants.plantsWanted, reading),
  now: plants.plantsNow === null ? '' : formatNumber(plants.plantsNow, reading),
  why: `${formatQuantity(plants.lbWanted, 'lb', reading)} wanted, ${formatQuantity(plants.lbPerPlant, 'lb', reading)} a plant`,
});

/** What is due within the year ahead, the soonest first, and what a guide asks for that was never written down. */
const upkeepAhead = (
  lines: readonly UpkeepLine[],
  asOf: CalendarDate,
  reading: Reading,
): LookBackPageProps['upkeep'] =>
  lines
    .filter(
      (line) => isDue(line, addDays(asOf, daysOfYear)) || (line.last === null && line.everyMonths !== null),
    )
    .toSorted((one, other) => compare(one.dueOn ?? '', other.dueOn ?? '') || compare(one.key, other.key))
    .map((line) => ({
      key: line.key,
      what: `${line.device}: ${insideSentence(taskName(line))},`,
      when: dueWords(line, asOf, reading),
    }));

const daysOfYear = 365;

function lidsAndJars(plan: StoredPlan | null, names: PlannedNames): LookBackPageProps['toBuy'] {
  const bought = (plan?.plan.weeks ?? [])
    .flatMap(({ purchases }) => purchases)
    .filter(({ kind }) => kind === 'jars' || kind === 'lids');
  const kinds = [...new Set(bought.map(({ kind, what }) => `${kind} ${what}`))].sort();
  return kinds.flatMap((key) => {
    const own = bought.filter(({ kind, what }) => `${kind} ${what}` === key);
    const [first] = own;
    if (first === undefined) return [];
    const quantity = own.reduce((sum, purchase) => sum + purchase.quantity, 0);
    const { what, quantity: words } = purchaseWords(names, { ...first, quantity });
    return [{ key, what, quantity: words }];
  });
}
