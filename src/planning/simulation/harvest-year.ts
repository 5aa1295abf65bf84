import { drawNormal, type Random } from '../../shelf/draws.ts';
import { entry } from '../lookup.ts';
import type { Plan } from '../plan.ts';
import type { PlannedSource, PlanningYear } from '../planning-year.ts';
import type { YearSpread } from './simulated-plan.ts';

/** How one sampled year treats the plan's crops. */
export interface HarvestYear {
  /** Share of the planned pounds of a crop that could be had for a week's batches, 0 to 1. */
  readonly shareOf: (crop: string, week: number) => number;
  /** Whole weeks by which a crop ripens later than planned; negative is earlier. */
  readonly weeksLater: (crop: string) => number;
  /** Cents spent on produce bought in place of what failed. */
  readonly extraCents: number;
}

/** A line of a plan's produce: so many pounds of a source in a week. */
interface Picking {
  /** Position in the year's sources. */
  readonly source: number;
  readonly planned: number;
  /** What the source gives in a usual year's week. */
  readonly usual: number;
  readonly centsPerLb: number;
}

/**
 * How a plan's harvests come in sampled years, one for each call: each source is poor with its declared chance and then gives its
 * declared share; otherwise its amount varies around the usual. Where the fall-back is to buy, what is missing is bought at the
 * crop's dearest price.
 */
export function harvestsOf(
  { sources }: Pick<PlanningYear, 'sources'>,
  plan: Plan,
  spread: YearSpread,
): (random: Random) => HarvestYear {
  const crops = [...new Set(sources.map(({ crop }) => crop as string))].sort();
  const cropOf = sources.map(({ crop }) => crops.indexOf(crop));
  const dearest = crops.map((crop) => dearestPrice(sources, crop));
  const pickings = plan.weeks.map(({ purchases }, week) =>
    purchases.flatMap(({ kind, what, quantity }): Picking[] => {
      const source = kind === 'produce' ? sources.findIndex(({ id }) => id === what) : -1;
      if (source < 0) return [];
      const { lbByWeek, priceCentsPerLbByWeek } = entry(sources, source, 'sources');
      return [
        {
          source,
          planned: quantity,
          usual: entry(lbByWeek, week, 'lbByWeek'),
          centsPerLb: entry(priceCentsPerLbByWeek, week, 'priceCentsPerLbByWeek'),
        },
      ];
    }),
  );
  return (random) => {
    const factors = sources.map((source) => drawFactor(source, spread, random));
    const later = crops.map(() => Math.round(drawNormal(random) * spread.windowWeeks));
    const shares = crops.map((): number[] => []);
    /** By crop: pounds had and planned, in one week and so far. */
    const inWeek = crops.map(() => ({ had: 0, planned: 0 }));
    const soFar = crops.map(() => ({ had: 0, planned: 0 }));
    let extraCents = 0;
    for (const lines of pickings) {
      for (const share of inWeek) {
        share.had = 0;
        share.planned = 0;
      }
      for (const { source, planned, usual, centsPerLb } of lines) {
        const crop = entry(cropOf, source, 'cropOf');
        const had = Math.min(planned, usual * entry(factors, source, 'factors'));
        const missing = planned - had;
        const boughtInstead = entry(sources, source, 'sources').fallBack === 'buy' ? missing : 0;
        extraCents += boughtInstead * entry(dearest, crop, 'dearest') - missing * centsPerLb;
        const share = entry(inWeek, crop, 'inWeek');
        share.had += had + boughtInstead;
        share.planned += planned;
      }
      inWeek.forEach(({ had, planned }, crop) => {
        const all = entry(soFar, crop, 'soFar');
        all.had += had;
        all.planned += planned;
        // Batches of a week without picking use what was kept or frozen: the share of all that came so far.
        const basis = planned > 0 ? { had, planned } : all;
        entry(shares, crop, 'shares').push(basis.planned > 0 ? basis.had / basis.planned : 1);
      });
    }
    return {
      // A crop without a source is used from what is in the freezer, whatever this year's harvests do.
      shareOf: (crop, week) => {
        const at = crops.indexOf(crop);
        return at < 0 ? 1 : entry(entry(shares, at, 'shares'), week, 'byWeek');
      },
      weeksLater: (crop) => {
        const at = crops.indexOf(crop);
        return at < 0 ? 0 : entry(later, at, 'later');
      },
      extraCents,
    };
  };
}

/** A poor year's share, or a usual year's amount: log-normal with mean 1 and the given coefficient of variation. */
function drawFactor(source: PlannedSource, { harvest }: YearSpread, random: Random): number {
  const isPoor = random() < source.poorYearChance;
  const logVariance = Math.log(1 + harvest * harvest);
  const usual = Math.exp(drawNormal(random) * Math.sqrt(logVariance) - logVariance / 2);
  return isPoor ? source.poorYearShare : usual;
}

function dearestPrice(sources: readonly PlannedSource[], crop: string): number {
  return Math.max(
    0,
    ...sources
      .filter((source) => source.crop === crop)
      .flatMap(({ priceCentsPerLbByWeek }) => priceCentsPerLbByWeek),
  );
}
