import { describe, expect, it } from 'vitest';
import { solveInBackground } from '../../server/solver/plan-year.ts';
import { makePlan } from '../../src/planning/make-plan.ts';
import { generatedHousehold } from './generated-household.ts';
import { checkPlan } from './independent-checker.ts';

describe('what can be bought', () => {
  // Looked at every fourth week alone, it was bought just before: and each week's replanning moved that on.
  it.each([1, 2, 3])(
    'keeps its reserve at the end of every week where money allows, the near ones by hand and all by the checker, seed %i',
    async (seed) => {
      const household = generatedHousehold({ seed, preserves: 3, staples: 6 });
      const year = { ...household, fund: { ...household.fund, opening: 10_000_000 as never } };
      const answer = await makePlan(year, solveInBackground, { gap: 0.01 });
      if (answer.outcome !== 'planned') throw new Error(answer.detail);
      expect(checkPlan(answer.plan, year)).toEqual([]);
      const bought = year.items.filter(({ packs, reserveUnits }) => packs.length > 0 && reserveUnits > 0);
      expect(bought.length).toBeGreaterThan(0);
      for (const item of bought) {
        let standing = 0;
        for (let week = 0; week < 8; week += 1) {
          const arrived = item.openingLots
            .filter(({ readyFrom }) =>
              week === 0 ? readyFrom <= (year.weeks[0] ?? '') : readyFrom === year.weeks[week],
            )
            .reduce((sum, { units }) => sum + units, 0);
          const packs = (answer.plan.weeks[week]?.purchases ?? [])
            .filter(({ what }) => what === item.id)
            .reduce((sum, { quantity }) => sum + quantity, 0);
          standing += arrived + packs - (item.useByWeek[week] ?? 0);
          expect(standing, `${item.id} in week ${week}`).toBeGreaterThanOrEqual(item.reserveUnits - 1e-6);
        }
      }
    },
  );
});
