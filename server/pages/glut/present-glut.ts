import { counted, isOrAre } from '../../../shared/counting.ts';
import { asCents } from '../../../shared/money.ts';
import type { GlutWay } from '../../../src/planning/glut/glut.ts';
import type { GlutDifference } from '../../../src/planning/glut/glut-difference.ts';
import type { HouseholdYear } from '../../../src/planning/year/household-year.ts';
import type { YearWalk } from '../../../src/planning/year/year-walk.ts';
import { shownPressure } from '../../../src/preserving/lookup/display-units.ts';
import type { GlutWayCard } from '../../../views/pages/glut/glut-page.tsx';
import {
  formatJarKind,
  formatMinutes,
  formatMoney,
  formatNumber,
  formatQuantity,
  formatWeek,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { acidInWords, scheduleWords } from '../../words/process-words.ts';
import { amountOf } from '../../words/shelf-units.ts';

/** One thing a glut can become, in words. */
export function presentWay(
  way: GlutWay,
  loaded: HouseholdYear,
  { walk, hasPlan }: { readonly walk: YearWalk | null; readonly hasPlan: boolean },
  reading: Reading,
): GlutWayCard {
  const item = loaded.facts.items.find(({ id }) => id === way.item);
  const printed = loaded.recipes.schedules.get(way.recipe) ?? [];
  const [schedule] = printed;
  const units = (amount: number) =>
    item === undefined ? formatNumber(amount, reading) : amountOf(item, amount, reading);
  const fact = (words: string, value: string | null) => (value === null ? [] : [{ words, value }]);
  return {
    key: `${way.recipe} ${way.jars?.kind ?? ''}`,
    item: {
      name: way.name,
      family: item?.family ?? 'dry-goods',
      ...(walk !== null ? { href: `/year/${way.item}` } : {}),
    },
    batches: `${formatQuantity(way.batches, 'batch', reading)} from ${formatQuantity(way.lbUsed, 'lb', reading)}${way.lbLeft > 0.05 ? `; ${formatQuantity(way.lbLeft, 'lb', reading)} left over` : ''}`,
    needed: [
      walk === null
        ? 'From the recipe book: it is not among your items yet.'
        : walk.toCome <= 0
          ? 'The year needs no more of it.'
          : `The year still needs ${units(walk.toCome)}, ${formatQuantity(way.batchesWanted, 'batch', reading)}.`,
      ...(walk === null || !hasPlan || walk.toCome <= 0
        ? []
        : [
            walk.letGo > 0
              ? `The plan makes all of it but ${formatNumber(walk.letGo, reading)} of the reserve.`
              : walk.missing <= 0
                ? 'The plan already makes or buys all of it.'
                : walk.planned <= 0
                  ? 'The plan makes none of it.'
                  : `The plan makes ${formatNumber(walk.planned, reading)}; ${formatNumber(walk.missing, reading)} ${isOrAre(walk.missing)} still missing.`,
          ]),
    ].join(' '),
    facts: [
      ...fact('Makes', units(way.units)),
      ...fact(
        'Jars',
        way.jars === null
          ? null
          : `${formatNumber(way.jars.count, reading)}, ${formatJarKind(way.jars.kind)}${missingWords(way.jars.missing, reading)}`,
      ),
      ...fact(
        'New lids',
        way.lids === null
          ? null
          : `${formatNumber(way.lids.count, reading)}${way.jars === null ? '' : `, ${way.jars.mouth} mouth`}${missingWords(way.lids.missing, reading)}`,
      ),
      ...way.supplies.map(({ name, quantity, unit, missing }) => ({
        words: name,
        value: `${formatQuantity(roundTenth(quantity), unit, reading)}${missingWords(roundTenth(missing), reading)}`,
      })),
      ...fact('Acid in each jar', schedule?.acid ? schedule.acid.oneOf.map(acidInWords).join(', or ') : null),
      ...fact(
        'Processing time',
        way.processing === null
          ? null
          : printed.length > 1
            ? `one of these, chosen on the day: ${printed.map(scheduleWords).join('; ')}`
            : `${counted(formatNumber(way.processing.minutes, reading), 'minute')}${way.processing.psi === null ? '' : ` at ${shownPressure(way.processing.psi)} psi`}`,
      ),
      ...fact(
        'Canner loads',
        way.loads === 0
          ? null
          : `${formatNumber(way.loads, reading)}, ${formatMinutes(Math.round(way.cannerMinutes))} in the canner`,
      ),
      ...fact('Hands-on time', formatMinutes(Math.round(way.handsOnMinutes))),
    ],
  };
}

const roundTenth = (amount: number): number => Math.round(amount * 10) / 10;
const missingWords = (missing: number, reading: Reading): string =>
  missing > 0 ? `; ${formatNumber(missing, reading)} short` : '';

interface Line {
  readonly key: string;
  readonly words: string;
}

/** What the plan does otherwise with a glut. */
export interface GlutChange {
  readonly now: readonly Line[];
  readonly freeze: string | null;
  readonly left: string | null;
  /** Other batches of the near weeks that change. */
  readonly moved: readonly Line[];
  /** Batches that the year makes fewer or more of. */
  readonly overYear: readonly Line[];
  readonly sum: string;
}

/** What the plan does otherwise with the glut, line by line. */
export function presentGlutChange(
  difference: GlutDifference,
  { year }: HouseholdYear,
  reading: Reading,
): GlutChange {
  const nameOf = (id: string) => year.recipes.find((recipe) => recipe.id === id)?.name ?? id;
  const batches = (count: number) => formatQuantity(count, 'batch', reading);
  const pounds = (lb: number) => formatQuantity(roundTenth(lb), 'lb', reading);
  const made = new Set(difference.now.map(({ recipe, week }) => `${week} ${recipe}`));
  return {
    now: difference.now.map(({ week, recipe, batches: count }) => ({
      key: `${week} ${recipe}`,
      words: `${nameOf(recipe)}, ${batches(count)}, ${formatWeek(week, reading)}`,
    })),
    freeze: difference.freezeLb < 0.05 ? null : `Freeze ${pounds(difference.freezeLb)} of it.`,
    left:
      difference.leftLb < 0.05
        ? null
        : `${pounds(difference.leftLb)} won’t fit your kitchen hours or what the year needs: eat it fresh, give it away or freeze it.`,
    moved: difference.moved
      .filter(({ week, recipe, before, after }) => before > after || !made.has(`${week} ${recipe}`))
      .map(({ week, recipe, before, after }) => ({
        key: `${week} ${recipe}`,
        words: `${nameOf(recipe)}, ${formatWeek(week, reading)}: ${batches(after)} instead of ${formatNumber(before, reading)}`,
      })),
    overYear: difference.overYear.map(({ recipe, batches: count }) => ({
      key: recipe,
      words: `${nameOf(recipe)}: ${batches(Math.abs(count))} ${count < 0 ? 'fewer' : 'more'} over the year`,
    })),
    sum: `Over the year ${moreOrLess(difference.spend, formatMoney(asCents(Math.abs(Math.round(difference.spend))), reading))} to spend, ${moreOrLess(difference.kitchenMinutes, formatMinutes(Math.abs(Math.round(difference.kitchenMinutes))))} in the kitchen.`,
  };
}

const moreOrLess = (amount: number, words: string): string =>
  Math.abs(amount) < 0.5 ? 'nothing more' : `${words} ${amount > 0 ? 'more' : 'less'}`;
