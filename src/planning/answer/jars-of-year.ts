import { inUsualJars, type JarSize, jarSizes, sizeOf } from '../../../shared/jar.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { type FilledJars, type JarsOfItem, jarsInUse } from '../../shelf/jars-in-use.ts';
import type { PlannedItem } from '../planning-year.ts';
import type { StoredPlan } from '../stored-plan.ts';
import { weekPosition } from './week-position.ts';

/** Jars of one size through the weeks of a plan. */
export interface JarsOfSize {
  readonly size: JarSize;
  /** Jars that hold something at each week's end. */
  readonly inUseByWeek: readonly number[];
  /** Jars there are by each week's end, those bought until then among them; null where nobody counted the empty ones. */
  readonly ownedByWeek: readonly number[] | null;
}

/** Every size the household owns or fills, the smallest first, if the plan is carried out and use comes as expected. */
export const jarsOfYear = (kept: StoredPlan): readonly JarsOfSize[] => jarsOfPlan({ kept });

const jarsOfPlan = whileTheSame('kept', ({ kept }: { readonly kept: StoredPlan }) => {
  const { year } = kept;
  const inUse = jarsInUse(
    year.items.map((item) => jarsOf(item, kept)),
    year.weeks.length,
  );
  const nothing = year.weeks.map(() => 0);
  return jarSizes.flatMap((size): JarsOfSize[] => {
    const inUseByWeek = inUse.get(size) ?? nothing;
    const ownedByWeek = owned(size, kept);
    return ownedByWeek?.some((jars) => jars > 0) || inUseByWeek.some((jars) => jars > 0)
      ? [{ size, inUseByWeek, ownedByWeek }]
      : [];
  });
});

function jarsOf(item: PlannedItem, { year, plan, paths }: StoredPlan): JarsOfItem {
  const position = (week: WeekKey) => weekPosition(year.weeks, week);
  const opening = item.openingLots.flatMap((lot): FilledJars[] =>
    lot.jarKind === null || lot.jars <= 0
      ? []
      : [
          {
            size: sizeOf(lot.jarKind),
            units: lot.units,
            unitsPerJar: lot.units / lot.jars,
            filledWeek: -1,
            readyWeek: position(lot.readyFrom),
            eatenBefore: position(lot.bestQualityUntil),
          },
        ],
  );
  const made = plan.weeks.flatMap(({ week, sessions }) =>
    sessions.flatMap((session): FilledJars[] => {
      const recipe = year.recipes.find(({ id }) => id === session.recipe);
      if (recipe === undefined || recipe.itemId !== item.id) return [];
      if (recipe.jarKind === null || item.jarKind === null) return [];
      const filledWeek = position(week);
      return [
        {
          size: sizeOf(recipe.jarKind),
          units: session.units,
          unitsPerJar: inUsualJars(sizeOf(recipe.jarKind), sizeOf(item.jarKind)),
          filledWeek,
          readyWeek: filledWeek + recipe.readyAfterWeeks,
          eatenBefore: filledWeek + item.bestQualityWeeks,
        },
      ];
    }),
  );
  const path = paths.find((own) => own.item === item.id);
  return { filled: [...opening, ...made], takenByWeek: path?.takenByWeek ?? [] };
}

function owned(size: JarSize, { year, plan }: StoredPlan): readonly number[] | null {
  if (!year.jars.some(({ kind }) => sizeOf(kind) === size)) return null;
  const empty = year.jars
    .filter(({ kind }) => sizeOf(kind) === size)
    .reduce((sum, jars) => sum + jars.empty, 0);
  const full = year.items
    .flatMap(({ openingLots }) => openingLots)
    .filter((lot) => lot.jarKind !== null && sizeOf(lot.jarKind) === size)
    .reduce((sum, { jars }) => sum + jars, 0);
  let there = empty + full;
  return year.weeks.map((week) => {
    const bought = plan.weeks
      .filter((own) => own.week === week)
      .flatMap(({ purchases }) => purchases)
      .filter(
        ({ kind, what }) =>
          kind === 'jars' && year.jars.some((jars) => jars.kind === what && sizeOf(jars.kind) === size),
      );
    there += bought.reduce((sum, { quantity }) => sum + quantity, 0);
    return there;
  });
}
