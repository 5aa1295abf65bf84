import { counted } from '../../../shared/counting.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { ItemUse } from '../../../src/consumption/items/item-use.ts';
import type { DeclaredUseSetting, ItemGroup } from '../../../src/household/appetite.ts';
import type { Item } from '../../../src/household/item.ts';
import type { HouseholdYear } from '../../../src/planning/year/household-year.ts';
import { type NeedPart, walkOfItem, type YearWalk } from '../../../src/planning/year/year-walk.ts';
import type { GroupTargetProps } from '../../../views/pages/targets/group-target.tsx';
import type { TargetLine, TargetsPageProps } from '../../../views/pages/targets/targets-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatJars, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { neverTapped } from '../../words/never-tapped.ts';
import { plain } from '../../words/plain-number.ts';
import { amountOf, figureAndUnit, figureOf, rateOf, unitsOf } from '../../words/shelf-units.ts';
import { needWords } from '../../words/year/year-walk.ts';
import type { YearPicture } from '../../year/year-picture.ts';
import { type SentBack, type StateOfForm, statesFrom } from '../shared/answer-form.ts';
import { presentEmergency } from './present-emergency.ts';
import { presentMeals } from './present-meals.ts';
import { presentRecordedSince } from './present-recorded-since.ts';

export function presentTargets(
  picture: Pick<YearPicture, 'loaded' | 'items' | 'plan'>,
  reference: ReferenceTables,
  reading: Reading,
  keys: () => FormKeys,
  sentBack: SentBack | null = null,
): Omit<TargetsPageProps, 'frame'> {
  const { loaded } = picture;
  const state = statesFrom(keys, sentBack);
  return {
    ...linesOf({ loaded, ...reading }),
    groups: loaded.facts.groups.map((group) => presentGroup(loaded, group, reading, state)),
    meals: presentMeals(picture, reading, state),
    emergency: presentEmergency(loaded.facts, reference, loaded.year.asOf, reading, state),
    recordedSince: presentRecordedSince(loaded.facts, reading, state),
  };
}

const linesOf = whileTheSame(
  'loaded',
  ({ loaded, ...reading }: { readonly loaded: HouseholdYear } & Reading) => {
    const lines = (kind: Item['kind']) =>
      loaded.facts.items
        .filter((item) => item.kind === kind && item.retiredOn === null)
        .map((item) =>
          targetLine(item, loaded.useByItem.get(item.id), walkOfItem(loaded, item.id, null), reading),
        );
    return { untapped: neverTapped(loaded), preserves: lines('preserve'), staples: lines('staple') };
  },
);

function targetLine(
  item: Item,
  use: ItemUse | undefined,
  walk: YearWalk | null,
  reading: Reading,
): TargetLine {
  const forecast = use?.forecast ?? null;
  return {
    itemId: item.id,
    item: { name: item.name, family: item.family, href: `/targets/${item.id}` },
    declared: use?.declared ? rateWords(item, use.declaredPerWeek, 'month', reading) : 'not said',
    observed: observedWords(item, use, reading, 'month'),
    evidence: forecast === null ? '' : evidenceWords(item, use, reading),
    forecast: forecast === null ? '' : rateWords(item, forecast.perWeek, 'month', reading),
    year: needWords(item, walk, reading) ?? 'nothing',
    madeOf: walk === null ? '' : madeOfWords(item, walk, reading),
  };
}

type Period = 'week' | 'month' | 'year';
export const weeksIn: Readonly<Record<Period, number>> = {
  week: 1,
  month: 365.25 / 12 / 7,
  year: 365.25 / 7,
};

/** The period a household thinks in: that of its own words. */
export const periodOf = (said: DeclaredUseSetting | null | undefined): Period =>
  said?.per === 'month' || said?.per === 'year' ? said.per : 'week';

/** `0.8 a month`: a rate said in the household's own period, so that said, seen and expected can be compared. */
export const rateWords = (item: Item, perWeek: number, period: Period, reading: Reading): string =>
  `${figureOf(item, perWeek * weeksIn[period], reading, perWeek * weeksIn[period] < 0.1 ? 2 : 1)} a ${period}`;

export const observedWords = (
  item: Item,
  use: ItemUse | undefined,
  reading: Reading,
  period: Period = periodOf(use?.declared),
): string => {
  const observed = use?.forecast?.evidence.observedPerWeek;
  return observed === undefined ? 'nothing yet' : rateWords(item, observed, period, reading);
};

/** "11 pints in 9 weeks that counted." */
export function evidenceWords(item: Item, use: ItemUse | undefined, reading: Reading): string {
  const evidence = use?.forecast?.evidence;
  if (evidence === undefined) return 'Nothing has been seen yet.';
  if (!(evidence.weeksThatCounted > 0)) return notYetRecorded(use);
  const weeks = formatNumber(evidence.weeksThatCounted, reading, 0);
  return `${amountOf(item, evidence.takings, reading)} in ${counted(weeks, 'week')} that counted.`;
}

/** Why nothing counts yet, where jars may stand on the shelf all the same. */
const notYetRecorded = (use: ItemUse | undefined): string =>
  use?.recordedSince === null || use === undefined
    ? 'Nothing counts yet: it begins with the first jar you take or count.'
    : 'No week has counted yet.';

const periodWords: Readonly<Record<DeclaredUseSetting['per'], string>> = {
  week: 'a week',
  month: 'a month',
  year: 'a year',
  meal: 'a meal',
  'school-week': 'a school week',
};

/** "1.5 pints a week", "2 servings each for 4 a meal, 3 such meals a week" */
export function declaredWords(item: Item, said: DeclaredUseSetting, reading: Reading): string {
  const each = said.people === null ? '' : ` each for ${formatNumber(said.people, reading)}`;
  const amount =
    said.countedIn === 'servings'
      ? `${counted(formatNumber(said.amount, reading), 'serving')}${each}`
      : rateOf(item, said.amount, reading);
  const meals =
    said.per === 'meal' && said.mealsPerWeek !== null
      ? `, ${formatNumber(said.mealsPerWeek, reading)} such meals a week`
      : '';
  return `${amount} ${periodWords[said.per]}${meals}`;
}

const partsInShort: Readonly<Record<NeedPart, string>> = {
  use: 'use',
  occasions: 'occasions',
  gifts: 'gifts',
  promised: 'promised',
  hungryYear: 'reserve',
  failedCrop: 'reserve',
  byHand: 'by hand',
  emergency: 'emergency shelf',
};

/** `use 60, gifts 4, reserve 4`: the parts of the need, in the order of the walk. */
function madeOfWords(item: Item, { parts, needByUse }: YearWalk, reading: Reading): string {
  if (parts.some(({ part }) => part === 'byHand'))
    return `set by hand; use and reserve come to ${figureOf(item, needByUse, reading)}`;
  const unitsByName = new Map<string, number>();
  for (const { part, units } of parts)
    unitsByName.set(partsInShort[part], (unitsByName.get(partsInShort[part]) ?? 0) + units);
  return [...unitsByName].map(([name, units]) => `${name} ${figureOf(item, units, reading)}`).join(', ');
}

/** Id of the form of a group. */
export const groupFormId = (groupId: string): string => `group-${groupId}`;

/** A group with its wishes, and how its items' own targets stand against them. */
export function presentGroup(
  loaded: HouseholdYear,
  group: ItemGroup,
  reading: Reading,
  state: StateOfForm,
): GroupTargetProps {
  const { facts, year } = loaded;
  const planned = year.groups.find(({ id }) => id === group.id);
  const inGroup = (itemId: ItemId): number =>
    (walkOfItem(loaded, itemId, null)?.need ?? 0) *
    (planned?.members.find((member) => member.itemId === itemId)?.groupUnitsPerUnit ?? 1);
  const total = group.members.reduce((sum, itemId) => sum + inGroup(itemId), 0);
  const amount = (units: number) =>
    group.unitJar === null
      ? formatNumber(units, reading, 0)
      : formatJars(Math.round(units), group.unitJar, reading);
  const over = total - group.totalUnits;
  const against =
    Math.abs(over) < 0.5
      ? 'just what is wanted'
      : `${amount(Math.abs(over))} ${over > 0 ? 'more than wanted' : 'short of what is wanted'}`;
  return {
    groupId: group.id,
    name: group.name,
    members: group.members
      .map((id) => facts.items.find((item) => item.id === id))
      .flatMap((item) => (item ? [`${item.name} ${amount(inGroup(item.id)).split(' ')[0]}`] : []))
      .join(', '),
    stands: `The targets of its ${counted(group.members.length, 'item')} come to ${amount(total)}: ${against}.`,
    unit: group.unitJar === null ? 'units' : figureAndUnit(formatJars(2, group.unitJar, reading)).unit,
    form: state(groupFormId(group.id), {
      total: plain(group.totalUnits),
      leastKinds: String(group.leastKinds),
      largestShare: plain(group.largestShare * 100),
    }),
  };
}

/** The plural a target is counted in: `pints`, `lb`. */
export const targetUnit = (item: Item, reading: Reading): string => unitsOf(item, reading) || 'pieces';
