import type { Plan } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';

type Way = PlanningYear['recipes'][number];

/**
 * Adds up each by-product by the batches alone, as a person with the printed plan would who believes none of its columns but the
 * freezer's: in no week is more taken than batches of that week, and of weeks for which it keeps, have left and nobody took
 * before; and batches of a week that share it stand on one day. Answers what is wrong, in words.
 */
export function checkByProducts(plan: Plan, year: PlanningYear): string[] {
  return [
    ...year.materials.flatMap((material) => balanceOf(plan, year, material)),
    ...plan.weeks.flatMap((_, at) => sharedDays(plan, year, at)),
  ];
}

const wayOf = (year: PlanningYear, session: Plan['weeks'][number]['sessions'][number]) =>
  year.recipes.find(
    ({ id, jarKind }) => id === session.recipe && jarKind === (session.jars[0]?.kind ?? null),
  );

/** Batches that take and give in a week: those begun in it. */
const begunIn = (plan: Plan, year: PlanningYear, at: number) =>
  plan.weeks.flatMap(({ sessions }, loadedAt) =>
    sessions.flatMap((session) => {
      const way = wayOf(year, session);
      return way !== undefined && session.begun === undefined && loadedAt - (way.stages?.weeks ?? 0) === at
        ? [{ way, batches: session.batches }]
        : [];
    }),
  );

const amountOf = (list: Way['gives'], material: string): number =>
  list.filter(({ materialId }) => materialId === material).reduce((sum, { quantity }) => sum + quantity, 0);

function balanceOf(plan: Plan, year: PlanningYear, material: PlanningYear['materials'][number]): string[] {
  const wrong: string[] = [];
  const slack = 0.05;
  const keeps = Math.floor(material.keepsDaysCold / 7);
  let left = (material.openingLasts ?? [{ quantity: material.opening, weeks: keeps }]).map(
    ({ quantity, weeks }) => ({ quantity, until: weeks }),
  );
  let inFreezer = 0;
  plan.weeks.forEach(({ week, materials }, at) => {
    const batches = begunIn(plan, year, at);
    const sum = (of: (way: Way) => number) =>
      batches.reduce((total, made) => total + made.batches * of(made.way), 0);
    const move = materials.find(({ what }) => what === material.id);
    const [freeze, thaw] = [move?.freeze ?? 0, move?.thaw ?? 0];
    left = [...left, { quantity: sum(({ gives }) => amountOf(gives, material.id)), until: at + keeps }]
      .filter(({ until }) => until >= at)
      .sort((one, other) => one.until - other.until);
    // A week may freeze what it has and thaw of it for its own batches: what is frozen that week counts.
    if (thaw > inFreezer + freeze + slack)
      wrong.push(`${week} ${material.id}: ${thaw} thawed of ${inFreezer + freeze} frozen`);
    const taken = sum(({ uses }) => amountOf(uses, material.id));
    let toTake = Math.max(0, taken - thaw) + freeze;
    const there = left.reduce((total, { quantity }) => total + quantity, 0);
    if (toTake > there + slack)
      wrong.push(`${week} ${material.id}: batches take ${toTake}, others left ${there} in time`);
    left = left.map(({ quantity, until }) => {
      const taking = Math.min(quantity, toTake);
      toTake -= taking;
      return { quantity: quantity - taking, until };
    });
    inFreezer += freeze - thaw;
  });
  return wrong;
}

/** What one batch of a week leaves and another of it takes is carried over no night: both stand on the week's usual day. */
function sharedDays(plan: Plan, year: PlanningYear, at: number): string[] {
  const sessions = plan.weeks[at]?.sessions ?? [];
  const week = plan.weeks[at]?.week;
  const ways = sessions.flatMap((session) => {
    const way = wayOf(year, session);
    return way === undefined ? [] : [{ session, way }];
  });
  const taken = new Set(ways.flatMap(({ way }) => way.uses.map(({ materialId }) => materialId)));
  return ways
    .filter(
      ({ session, way }) =>
        session.begun === undefined &&
        session.sharesByProduct !== true &&
        [...way.uses, ...way.gives].some(({ materialId }) => taken.has(materialId)),
    )
    .map(
      ({ session }) => `${week} ${session.recipe}: shares a by-product, and may stand on a day of its own`,
    );
}
