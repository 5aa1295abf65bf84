import { drawNormal, type Random } from '../../shelf/draws.ts';
import { entry, found, orNone } from '../lookup.ts';
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

/**
 * Draws a year's harvests: each source is poor with its declared chance and then gives its declared share; otherwise its
 * amount varies around the usual. Where the fall-back is to buy, what is missing is bought at the crop's dearest price.
 */
export function drawHarvest(year: PlanningYear, plan: Plan, spread: YearSpread, random: Random): HarvestYear {
  const factorBySource = new Map(
    year.sources.map((source) => [source.id as string, drawFactor(source, spread, random)]),
  );
  const crops = [...new Set(year.sources.map(({ crop }) => crop as string))].sort();
  const laterByCrop = new Map(
    crops.map((crop) => [crop, Math.round(drawNormal(random) * spread.windowWeeks)]),
  );
  const shares = new Map<string, { readonly byWeek: number[]; had: number; planned: number }>(
    crops.map((crop) => [crop, { byWeek: [], had: 0, planned: 0 }]),
  );
  let extraCents = 0;
  plan.weeks.forEach(({ purchases }, week) => {
    const hadInWeek = new Map<string, { had: number; planned: number }>();
    for (const line of purchases) {
      if (line.kind !== 'produce') continue;
      const source = year.sources.find(({ id }) => id === line.what);
      if (source === undefined) continue;
      const gives =
        entry(source.lbByWeek, week, 'lbByWeek') * found(factorBySource, source.id, 'factorBySource');
      const had = Math.min(line.quantity, gives);
      const missing = line.quantity - had;
      const boughtInstead = source.fallBack === 'buy' ? missing : 0;
      extraCents +=
        boughtInstead * dearestPrice(year, source) -
        missing * entry(source.priceCentsPerLbByWeek, week, 'priceCentsPerLbByWeek');
      const sofar = hadInWeek.get(source.crop) ?? { had: 0, planned: 0 };
      sofar.had += had + boughtInstead;
      sofar.planned += line.quantity;
      hadInWeek.set(source.crop, sofar);
    }
    for (const [crop, share] of shares) {
      const inWeek = hadInWeek.get(crop);
      share.had += orNone(inWeek?.had);
      share.planned += orNone(inWeek?.planned);
      // Batches of a week without picking use what was kept or frozen: the share of all that came so far.
      const basis = inWeek ?? share;
      share.byWeek.push(basis.planned > 0 ? basis.had / basis.planned : 1);
    }
  });
  return {
    // A crop without a source is used from what is in the freezer, whatever this year's harvests do.
    shareOf: (crop, week) => {
      const share = shares.get(crop);
      return share === undefined ? 1 : entry(share.byWeek, week, 'byWeek');
    },
    weeksLater: (crop) => orNone(laterByCrop.get(crop)),
    extraCents,
  };
}

/** A poor year's share, or a usual year's amount: log-normal with mean 1 and the given coefficient of variation. */
function drawFactor(source: PlannedSource, { harvest }: YearSpread, random: Random): number {
  const isPoor = random() < source.poorYearChance;
  const logVariance = Math.log(1 + harvest * harvest);
  const usual = Math.exp(drawNormal(random) * Math.sqrt(logVariance) - logVariance / 2);
  return isPoor ? source.poorYearShare : usual;
}

function dearestPrice({ sources }: PlanningYear, { crop }: PlannedSource): number {
  return Math.max(
    0,
    ...sources
      .filter((source) => source.crop === crop)
      .flatMap(({ priceCentsPerLbByWeek }) => priceCentsPerLbByWeek),
  );
}
