import type { Plan } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';

/**
 * What stands in the refrigerator, walked week by week as a person eats it, the oldest first: nothing that is made is left at
 * the end of the week in which its days are over. Answers what is wrong, in words.
 */
export function checkKeptCold(plan: Plan, year: PlanningYear): string[] {
  return year.items
    .filter(({ neverPastDays }) => neverPastDays === true)
    .flatMap((item) => {
      const wrong: string[] = [];
      let standing = item.openingLots.reduce((sum, { units }) => sum + units, 0);
      const made: { readonly at: number; left: number }[] = [];
      plan.weeks.forEach(({ week, sessions }, at) => {
        for (const session of sessions) {
          const way = year.recipes.find(({ id }) => id === session.recipe);
          if (way?.itemId === item.id) made.push({ at, left: way.yieldLowUnits * session.batches });
        }
        let open = item.useByWeek[at] ?? 0;
        const fromShelf = Math.min(open, standing);
        standing -= fromShelf;
        open -= fromShelf;
        for (const lot of made) {
          const taken = Math.min(open, lot.left);
          lot.left -= taken;
          open -= taken;
          if (at - lot.at >= item.bestQualityWeeks && lot.left > 0.05)
            wrong.push(`${week} ${item.id}: ${lot.left} units are past their days in the refrigerator`);
        }
      });
      return wrong;
    });
}
