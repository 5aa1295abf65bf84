import fc from 'fast-check';
import { expect, test } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import type { Canner } from '../../../src/preserving/canner.ts';
import { processHere } from '../../../src/preserving/process-here.ts';
import { testedRecipes } from '../../../src/preserving/recipes/tested-recipes.ts';
import { stagesOfWay, waysOf } from '../../../src/preserving/stages/recipe-stages.ts';
import { tables } from '../tables.ts';

// `EVERY_GATE=1` asks 200,000 times, the suite 1,500 times from the same seed.
const runs = process.env.EVERY_GATE === '1' ? 200_000 : 1500;

const kettle: Canner = { method: 'boiling-water', gauge: null, uprightQuarts: 7, gaugeCheckedOn: null };
const canners: readonly Canner[] = [
  kettle,
  { ...kettle, method: 'atmospheric-steam' },
  { ...kettle, method: 'pressure', gauge: 'weighted', volumeQuarts: 18 },
  {
    ...kettle,
    method: 'pressure',
    gauge: 'dial',
    volumeQuarts: 18,
    gaugeCheckedOn: asDate('2026-07-01'),
    gaugeOff: { at5: 0, at10: 0, at15: 0 },
  },
];
const staged = testedRecipes(tables).filter(({ stages }) => stages.length > 0);
/** Every printed row of every staged recipe: its pack, style, jar and altitude band. */
const asked = staged.flatMap((recipe) =>
  recipe.processes.flatMap((process) =>
    tables.processTimes
      .filter(
        ({ foodKey, style, pack }) =>
          foodKey === process.foodKey && style === process.style && pack === process.pack,
      )
      .map((row) => ({ recipe, process, row })),
  ),
);

const start = Date.parse('2026-09-01T08:00:00Z') / 60_000;
const timeOf = (minute: number) => new Date(minute * 60_000).toISOString().slice(0, 16);
const dayOf = (minute: number) => Math.floor(minute / 1440);

// The waits themselves: seed-data/reference/recipe-stages.csv, each with its page. Reckoned here without the gate's own code.
test('whatever the row, canner, way and record: a load that the gate lets in has had every printed wait', () => {
  let open = 0;
  let shut = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...asked),
      fc.constantFrom(...canners),
      fc.nat(9),
      fc.array(fc.integer({ min: -90, max: 90 }), { minLength: 15, maxLength: 15 }),
      fc.constantFrom(-1, -1, -1, 0, 1, 2, 5),
      ({ recipe, process, row }, canner, nth, slips, leftOut) => {
        const ways = waysOf(recipe.stages);
        const way = ways[nth % ways.length] ?? null;
        const path = stagesOfWay(recipe.stages, way);
        let at = start;
        const begun = path.slice(0, -1).map((stage, index) => {
          const minute = at;
          at += stage.leastHours * 60 + (slips[index] ?? 0);
          return { stage, minute };
        });
        const kept = begun.filter((_, index) => index !== leftOut);
        const ruling = processHere(tables, {
          basedOn: recipe.key,
          names: [],
          process: { food: process.foodKey, style: process.style, pack: process.pack },
          crops: [],
          jar: row.jar,
          canner,
          altitudeFt: row.altitudeFromFt,
          prepared: kept.map(({ stage, minute }) => ({
            position: stage.position,
            way: stage.way,
            begunAt: timeOf(minute),
          })),
          at: timeOf(at),
        });
        if (!ruling.ok) {
          shut += 1;
          return;
        }
        open += 1;
        for (const [index, { stage, minute }] of begun.entries()) {
          if (stage.leastHours === 0) continue;
          expect(
            kept.some((one) => one.stage === stage),
            `${recipe.key}: ${stage.what}`,
          ).toBe(true);
          const next = begun.slice(index + 1).filter((one) => kept.includes(one));
          for (const later of [...next.map((one) => one.minute), at])
            if (stage.counted === 'hours')
              expect(later - minute).toBeGreaterThanOrEqual(stage.leastHours * 60);
            else expect(dayOf(later) - dayOf(minute)).toBeGreaterThanOrEqual(stage.leastHours / 24);
        }
      },
    ),
    { numRuns: runs, seed: 13 },
  );
  // It is neither always shut nor always open.
  expect(open).toBeGreaterThan(runs / 50);
  expect(shut).toBeGreaterThan(runs / 50);
}, 1_800_000);
