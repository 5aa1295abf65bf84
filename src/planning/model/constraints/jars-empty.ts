import type { JarKind } from '../../../../shared/jar.ts';
import { cell, entry, orNone } from '../../lookup.ts';
import type { JarHolding, PlanningYear } from '../../planning-year.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { columnIn, termIn, terms } from '../terms.ts';
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
      const empty = columnIn(columns.jarsEmpty, at, week);
      if (empty === null) return;
      const emptied = emptiedIn(draft, holding.kind, week - 1);
      const given = (week === 0 ? holding.empty : 0) + emptied.given;
      writer.row(
        `jars_empty[${holding.kind},${sets.year.weeks[week]}]`,
        given,
        [
          [empty, 1],
          ...termIn(columns.jarsEmpty, at, week - 1, -1),
          ...terms([broughtHome(entry(columns.jarsBought, at, 'jarsBought'), week)], -holding.pack),
          ...sets.recipes.flatMap(({ jarKind, yieldHighJars }, recipe) =>
            jarKind === holding.kind ? termIn(columns.batches, recipe, week, yieldHighJars) : [],
          ),
          ...emptied.entries.map(([column, jars]): Entry => [column, -jars]),
        ],
        given,
      );
    });
  });
}

/** Jars of a kind emptied in a week if all use is served, and what each unit of shortage takes away from it; none before the year. */
export function emptiedIn(draft: Draft, kind: JarKind, week: number): { given: number; entries: Entry[] } {
  const { sets, spans, columns, parameters } = draft;
  if (week < 0) return { given: 0, entries: [] };
  const given = sets.items.reduce((sum, _, at) => sum + jarsIfServed(draft, kind, at, week), 0);
  const entries = sets.items.flatMap((_, at) => {
    const span = cell(spans, at, week, 'spans');
    if (span === null) return [];
    const perUnit = sets.weekIndexes.slice(span.from, span.to + 1).flatMap((within) => {
      const use = cell(parameters.useByWeek, at, within, 'useByWeek');
      return use > 1e-9 ? [jarsIfServed(draft, kind, at, within) / use] : [];
    });
    return perUnit.length === 0 ? [] : termIn(columns.shortage, at, week, -Math.min(...perUnit));
  });
  return { given, entries };
}

/** Jars emptied at home come back; of those given away only the share that people bring back. */
function jarsIfServed(draft: Draft, kind: JarKind, at: number, week: number): number {
  const { items, year } = draft.sets;
  const { useByWeek, givenByWeek } = entry(items, at, 'items');
  const use = entry(useByWeek, week, 'useByWeek');
  const given = use > 1e-9 ? Math.min(1, orNone(givenByWeek?.[week]) / use) : 0;
  const { returnShare } = holdingOf(year, kind);
  return jarsEmptied(draft, kind, at, week) * (1 - given * (1 - returnShare));
}

function jarsEmptied({ sets, parameters }: Draft, kind: JarKind, at: number, week: number): number {
  const opening = entry(parameters.opening, at, 'opening');
  const fromOpening = orNone(entry(opening.emptiedByWeek, week, 'emptiedByWeek').get(kind));
  const [way, ...others] = entry(sets.recipesByItem, at, 'recipesByItem').map((recipe) =>
    entry(sets.recipes, recipe, 'recipes'),
  );
  const isOnlyKind = way?.jarKind === kind && others.every(({ jarKind }) => jarKind === kind);
  if (!isOnlyKind || entry(sets.items, at, 'items').packs.length > 0) return fromOpening;
  const beyondOpening =
    cell(parameters.useByWeek, at, week, 'useByWeek') - entry(opening.takenByWeek, week, 'takenByWeek');
  return fromOpening + beyondOpening * Math.min(1, way.yieldHighJars / way.yieldLowUnits);
}

function holdingOf({ jars }: PlanningYear, kind: JarKind): JarHolding {
  const holding = jars.find((one) => one.kind === kind);
  if (holding === undefined) throw new RangeError(`jars: expected ${kind} among ${jars.length}, found none`);
  return holding;
}
