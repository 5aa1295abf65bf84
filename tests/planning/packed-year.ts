import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { asCents } from '../../shared/money.ts';
import { buildModel } from '../../src/planning/model/build-model.ts';
import type { CanningDecision } from '../../src/planning/model/planning-stage.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { tinyYear } from './tiny-year.ts';

/** A tiny year in which everything is bought in one or two sizes of pack whose prices change from week to week. */
export function packedYear(seed: number): PlanningYear {
  const year = tinyYear(seed);
  const generator = xoroshiro128plus(seed + 7000);
  const whole = (low: number, high: number) => low + Math.floor(uniformFloat64(generator) * (high - low + 1));
  const pack = (id: string, units: number) => ({
    id,
    units,
    priceByWeek: year.weeks.map(() => asCents(units * whole(80, 160))),
  });
  return {
    ...year,
    kept: [],
    items: year.items.map((item) => ({
      ...item,
      packs: [pack('small', whole(1, 3)), ...(whole(0, 1) === 1 ? [pack('large', whole(4, 7))] : [])],
      useByWeek: item.useByWeek.map((use) => use * (0.4 + uniformFloat64(generator))),
    })),
  };
}

/** Nothing is put up: what is left to decide is what to buy. */
export function nothingPutUp(year: PlanningYear): CanningDecision {
  const { sets } = buildModel(year);
  return {
    batches: sets.recipes.map(() => year.weeks.map(() => 0)),
    sessionsByWeek: year.weeks.map(() => 0),
  };
}
