import { counted, oneOrMore } from '../../../shared/counting.ts';
import type { Family } from '../../../shared/family.ts';
import type { CropKey } from '../../../shared/ids.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import type { HarvestWindowRow } from '../../../shared/schemas/reference/harvest-window.ts';
import {
  addDays,
  addMonths,
  type CalendarDate,
  dayOfMonth,
  daysBetween,
  mondayOf,
  type WeekKey,
  yearOf,
} from '../../../shared/week.ts';
import { cropName } from '../../../src/harvest/crop-name.ts';
import { guessedSeason } from '../../../src/harvest/known-ground.ts';
import type { SourceYear } from '../../../src/harvest/source-years.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { Source } from '../../../src/household/source.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import { type MeasureWeight, tradeMeasuresOf } from '../../../src/preserving/foods/trade-measures.ts';
import type { HarvestPageProps } from '../../../views/pages/harvest/harvest-page.tsx';
import type { SeasonAxis, SeasonStripProps } from '../../../views/pages/harvest/season-strip.tsx';
import type { FirstPickedProps, SourceRowProps } from '../../../views/pages/harvest/source-row.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import {
  formatDate,
  formatDay,
  formatNumber,
  formatPercent,
  formatQuantity,
  formatShortMonth,
  formatWeek,
  formatYearlyDay,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { sentenceCase } from '../../../views/words/sentences.ts';
import {
  aboutWords,
  produceWords,
  sourcePriceWords,
  withoutPecks,
} from '../../words/buying/produce-words.ts';
import { groundWords, guessWords } from '../../words/season-guess.ts';
import { type SentBack, type StateOfForm, statesFrom } from '../shared/answer-form.ts';
import { cropChoicesOfYear, type GroundPicture, presentGround, saidLateness } from './present-ground.ts';

/** Where the crops come from, and what the plan makes of them. */
export interface HarvestPicture {
  readonly sources: readonly Source[];
  /** Seasons of this year and the next, oldest first. */
  readonly yearsBySource: ReadonlyMap<Source['id'], readonly SourceYear[]>;
  readonly recipes: readonly Recipe[];
  readonly items: readonly Item[];
  readonly plan: Plan | null;
  readonly ground: GroundPicture;
  /** Published names of crops. */
  readonly published: readonly HarvestWindowRow[];
  readonly today: CalendarDate;
  readonly reading: Reading;
}

/** What of the page stands open or comes back as it was typed. */
export interface HarvestShown {
  /** The source whose row stands open. */
  readonly open?: string;
  readonly sentBack?: SentBack | null;
}

export function presentHarvest(
  picture: HarvestPicture,
  keys: () => FormKeys,
  { open, sentBack = null }: HarvestShown = {},
): Omit<HarvestPageProps, 'frame'> {
  return {
    line: harvestLine(picture),
    ground: presentGround(picture.ground, keys, sentBack),
    axis: seasonAxis(picture.today, picture.reading),
    sources: inOrderOfSeasons(picture).map((source) => ({
      ...presentSource(picture, source, keys, sentBack),
      isOpen: source.id === open || pickedForm(source) === sentBack?.formId,
    })),
  };
}

/** Open ones first, the first to close on top; then as they open; those without dates last. */
function inOrderOfSeasons({ sources, yearsBySource, today }: HarvestPicture): readonly Source[] {
  const order = (source: Source): string => {
    const standing = standingOf(yearsBySource.get(source.id) ?? [], today);
    switch (standing.kind) {
      case 'open':
        return `1 ${standing.until}`;
      case 'to come':
        return `2 ${standing.from}`;
      case 'unknown':
        return '3';
    }
  };
  return sources.toSorted(
    (one, other) => order(one).localeCompare(order(other)) || one.name.localeCompare(other.name),
  );
}

const monthsOnAxis = 13;

/** Thirteen months from the first of the present one, so that each season that is open or next to come lies on it. */
function seasonAxis(today: CalendarDate, reading: Reading): SeasonAxis {
  const start = axisStart(today);
  const months = Array.from({ length: monthsOnAxis }, (_, at) => addMonths(start, at));
  return {
    days: daysBetween(start, addMonths(start, monthsOnAxis)),
    today: daysBetween(start, today),
    months: months.map((month, at) => ({
      day: daysBetween(start, month),
      name: formatShortMonth(month, reading),
      year: at === 0 || yearOf(month) !== yearOf(addDays(month, -1)) ? String(yearOf(month)) : null,
    })),
  };
}

const axisStart = (today: CalendarDate): CalendarDate => addDays(today, 1 - dayOfMonth(today));

/** A crop's family is that of the first thing made from it. */
function familyOfCrop({ recipes, items }: HarvestPicture, crop: CropKey): Family | null {
  const recipe = recipes.find((own) => own.produce.some((part) => part.crop === crop));
  return items.find((item) => item.id === recipe?.itemId)?.family ?? null;
}

type Standing =
  | { readonly kind: 'open'; readonly until: CalendarDate }
  | { readonly kind: 'to come'; readonly from: CalendarDate }
  | { readonly kind: 'unknown' };

function standingOf(years: readonly SourceYear[], today: CalendarDate): Standing {
  const open = years.find(({ season }) => season.beginsOn <= today && today <= season.endsOn);
  if (open) return { kind: 'open', until: open.season.endsOn };
  const next = years.find(({ season }) => season.beginsOn > today);
  return next ? { kind: 'to come', from: next.season.beginsOn } : { kind: 'unknown' };
}

/** How many sources are open, which closes first and which opens next. */
function harvestLine({ sources, yearsBySource, today, reading }: HarvestPicture): string {
  const standings = sources.map((source) => ({
    name: source.name,
    standing: standingOf(yearsBySource.get(source.id) ?? [], today),
  }));
  const earliest = (dated: readonly { readonly name: string; readonly on: CalendarDate }[]) =>
    [...dated].sort((one, other) => (one.on < other.on ? -1 : 1))[0];
  const open = standings.flatMap(({ name, standing }) =>
    standing.kind === 'open' ? [{ name, on: standing.until }] : [],
  );
  const closes = earliest(open);
  const opens = earliest(
    standings.flatMap(({ name, standing }) =>
      standing.kind === 'to come' ? [{ name, on: standing.from }] : [],
    ),
  );
  const next = opens === undefined ? '' : ` Next to open: ${opens.name}, ${formatDate(opens.on, reading)}.`;
  if (closes === undefined) return `Nothing is open now.${next}`;
  const now = sentenceCase(oneOrMore(open.length, 'source is open now', 'sources are open now'));
  return `${now}; first to close: ${closes.name}, ${formatDay(closes.on, reading)}.${next}`;
}

export function presentSource(
  picture: HarvestPicture,
  source: Source,
  keys: () => FormKeys,
  sentBack: SentBack | null = null,
): SourceRowProps {
  const { today, reading, recipes, published } = picture;
  const state = statesFrom(keys, sentBack);
  const years = picture.yearsBySource.get(source.id) ?? [];
  const wanted = wantedByWeek(picture.plan, source);
  const current = yearShown(years, today);
  const all = tradeMeasuresOf(source.crop, picture.ground.reference);
  const measures = source.kind === 'garden' ? withoutPecks(all) : all;
  const about = current === null ? null : aboutWords(current.lbPerWeek, measures, reading);
  return {
    sourceId: source.id,
    name: source.name,
    family: familyOfCrop(picture, source.crop),
    isOpen: true,
    brief: briefOf(standingOf(years, today), reading),
    crop: cropName(published, source.crop),
    kind: kindOf(source, reading),
    state: stateWords(standingOf(years, today), today, reading),
    amount:
      current === null
        ? 'not written down'
        : `${formatQuantity(current.lbPerWeek, 'lb', reading)} a week${about === null ? '' : `, ${about}`}; keeps ${counted(formatNumber(source.useByDays, reading), 'day')} once picked`,
    price: source.pricePerLb === 0 ? 'free' : sourcePriceWords(source, all, reading),
    poorYear: poorYearWords(source, reading),
    windows: years.map((year) => ({ year: String(year.season.year), words: windowWords(year, reading) })),
    guess: guessOf(picture, source),
    yearOf: presentCropYear(picture, source, keys, state),
    strip: stripOf({ source, years, plan: picture.plan, day: today, ...reading }),
    wanted: wantedWords(wanted, measures, reading),
    recipes: recipes.flatMap((recipe) =>
      recipe.produce
        .filter((part) => part.crop === source.crop)
        .map((part) => `${recipe.name}, ${formatQuantity(part.lb, 'lb', reading)} a batch`),
    ),
    picked: source.kind === 'market' ? null : presentPicked(source, years, today, reading, state),
  };
}

/** Where the dates come from that were guessed for a source; null where they are the household's own. */
function guessOf({ ground, reading }: HarvestPicture, source: Source): string | null {
  if (source.windows.at(-1)?.datesGuessed !== true) return null;
  const answer = guessedSeason(source, ground.known, ground.reference);
  return answer.kind === 'window'
    ? guessWords(answer.local, groundWords(ground.known, ground.stated, reading), reading)
    : 'Our guess.';
}

function presentCropYear(
  { ground, today }: HarvestPicture,
  source: Source,
  keys: () => FormKeys,
  state: StateOfForm,
): SourceRowProps['yearOf'] {
  const year = yearOf(today);
  const own = source.windows.find((window) => window.year === year);
  return {
    number: year,
    lateness: {
      form: state(`lateness-${source.id}`, { days: saidLateness(ground.lateness, year, source.crop) }),
      choices: cropChoicesOfYear,
    },
    failure: source.windows.length === 0 ? null : { keys: keys(), failed: own?.lbPerWeek === 0 },
  };
}

/** The year on the strip: the one that is open or to come. */
const yearShown = (years: readonly SourceYear[], today: CalendarDate): SourceYear | null =>
  years.find(({ season }) => season.endsOn >= today) ?? years.at(-1) ?? null;

const sourceKindWords: Readonly<Record<Source['kind'], string>> = {
  garden: 'own garden',
  'pick-your-own': 'pick your own',
  market: 'market',
};

const kindOf = (source: Source, reading: Reading): string =>
  source.plants === null
    ? sourceKindWords[source.kind]
    : `${sourceKindWords[source.kind]}, ${counted(formatNumber(source.plants, reading), 'plant')}`;

/** Without a year: the axis beside it names the years. */
function briefOf(standing: Standing, reading: Reading): string {
  switch (standing.kind) {
    case 'open':
      return `until ${formatYearlyDay(standing.until, reading)}`;
    case 'to come':
      return `from ${formatYearlyDay(standing.from, reading)}`;
    case 'unknown':
      return 'no dates';
  }
}

function stateWords(standing: Standing, today: CalendarDate, reading: Reading): string {
  switch (standing.kind) {
    case 'open':
      return `Open now, until ${formatDay(standing.until, reading)}.`;
    case 'to come': {
      const days = daysBetween(today, standing.from);
      return days <= 60
        ? `Opens ${formatDay(standing.from, reading)}, in ${counted(days, 'day')}.`
        : `Opens ${formatDate(standing.from, reading)}.`;
    }
    case 'unknown':
      return 'No dates are written down.';
  }
}

function windowWords({ season, shiftDays, writtenFor }: SourceYear, reading: Reading): string {
  const dates = `${formatYearlyDay(season.beginsOn, reading)} to ${formatYearlyDay(season.endsOn, reading)}`;
  const most =
    season.plannedOn === 'most-active'
      ? `, most of it ${formatYearlyDay(season.plannedFrom, reading)} to ${formatYearlyDay(season.plannedTo, reading)}`
      : '';
  const days = Math.abs(shiftDays);
  const shift = shiftDays === 0 ? '' : `; ${counted(days, 'day')} ${shiftDays > 0 ? 'late' : 'early'}`;
  return `${dates}${most}${shift}${writtenFor === season.year ? '' : ` (as in ${writtenFor})`}`;
}

const fallBackWords: Readonly<Record<Source['fallBack'], string>> = {
  buy: 'then you buy it elsewhere',
  substitute: 'then you put up something else',
  'do-without': 'then you go without',
};

function poorYearWords({ poorYearChance, poorYearShare, fallBack }: Source, reading: Reading): string {
  if (poorYearChance === 0) return 'none expected';
  const inTen = Math.round(poorYearChance * 100) / 10;
  const [years, of] = Number.isInteger(inTen) ? [inTen, 10] : [Math.round(inTen * 2), 20];
  return `${counted(formatNumber(years, reading), `year in ${of} gives only`, `years in ${of} give only`)} ${formatPercent(poorYearShare, reading, 0)} of the usual; ${fallBackWords[fallBack]}`;
}

interface WantedWeek {
  readonly week: WeekKey;
  readonly lb: number;
}

/** Pounds that the plan takes from a source, by week; weeks without are left out. */
const wantedByWeek = (plan: Plan | null, source: Source): readonly WantedWeek[] =>
  (plan?.weeks ?? []).flatMap(({ week, purchases }) => {
    const lb = purchases
      .filter((purchase) => purchase.kind === 'produce' && purchase.what === source.id)
      .reduce((sum, purchase) => sum + purchase.quantity, 0);
    return lb > 0.05 ? [{ week, lb }] : [];
  });

function wantedWords(
  wanted: readonly WantedWeek[],
  measures: readonly MeasureWeight[],
  reading: Reading,
): string {
  if (wanted.length === 0) return 'Not in this year’s plan.';
  const total = wanted.reduce((sum, { lb }) => sum + lb, 0);
  const amount = (lb: number): string => formatQuantity(lb, 'lb', reading);
  const weeks = wanted.map(({ week, lb }) => `${amount(lb)} in the ${formatWeek(week, reading)}`);
  return wanted.length === 1
    ? `The plan takes ${weeks.join('')}${aboutBehind(total, measures, reading)}.`
    : `The plan takes ${produceWords(total, measures, reading)}: ${weeks.join(', ')}.`;
}

const aboutBehind = (lb: number, measures: readonly MeasureWeight[], reading: Reading): string => {
  const about = aboutWords(lb, measures, reading);
  return about === null ? '' : `, ${about}`;
};

interface StripAsked extends Reading {
  readonly source: Source;
  readonly years: readonly SourceYear[];
  readonly plan: Plan | null;
  readonly day: CalendarDate;
}

const stripOf = whileTheSame(
  'years',
  ({ source, years, plan, day: today, ...reading }: StripAsked): SeasonStripProps | null => {
    const current = yearShown(years, today);
    if (current === null) return null;
    const axis = seasonAxis(today, reading);
    const start = axisStart(today);
    const day = (date: CalendarDate) => daysBetween(start, date);
    const isOnAxis = (from: number, until: number) => until > 0 && from < axis.days;
    return {
      id: `season-${source.id}`,
      words: `${source.name} ${current.season.year}: ${windowWords(current, reading)}`,
      axis,
      seasons: years.flatMap(({ season }) => {
        const window = [day(season.beginsOn), day(addDays(season.endsOn, 1))] as const;
        if (!isOnAxis(...window)) return [];
        const mostActive = [day(season.plannedFrom), day(addDays(season.plannedTo, 1))] as const;
        return [
          {
            window,
            mostActive: season.plannedOn === 'most-active' && isOnAxis(...mostActive) ? mostActive : null,
          },
        ];
      }),
      planned: wantedByWeek(plan, source)
        .map(({ week }) => day(addDays(mondayOf(week), 3)))
        .filter((at) => at >= 0 && at < axis.days),
    };
  },
);

/** Id of the form that says when somebody first picked. */
export const pickedForm = ({ id }: Pick<Source, 'id'>): string => `picked-${id}`;

function presentPicked(
  source: Source,
  years: readonly SourceYear[],
  today: CalendarDate,
  reading: Reading,
  state: StateOfForm,
): FirstPickedProps {
  const picked = source.windows.find((window) => window.year === yearOf(today))?.firstPickedOn ?? null;
  const shift = years.find(({ season }) => season.year === yearOf(today))?.shiftDays ?? 0;
  const days = Math.abs(shift);
  const off = shift === 0 ? 'as usual' : `${counted(days, 'day')} ${shift > 0 ? 'late' : 'early'}`;
  return {
    form: state(pickedForm(source), { date: picked ?? '' }),
    said: picked === null ? null : `First picked ${formatDay(picked, reading)}: this year runs ${off}.`,
  };
}
