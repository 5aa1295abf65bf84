import type { ItemId } from '../../../shared/ids.ts';
import type { ItemUse } from '../../../src/consumption/items/item-use.ts';
import type { TargetParts, YearlyTarget } from '../../../src/consumption/yearly-target.ts';
import type { DeclaredUseSetting, ItemGroup } from '../../../src/household/appetite.ts';
import type { Item } from '../../../src/household/item.ts';
import type { HouseholdYear } from '../../../src/planning/year/household-year.ts';
import type { GroupTargetProps, GroupValues } from '../../../views/pages/targets/group-target.tsx';
import type { TargetLine, TargetsPageProps } from '../../../views/pages/targets/targets-page.tsx';
import { type FieldProblems, type FormKeys, noProblems } from '../../../views/parts/form.tsx';
import { formatJars, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { neverTapped } from '../../words/never-tapped.ts';
import { plain } from '../../words/plain-number.ts';
import { amountOf, figureAndUnit, unitsOf } from '../../words/shelf-units.ts';
import { presentRecordedSince, type RecordedSinceSentBack } from './present-recorded-since.ts';

/** A group's form that was sent back. */
export interface GroupSentBack {
  readonly groupId: string;
  readonly values: Partial<GroupValues>;
  readonly problems: FieldProblems;
}

/** Of the page's forms the one that was sent back, if any. */
export interface TargetsSentBack {
  readonly group?: GroupSentBack;
  readonly recordedSince?: RecordedSinceSentBack;
}

export function presentTargets(
  loaded: HouseholdYear,
  reading: Reading,
  keys: () => FormKeys,
  sentBack: TargetsSentBack = {},
): Omit<TargetsPageProps, 'frame'> {
  const lines = (kind: Item['kind']) =>
    loaded.facts.items
      .filter((item) => item.kind === kind && item.retiredOn === null)
      .map((item) =>
        targetLine(item, loaded.useByItem.get(item.id), loaded.targetByItem.get(item.id) ?? null, reading),
      );
  return {
    untapped: neverTapped(loaded),
    preserves: lines('preserve'),
    staples: lines('staple'),
    groups: loaded.facts.groups.map((group) =>
      presentGroup(
        loaded,
        group,
        reading,
        keys(),
        sentBack.group?.groupId === group.id ? sentBack.group : null,
      ),
    ),
    recordedSince: presentRecordedSince(loaded.facts, reading, keys(), sentBack.recordedSince ?? null),
  };
}

function targetLine(
  item: Item,
  use: ItemUse | undefined,
  target: YearlyTarget | null,
  reading: Reading,
): TargetLine {
  const forecast = use?.forecast ?? null;
  return {
    itemId: item.id,
    item: { name: item.name, family: item.family, href: `/targets/${item.id}` },
    declared: use?.declared ? declaredWords(item, use.declared, reading) : 'not said',
    observed: observedWords(use, reading),
    evidence: forecast === null ? '' : evidenceWords(item, use, reading),
    forecast: forecast === null ? '' : rateWords(forecast.perWeek, periodOf(use?.declared), reading),
    year: target === null ? 'nothing' : amountOf(item, target.units, reading),
    madeOf: target === null ? '' : madeOfWords(target, reading),
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
export const rateWords = (perWeek: number, period: Period, reading: Reading): string =>
  `${formatNumber(perWeek * weeksIn[period], reading, perWeek * weeksIn[period] < 0.1 ? 2 : 1)} a ${period}`;

export const observedWords = (use: ItemUse | undefined, reading: Reading): string => {
  const observed = use?.forecast?.evidence.observedPerWeek;
  return observed === undefined ? 'nothing yet' : rateWords(observed, periodOf(use?.declared), reading);
};

/** "11 pints in 9 weeks that counted." */
export function evidenceWords(item: Item, use: ItemUse | undefined, reading: Reading): string {
  const evidence = use?.forecast?.evidence;
  if (evidence === undefined) return 'Nothing has been seen yet.';
  if (!(evidence.weeksThatCounted > 0)) return notYetRecorded(use);
  const weeks = formatNumber(evidence.weeksThatCounted, reading, 0);
  return `${amountOf(item, Math.round(evidence.takings), reading)} in ${weeks} ${weeks === '1' ? 'week' : 'weeks'} that counted.`;
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
      ? `${formatNumber(said.amount, reading)} ${said.amount === 1 ? 'serving' : 'servings'}${each}`
      : amountOf(item, said.amount, reading);
  const meals =
    said.per === 'meal' && said.mealsPerWeek !== null
      ? `, ${formatNumber(said.mealsPerWeek, reading)} such meals a week`
      : '';
  return `${amount} ${periodWords[said.per]}${meals}`;
}

const reserveOf = ({ hungryYear, failedCrop }: TargetParts): number => hungryYear + failedCrop;

function madeOfWords({ parts, byHand, fromForecast }: YearlyTarget, reading: Reading): string {
  if (byHand !== null)
    return `set by hand; use and reserve come to ${formatNumber(Math.ceil(fromForecast), reading, 0)}`;
  const named: readonly (readonly [string, number])[] = [
    ['use', parts.use],
    ['occasions', parts.occasions],
    ['gifts', parts.gifts],
    ['promised', parts.promised],
    ['reserve', reserveOf(parts)],
  ];
  return named
    .filter(([, units]) => units >= 0.5)
    .map(([name, units]) => `${name} ${formatNumber(units, reading, 0)}`)
    .join(', ');
}

/** A group with its wishes, and how its items' own targets stand against them. */
export function presentGroup(
  { facts, targetByItem, year }: HouseholdYear,
  group: ItemGroup,
  reading: Reading,
  keys: FormKeys,
  sentBack: GroupSentBack | null,
): GroupTargetProps {
  const planned = year.groups.find(({ id }) => id === group.id);
  const inGroup = (itemId: ItemId): number =>
    (targetByItem.get(itemId)?.units ?? 0) *
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
    stands: `The targets of its ${group.members.length} items come to ${amount(total)}: ${against}.`,
    unit: group.unitJar === null ? 'units' : figureAndUnit(formatJars(2, group.unitJar, reading)).unit,
    keys,
    values: {
      total: plain(group.totalUnits),
      leastKinds: String(group.leastKinds),
      largestShare: plain(group.largestShare * 100),
      ...sentBack?.values,
    },
    problems: sentBack?.problems ?? noProblems,
  };
}

/** The plural a target is counted in: `pints`, `lb`. */
export const targetUnit = (item: Item, reading: Reading): string => unitsOf(item, reading) || 'pieces';
