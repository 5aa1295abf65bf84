import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { openHighsSolver } from './server/solver/highs-solver.ts';
import { buildModel } from './src/planning/model/build-model.ts';
import { generatedHousehold } from './tests/planning/generated-household.ts';
import { modelAsMps } from './tests/bench/model-as-mps.ts';
const solver = openHighsSolver({ processes: 1 } as never);
let bad = 0;
for (let seed = 1; seed <= 20; seed += 1) {
  const preserves = 4 + (seed % 5);
  const { model } = buildModel(generatedHousehold({ seed, preserves, staples: 4, rich: seed % 2 === 0, fundShare: seed % 3 === 0 ? 0.6 : 1 }));
  const own = await solver.solve(model, { gap: 0.001, secondsLimit: 60 });
  if (own.status !== 'solved') { console.log(seed, own.status); continue; }
  writeFileSync('/tmp/wt/chance-h.mps', modelAsMps(model));
  const run = spawnSync('cbc', ['/tmp/wt/chance-h.mps', '-ratioGap', '0.001', '-seconds', '90', '-solve', '-quit'], { encoding: 'utf8' });
  const v = [...run.stdout.matchAll(/Objective value:\s*([-+.\deE]+)/g)].at(-1)?.[1];
  const b = [...run.stdout.matchAll(/Lower bound:\s*([-+.\deE]+)/g)].at(-1)?.[1];
  const value = Number(v) + model.constant;
  const agrees = value >= own.bound - 1 && own.objective <= value * 1.002 + 1;
  if (!agrees) bad += 1;
  console.log(seed, preserves, own.objective.toFixed(1), own.bound.toFixed(1), 'cbc', value.toFixed(1), b, agrees ? 'agrees' : 'DISAGREES', run.stdout.match(/Result - .*/)?.[0]);
}
console.log('disagree', bad);
await solver.close();
