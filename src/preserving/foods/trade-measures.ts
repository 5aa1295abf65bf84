import { poundsPerKilogram } from '../../../shared/measures.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { ProduceSaid, TradeMeasure } from '../../../shared/trade-measure.ts';
import { type Citation, fromMemory } from '../citation.ts';
import { type LinesOfCrops, lineForCrop } from './line-for-crop.ts';

/** What one bushel, peck, lug or crate of a crop weighs as published. */
export interface MeasureWeight {
  readonly measure: TradeMeasure;
  readonly lb: number;
  readonly source: Citation;
}

type Tables = Pick<ReferenceTables, 'yields' | 'measures'>;

const foodLines: LinesOfCrops<string> = [
  [/^apple/, 'apples-sliced'],
  [/^apricot/, 'apricots'],
  [/^(blackberry|raspberry|blueberry|strawberry)/, 'berries-whole'],
  [/^cherry/, 'cherries'],
  [/^grape(?!fruit)/, 'grapes-whole'],
  [/^nectarine/, 'nectarines'],
  [/^peach/, 'peaches'],
  [/^pear/, 'pears'],
  [/^plum/, 'plums'],
  [/^rhubarb/, 'rhubarb'],
  [/^tomatillo/, 'tomatillos'],
  [/^tomato/, 'tomatoes-crushed'],
  [/^asparagus/, 'asparagus'],
  [/^lima-bean/, 'beans-lima'],
  [/^green-bean/, 'beans-snap'],
  [/^beet/, 'beets'],
  [/^carrot/, 'carrots'],
  [/^sweet-corn/, 'corn-whole-kernel'],
  [/^okra/, 'okra'],
  [/^pea$/, 'peas-green'],
  [/^pepper/, 'peppers'],
  [/^sweet-potato/, 'sweet-potatoes'],
  [/^spinach/, 'spinach-greens'],
  [/^cucumber/, 'cucumbers'],
];
/** Where the canning guide prints no container, or only another one. */
const measureLines: LinesOfCrops<{ readonly measure: TradeMeasure; readonly unit: string }> = [
  [/^apricot/, { measure: 'lug', unit: 'lug:apricots' }],
  [/^asparagus/, { measure: 'bushel', unit: 'bushel:asparagus' }],
  [/^cherry/, { measure: 'bushel', unit: 'bushel:cherries_with_stems' }],
  [/^cabbage/, { measure: 'bushel', unit: 'bushel:cabbage' }],
  [/^cucumber/, { measure: 'bushel', unit: 'bushel:cucumbers' }],
  [/^potato/, { measure: 'bushel', unit: 'bushel:potatoes_white' }],
];
/** By volume, and so by weight of one crop (NIST Handbook 44, Appendix C: four pecks are a bushel). */
const partsOfBushel = { 'half-bushel': 2, peck: 4 } as const;

/**
 * The trade measures of a crop (its key) of which a weight is published, the largest first; empty where there is none. The
 * canning guide's own weight goes before others. A half-bushel and a peck are parts of the bushel of that crop.
 *
 * Example: apples: a bushel 48 lb, a half-bushel 24 lb, a peck 12 lb (USDA Complete Guide 2, p2-7).
 */
export function tradeMeasuresOf(crop: string, { yields, measures }: Tables): readonly MeasureWeight[] {
  const weights = new Map<TradeMeasure, MeasureWeight>();
  const keep = (measure: TradeMeasure, lb: number, source: Citation): void => {
    if (!weights.has(measure)) weights.set(measure, { measure, lb, source });
  };
  const foodKey = lineForCrop(foodLines, crop);
  const printed = yields.find((row) => row.foodKey === foodKey);
  if (printed?.unit != null && printed.unitWeightLb !== null && isContainer(printed.unit))
    keep(printed.unit, printed.unitWeightLb / (printed.quantity ?? 1), {
      sourceId: printed.sourceId,
      locator: printed.locator,
      basis: printed.basis,
    });
  const other = lineForCrop(measureLines, crop);
  const row = measures.find(({ fromUnit }) => fromUnit === other?.unit);
  if (other !== undefined && row !== undefined)
    keep(
      other.measure,
      row.toQuantity / row.fromQuantity,
      row.basis === 'memory'
        ? fromMemory(other.unit)
        : { sourceId: row.sourceId, locator: other.unit, basis: row.basis },
    );
  const bushel = weights.get('bushel');
  if (bushel !== undefined)
    for (const [measure, parts] of Object.entries(partsOfBushel))
      keep(measure as TradeMeasure, bushel.lb / parts, bushel.source);
  return [...weights.values()].toSorted((one, other) => other.lb - one.lb);
}

/** The same of any crop, with the tables told once. */
export const measuresIn =
  (tables: Tables) =>
  (crop: string): readonly MeasureWeight[] =>
    tradeMeasuresOf(crop, tables);

const isContainer = (unit: string): unit is TradeMeasure =>
  unit === 'bushel' || unit === 'lug' || unit === 'crate';

/**
 * Pounds of an amount of produce as it was typed: in pounds, kilograms or a trade measure. Without a published weight of that
 * measure it is refused, and the measures that have one are named, in the weight the household reads.
 */
export function poundsOfProduce(
  amount: number,
  unit: ProduceSaid,
  crop: { readonly key: string; readonly name: string },
  tables: Tables,
  weight: 'lb' | 'kg' = 'lb',
): Outcome<number> {
  if (unit === 'lb') return found(amount);
  if (unit === 'kg') return found(amount * poundsPerKilogram);
  const known = tradeMeasuresOf(crop.key, tables);
  const one = known.find(({ measure }) => measure === unit);
  if (one !== undefined) return found(amount * one.lb);
  const weighed = weight === 'kg' ? 'kilograms' : 'pounds';
  const others = known.map(({ measure, lb }) => {
    const shown = weight === 'kg' ? lb / poundsPerKilogram : lb;
    return `a ${measure} (${Math.round(shown * 10) / 10} ${weight})`;
  });
  return refused({
    code: 'measure-without-weight',
    path: ['unit'],
    message:
      crop.key === ''
        ? `What that weighs depends on the crop. Choose a crop, or write ${weighed}.`
        : `We have no published weight for a ${unit} of ${crop.name.toLowerCase()}. ${
            others.length === 0
              ? `Weigh one, and write the ${weighed}.`
              : `Write ${weighed}, or count in ${others.join(', ')}.`
          }`,
  });
}

/** An amount in the trade measure it is bought in, to the next quarter of one. */
export interface MeasuredAmount {
  readonly measure: TradeMeasure;
  /** Of that measure, in steps of a quarter, at least ½ of one. */
  readonly count: number;
}

/**
 * Pounds of a crop in its largest trade measure of which it is at least a half, to the next quarter of one, as nobody buys
 * hundredths; null for less than half of the smallest, and for a crop without a published weight. Half-bushels are counted as
 * bushels.
 *
 * Example: 63 lb of tomatoes are 1¼ bushels (53 lb each, USDA Complete Guide 3, p3-7).
 */
export function inTradeMeasure(lb: number, measures: readonly MeasureWeight[]): MeasuredAmount | null {
  const own = measures.find((one) => one.measure !== 'half-bushel' && lb >= one.lb / 2 - smallestShare);
  return own === undefined
    ? null
    : { measure: own.measure, count: Math.ceil((lb / own.lb) * 4 - smallestShare * 4) / 4 };
}

/** Of a measure: what less than a hundredth of it is over a quarter is no further quarter. */
const smallestShare = 0.01 / 4;
