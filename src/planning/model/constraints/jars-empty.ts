import type { JarKind } from '../../../../shared/jar.ts';
import { cell, entry, orNone } from '../../lookup.ts';
import type { JarHolding, PlanningYear } from '../../planning-year.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { broughtHome } from './supply-balance.ts';

/**
 * Jars to fill are on hand, emptied by then, or bought: empty jars come back only as full ones are eaten.
 *
 * `jars_empty[k,w] = jars_empty[k,w-1] + emptied in w-1 + pack × bought before w - sum(high-yield jars × batches[r,w])`, jars.
 *
 * Emptied jars: opening lots as expected use takes them, first-expired first; jars of lots made this year only where the
 * item is put up in this one kind and never bought, after the opening lots are gone. What is given away takes its jar along.
 */
export function jarsEmpty(draft: Draft): void {
  const { sets, columns, writer } = draft;
  sets.year.jars.forEach((holding, at) => {
    sets.weekIndexes.forEach((week) => {
      const empty = columns.jarsEmpty[at]?.[week];
      if (empty == null) return;
      const entries: Entry[] = [[empty, 1]];
      const before = week > 0 ? columns.jarsEmpty[at]?.[week - 1] : null;
      if (before != null) entries.push([before, -1]);
      const bought = broughtHome(columns.jarsBought[at] ?? [], week);
      if (bought !== null) entries.push([bought, -holding.pack]);
      sets.recipes.forEach((recipe, recipeAt) => {
        const batches = columns.batches[recipeAt]?.[week];
        if (batches != null && recipe.jarKind === holding.kind) entries.push([batches, recipe.yieldHighJars]);
      });
      const emptied = week > 0 ? emptiedIn(draft, holding.kind, week - 1) : { given: 0, entries: [] };
      for (const [column, jars] of emptied.entries) entries.push([column, -jars]);
      const given = (week === 0 ? holding.empty : 0) + emptied.given;
      writer.row(`jars_empty[${holding.kind},${sets.year.weeks[week]}]`, given, entries, given);
    });
  });
}

/** Jars of a kind emptied in a week if all use is served, and what each unit of shortage takes away from it. */
export function emptiedIn(draft: Draft, kind: JarKind, week: number): { given: number; entries: Entry[] } {
  const { sets, spans, columns } = draft;
  let given = 0;
  const entries: Entry[] = [];
  sets.items.forEach((_, at) => {
    given += jarsIfServed(draft, kind, at, week);
    const shortage = columns.shortage[at]?.[week];
    const span = spans[at]?.[week];
    if (shortage == null || !span) return;
    const perUnit = Math.min(
      ...sets.weekIndexes.slice(span.from, span.to + 1).map((within) => {
        const use = cell(draft.parameters.useByWeek, at, within, 'useByWeek');
        return use > 1e-9 ? jarsIfServed(draft, kind, at, within) / use : Number.POSITIVE_INFINITY;
      }),
    );
    if (Number.isFinite(perUnit)) entries.push([shortage, -perUnit]);
  });
  return { given, entries };
}

/** Jars emptied at home come back; of those given away only the share that people bring back. */
function jarsIfServed(draft: Draft, kind: JarKind, at: number, week: number): number {
  const { items, year } = draft.sets;
  const use = entry(entry(items, at, 'items').useByWeek, week, 'useByWeek');
  const given = use > 1e-9 ? Math.min(1, orNone(items[at]?.givenByWeek?.[week]) / use) : 0;
  const { returnShare } = holdingOf(year, kind);
  return jarsEmptied(draft, kind, at, week) * (1 - given * (1 - returnShare));
}

function jarsEmptied({ sets, parameters }: Draft, kind: JarKind, at: number, week: number): number {
  const item = entry(sets.items, at, 'items');
  const opening = entry(parameters.opening, at, 'opening');
  const fromOpening = orNone(entry(opening.emptiedByWeek, week, 'emptiedByWeek').get(kind));
  const recipes = entry(sets.recipesByItem, at, 'recipesByItem').map((recipe) =>
    entry(sets.recipes, recipe, 'recipes'),
  );
  const [way] = recipes;
  if (way === undefined || recipes.some(({ jarKind }) => jarKind !== kind) || item.packs.length > 0)
    return fromOpening;
  const beyondOpening =
    cell(parameters.useByWeek, at, week, 'useByWeek') - entry(opening.takenByWeek, week, 'takenByWeek');
  if (beyondOpening <= 1e-9 || way.yieldLowUnits <= 0) return fromOpening;
  return fromOpening + beyondOpening * Math.min(1, way.yieldHighJars / way.yieldLowUnits);
}

function holdingOf({ jars }: PlanningYear, kind: JarKind): JarHolding {
  const holding = jars.find((one) => one.kind === kind);
  if (holding === undefined) throw new RangeError(`jars: expected ${kind} among ${jars.length}, found none`);
  return holding;
}
