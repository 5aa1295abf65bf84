import { entry } from '../../../src/planning/lookup.ts';
import type { LivedHousehold } from './household.ts';
import type { Lived } from './live.ts';
import { liveTowards } from './paper.ts';
import { drawPath } from './path.ts';
import type { Path } from './world.ts';

// What could be known at most: the odds of everything, and of nothing how it turns out. No person and no program knows as much; what it
// loses to foresight is what no knowledge of a household can save.

/** Years drawn to learn by, of a household of few things and of one that keeps many. */
const yearsToLearn = { most: 120, least: 8, ofAllItems: 480 } as const;
const sweeps = 3;
/** What is tried for each item, as a share of what it is brought to now. */
const shares = [0.4, 0.55, 0.7, 0.8, 0.9, 1.1, 1.2, 1.35, 1.6, 2] as const;
/** A better mean that counts, cents. */
const leastGain = 100;

/** Units to which each season is to bring an item, best on average over many years of the household drawn for it alone. */
export function targetsByTheOdds(household: LivedHousehold, seed: number): readonly number[] {
  const { world, processes } = household;
  const years = Math.min(
    yearsToLearn.most,
    Math.max(yearsToLearn.least, Math.round(yearsToLearn.ofAllItems / world.items.length)),
  );
  const paths = Array.from({ length: years }, (_, year) =>
    drawPath(household, -1 - seed * yearsToLearn.most - year),
  );
  const meanOf = (targets: readonly number[]) =>
    paths.reduce((sum, path) => sum + liveByTheOdds(household, path, targets).score.score, 0) / paths.length;
  let targets: readonly number[] = processes.map(({ perWeek }) => 52 * perWeek);
  let least = meanOf(targets);
  for (let sweep = 0; sweep < sweeps; sweep += 1) {
    const before = least;
    world.items.forEach(({ kind }, item) => {
      if (kind === 'staple') return;
      const from = targets;
      for (const share of shares) {
        const tried = from.map((units, at) => (at === item ? share * units : units));
        const mean = meanOf(tried);
        if (mean < least - leastGain) {
          least = mean;
          targets = tried;
        }
      }
    });
    if (least === before) break;
  }
  return targets;
}

/** A year in which every season brings its shelf to these targets, and staples are bought by what is usually eaten of them. */
export const liveByTheOdds = (
  { world, processes }: LivedHousehold,
  path: Path,
  targets: readonly number[],
): Lived =>
  liveTowards(world, path, {
    perWeek: () => world.items.map((_, item) => entry(processes, item, 'processes').perWeek),
    wanted: () => targets,
  });
