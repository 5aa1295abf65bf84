import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import { plantsFor } from '../../src/consumption/produce-for-target.ts';
import type { WeekOfUse } from '../../src/consumption/use-forecast.ts';
import type { YearlyTarget } from '../../src/consumption/yearly-target.ts';
import { chanceWords } from '../../src/shelf/run-out-words.ts';
import type { WeeklyUseProps } from '../../views/charts/weekly-use.tsx';
import type {
  DeclaredUseProps,
  DeclaredUseValues,
  WhatIfProps,
} from '../../views/pages/targets/declared-use.tsx';
import type { OccasionLine, OccasionsProps, OccasionValues } from '../../views/pages/targets/occasions.tsx';
import type { AppetiteProps, TargetItemPageProps } from '../../views/pages/targets/target-item-page.tsx';
import type { NeedPart, YearNeedProps } from '../../views/pages/targets/year-need.tsx';
import { type FieldProblems, type FormKeys, noProblems } from '../../views/parts/form.tsx';
import { formatDate, formatDay, formatNumber, formatQuantity, formatWeek } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import type { Item } from '../queries/items.ts';
import type { ItemUse } from '../year/item-use.ts';
import type { LoadedYear } from '../year/planning-year.ts';
import { cropName } from './harvest.ts';
import { plain } from './kitchen.ts';
import { amountOf, unitsOf } from './shelf-units.ts';
import { declaredWords, evidenceWords, observedWords, periodOf, rateWords, targetUnit } from './targets.ts';

/** One item with everything its target is made from. */
export interface TargetPicture {
  readonly item: Item;
  readonly loaded: LoadedYear;
  readonly published: readonly HarvestWindowRow[];
  readonly reading: Reading;
}

/** A form of the page that was sent back, or tried out. */
export interface TargetSentBack {
  readonly form: 'declared-use' | 'hand-target' | 'occasions';
  readonly values: Readonly<Record<string, string>>;
  readonly problems: FieldProblems;
}

export function presentTargetItem(
  picture: TargetPicture,
  keys: () => FormKeys,
  sentBack: TargetSentBack | null = null,
  whatIf: WhatIfProps | null = null,
): Omit<TargetItemPageProps, 'frame'> {
  const { item, loaded, reading } = picture;
  const target = loaded.targetByItem.get(item.id) ?? null;
  const onShelf = loaded.facts.lots
    .filter((lot) => lot.itemId === item.id && lot.setAside === null)
    .reduce((sum, lot) => sum + lot.unitsLeft, 0);
  const has =
    onShelf === 0
      ? 'None stands on the shelf.'
      : `On the shelf: ${formatQuantity(onShelf, item.unit, reading)}.`;
  return {
    itemId: item.id,
    item: { name: item.name, family: item.family },
    line:
      target === null
        ? `Nothing is planned for, because nobody said how much is eaten. ${has}`
        : `A year needs ${amountOf(item, target.units, reading)}. ${has}`,
    appetite: presentAppetite(picture),
    picture: presentPicture(picture),
    declared: presentDeclared(picture, keys(), sentBack, whatIf),
    need: presentNeed(picture, keys, sentBack),
    occasions: presentOccasions(picture, keys, sentBack),
  };
}

const useOf = ({ loaded, item }: TargetPicture): ItemUse | undefined => loaded.useByItem.get(item.id);

function presentAppetite(picture: TargetPicture): AppetiteProps {
  const { item, reading } = picture;
  const use = useOf(picture);
  const forecast = use?.forecast ?? null;
  return {
    declared: use?.declared ? declaredWords(item, use.declared, reading) : 'nothing',
    observed: observedWords(use, reading),
    evidence: evidenceWords(item, use, reading),
    forecast: forecast === null ? 'nothing' : rateWords(forecast.perWeek, periodOf(use?.declared), reading),
    range: forecast === null ? '' : rangeWords(forecast.perWeekRange, periodOf(use?.declared), reading),
  };
}

/** "4 years in 5 between 10 and 24 a year." */
const rangeWords = (
  { low, high }: { readonly low: number; readonly high: number },
  period: ReturnType<typeof periodOf>,
  reading: Reading,
): string =>
  `Over a whole year, 4 times in 5 between ${rateWords(low, period, reading).split(' ')[0]} and ${rateWords(high, period, reading)}.`;

const weeksShown = 30;
const weeksAhead = 9;
/** Below this share of a week nothing could have been seen. */
const leastExposure = 0.05;

function presentPicture(picture: TargetPicture): WeeklyUseProps {
  const { item, reading } = picture;
  const use = useOf(picture);
  const forecast = use?.forecast ?? null;
  return {
    id: `use-${item.id}`,
    itemName: item.name,
    unit: targetUnit(item, reading),
    past: (use?.history ?? []).slice(-weeksShown).map((week) => ({
      key: week.week,
      label: formatWeek(week.week, reading),
      taken: Math.round(week.taken * 10) / 10,
      didNotCount: didNotCount(week),
    })),
    toCome:
      forecast === null
        ? []
        : forecast.weeks.slice(1, 1 + weeksAhead).map((ahead, index) => {
            const count = forecast.inWeek(index + 1);
            return {
              key: ahead.week,
              label: formatWeek(ahead.week, reading),
              low: count.quantile(0.1),
              expected: Math.round(ahead.mean * 10) / 10,
              high: count.quantile(0.9),
            };
          }),
    declaredPerWeek: use && use.declaredPerWeek > 0 ? Math.round(use.declaredPerWeek * 100) / 100 : null,
  };
}

const didNotCount = (week: WeekOfUse): string | null =>
  week.exposure < leastExposure ? 'away, nothing to take, or nothing recorded' : null;

const periods: DeclaredUseProps['per'] = [
  { value: 'week', words: 'week' },
  { value: 'month', words: 'month' },
  { value: 'year', words: 'year' },
  { value: 'meal', words: 'meal' },
  { value: 'school-week', words: 'school week only' },
];

export const declaredUseFields = [
  'amount',
  'countedIn',
  'per',
  'people',
  'mealsPerWeek',
  'sinceOn',
  'restartsFilter',
] as const;

export function presentDeclared(
  picture: TargetPicture,
  keys: FormKeys,
  sentBack: TargetSentBack | null,
  whatIf: WhatIfProps | null,
): DeclaredUseProps {
  const { item, reading } = picture;
  const said = useOf(picture)?.declared ?? null;
  const own = sentBack?.form === 'declared-use' ? sentBack : null;
  const values: DeclaredUseValues = {
    amount: said === null ? '' : plain(said.amount),
    countedIn: said?.countedIn ?? 'units',
    per: said?.per ?? 'week',
    people: said?.people == null ? '' : plain(said.people),
    mealsPerWeek: said?.mealsPerWeek == null ? '' : plain(said.mealsPerWeek),
    sinceOn: '',
    ...own?.values,
    restartsFilter: (own?.values.restartsFilter ?? '') !== '',
  };
  return {
    itemId: item.id,
    said:
      said === null
        ? 'Nothing has been said yet.'
        : `You said ${declaredWords(item, said, reading)}, since ${formatDate(said.sinceOn, reading)}.`,
    keys,
    values,
    problems: own?.problems ?? noProblems,
    countedIn: [
      { value: 'units', words: unitsOf(item, reading) || 'pieces' },
      ...(item.servingsPerUnit === null
        ? []
        : [
            {
              value: 'servings',
              words: `servings (${formatNumber(item.servingsPerUnit, reading)} in one)`,
            },
          ]),
    ],
    per: periods,
    whatIf,
  };
}

/** The year with other words beside the year as it is. */
export function presentWhatIf(now: TargetPicture, instead: TargetPicture, saidThen: string): WhatIfProps {
  const { item, reading } = now;
  const rows = (picture: TargetPicture) => {
    const target = picture.loaded.targetByItem.get(item.id) ?? null;
    const forecast = useOf(picture)?.forecast ?? null;
    return {
      perWeek:
        forecast === null ? 'none' : rateWords(forecast.perWeek, periodOf(useOf(picture)?.declared), reading),
      units: target === null ? 'none' : amountOf(item, target.units, reading),
      produce: target === null ? [] : batchesFor(picture, target.units),
    };
  };
  const [before, after] = [rows(now), rows(instead)];
  const produce = (after.produce.length > 0 ? after.produce : before.produce).flatMap((batch, at) => {
    const [b, a] = [before.produce[at], after.produce[at]];
    return [
      { what: `batches of ${batch.name}`, now: b?.batches ?? '0', instead: a?.batches ?? '0' },
      ...batch.crops.map((crop, place) => ({
        what: crop.name,
        now: b?.crops[place]?.amount ?? '0',
        instead: a?.crops[place]?.amount ?? '0',
      })),
    ];
  });
  const byHand = now.loaded.targetByItem.get(item.id)?.byHand ?? null;
  return {
    words: `With ${saidThen}${byHand === null ? ':' : ', though the target set by hand stands:'}`,
    rows: [
      { what: 'expected use', now: before.perWeek, instead: after.perWeek },
      { what: 'needed', now: before.units, instead: after.units },
      ...produce,
    ],
    why: whyLittleChanges(instead),
  };
}

/** Much evidence outweighs new words; only a change of habit starts anew. */
function whyLittleChanges(instead: TargetPicture): string | null {
  const use = useOf(instead);
  if (!use?.forecast || use.declared?.restartsFilter === true) return null;
  const { perWeek, evidence } = use.forecast;
  const isFollowed = Math.abs(perWeek - use.declaredPerWeek) <= 0.25 * use.declaredPerWeek;
  return isFollowed
    ? null
    : `By now ${formatNumber(evidence.weeksThatCounted, instead.reading, 0)} weeks of what was eaten weigh more than the words. If something changed for good, tick the change of habit.`;
}

interface Batches {
  readonly name: string;
  readonly batches: string;
  readonly crops: readonly {
    readonly name: string;
    readonly amount: string;
    readonly lb: number;
    readonly crop: string;
  }[];
}

/** What so many units are in batches and pounds, by the item's first recipe; nothing for what is only bought. */
function batchesFor({ item, loaded, published, reading }: TargetPicture, units: number): readonly Batches[] {
  const [recipe] = loaded.recipes.planned.filter((own) => own.itemId === item.id);
  if (!recipe) return [];
  const batches = Math.ceil(units / recipe.yieldLowUnits - 1e-9);
  return [
    {
      name: recipe.name,
      batches: formatNumber(batches, reading),
      crops: recipe.produce.map(({ crop, lb }) => ({
        crop,
        lb: batches * lb,
        name: cropName(published, crop).toLowerCase(),
        amount: formatQuantity(batches * lb, 'lb', reading),
      })),
    },
  ];
}

function presentNeed(
  picture: TargetPicture,
  keys: () => FormKeys,
  sentBack: TargetSentBack | null,
): YearNeedProps {
  const { item, loaded, reading } = picture;
  const target = loaded.targetByItem.get(item.id) ?? null;
  const own = sentBack?.form === 'hand-target' ? sentBack : null;
  const set = loaded.facts.handTargets.get(item.id) ?? null;
  const comparison = target?.byHand ?? null;
  return {
    itemId: item.id,
    target: target === null ? '0' : formatNumber(target.units, reading),
    unit: targetUnit(item, reading),
    parts: target === null ? [] : needParts(picture, target),
    produce: target === null ? [] : produceLines(picture, target.units),
    byHand: {
      keys: keys(),
      releaseKeys: keys(),
      standing:
        set === null
          ? null
          : `Set by hand on ${formatDate(set.setOn, reading)}.${
              comparison === null
                ? ''
                : ` The forecast comes to ${formatNumber(comparison.units - comparison.difference, reading, 0)}; what you set covers the year in ${chanceWords(Math.min(1, Math.max(0, comparison.chanceOfCovering)))}.`
            }`,
      units: own?.values.units ?? (set === null ? '' : plain(set.units)),
      problems: own?.problems ?? noProblems,
    },
  };
}

function needParts({ item, loaded, reading }: TargetPicture, target: YearlyTarget): readonly NeedPart[] {
  const { parts } = target;
  const forecast = loaded.useByItem.get(item.id)?.forecast;
  const perWeek = forecast?.perWeek ?? 0;
  const weeks = perWeek > 0 ? parts.use / perWeek : 0;
  const all: readonly (NeedPart & { readonly amount: number })[] = [
    {
      what: 'everyday use',
      why: `${formatNumber(weeks, reading, 0)} ordinary weeks at ${rateWords(perWeek, 'week', reading)}`,
      amount: parts.use,
      units: '',
    },
    { what: 'occasions', why: 'dated, at our table', amount: parts.occasions, units: '' },
    { what: 'gifts', why: 'dated, given away', amount: parts.gifts, units: '' },
    { what: 'promised', why: 'kept back until their day', amount: parts.promised, units: '' },
    {
      what: 'reserve for a hungry year',
      why: `so that it lasts ${chanceWords(item.chanceWanted)}`,
      amount: parts.hungryYear,
      units: '',
    },
    {
      what: 'reserve for a failed crop',
      why: 'by the odds of its source',
      amount: parts.failedCrop,
      units: '',
    },
    {
      what: 'less what would be thrown away',
      why: 'never eaten before your own limit',
      amount: -parts.expectedWaste,
      units: '',
    },
  ];
  const shown = all
    .filter((part, at) => at === 0 || Math.abs(part.amount) >= 0.05)
    .map(({ what, why, amount }) => ({ what, why, units: signed(amount, reading) }));
  return [
    ...shown,
    {
      what: 'together',
      why: 'rounded up to whole units',
      units: formatNumber(Math.ceil(target.fromForecast - 1e-9), reading),
    },
  ];
}

const signed = (units: number, reading: Reading): string =>
  `${units < 0 ? '−' : ''}${formatNumber(Math.abs(units), reading)}`;

/** "68 pints are 8 batches of Peach halves: 168 lb of peaches." And the plants that give them. */
function produceLines(picture: TargetPicture, units: number): readonly string[] {
  const { item, loaded, reading } = picture;
  return batchesFor(picture, units).flatMap(({ name, batches, crops }) => {
    const amounts = crops.map((crop) => `${crop.amount} of ${crop.name}`);
    const batch = `${amountOf(item, units, reading)} ${units === 1 ? 'is' : 'are'} ${batches} ${batches === '1' ? 'batch' : 'batches'} of ${name}${amounts.length === 0 ? '' : `: ${amounts.join(', ')}`}.`;
    const plants = crops.flatMap(({ crop, lb, name: cropWords }) => {
      const garden = loaded.facts.sources.find(
        (source) => source.crop === crop && source.kind === 'garden' && source.lbPerPlant !== null,
      );
      if (garden?.lbPerPlant == null) return [];
      const wanted = plantsFor(lb, garden.lbPerPlant);
      const has =
        garden.plants === null ? '' : `; ${garden.name} has ${formatNumber(garden.plants, reading)}`;
      return [
        `At ${formatNumber(garden.lbPerPlant, reading)} lb a plant that takes ${formatNumber(wanted, reading)} ${wanted === 1 ? 'plant' : 'plants'} of ${cropWords}${has}.`,
      ];
    });
    return [batch, ...plants];
  });
}

const kindWords = { occasion: 'occasion', gift: 'gift', promised: 'promised' } as const;

export const occasionFields = ['kind', 'onDate', 'units', 'note', 'yearly'] as const;

function presentOccasions(
  { item, loaded, reading }: TargetPicture,
  keys: () => FormKeys,
  sentBack: TargetSentBack | null,
): OccasionsProps {
  const own = sentBack?.form === 'occasions' ? sentBack : null;
  const values: OccasionValues = {
    kind: '',
    onDate: '',
    units: '',
    note: '',
    ...own?.values,
    yearly: own === null ? true : (own.values.yearly ?? '') !== '',
  };
  return {
    itemId: item.id,
    unit: targetUnit(item, reading),
    lines: loaded.facts.occasions
      .filter((occasion) => occasion.itemId === item.id)
      .map(
        (occasion): OccasionLine => ({
          id: occasion.id,
          on: occasion.isYearly ? formatDay(occasion.on, reading) : formatDate(occasion.on, reading),
          kind: kindWords[occasion.kind],
          units: formatNumber(occasion.units, reading),
          note: occasion.note,
          repeats: occasion.isYearly ? 'every year' : 'once',
          removeKeys: keys(),
        }),
      ),
    keys: keys(),
    values,
    problems: own?.problems ?? noProblems,
  };
}
