import { entry, orNone } from '../../../src/planning/lookup.ts';
import { createModelWriter, type Entry, type Model } from '../../../src/planning/model/model.ts';
import type { ColumnBoundsByIndex } from '../../../src/planning/solving/held-batches.ts';
import type { Solve } from '../../../src/planning/solving/solving.ts';
import { openYear } from './live.ts';
import type { Score } from './score.ts';
import { type Deeds, livedWeeks, mostPerSession, type Path, type World } from './world.ts';

/** A year lived by who knew it beforehand, and the least any year on this path can come to. */
export interface Foresight {
  /** Null where a limit ended the search before it found a year. */
  readonly score: Score | null;
  /** Proven: nobody's score on this path is below it, cents. */
  readonly bound: number;
  /** False where a limit ended the search before its gap. */
  readonly isWithinGap: boolean;
}

const gap = 0.005;

/** For a year that was lived, made whole: its purchases of supplies, jars and lids follow from what was done. */
const beginSeconds = 10;

/** Solves the path with everything known, from a year that somebody lived on it on, and lives by the answer. */
export async function foresee(
  world: World,
  path: Path,
  solve: Solve,
  secondsLimit: number,
  lived?: Deeds,
): Promise<Foresight> {
  const { model, read, held } = yearModel(world, path);
  const begun =
    lived === undefined
      ? null
      : await solve(model, { gap: 0.01, secondsLimit: beginSeconds, bounds: held(lived) });
  const answer = await solve(model, {
    gap,
    secondsLimit,
    ...(begun?.status === 'solved' ? { start: begun.values } : {}),
  });
  if (answer.status === 'time limit without plan') {
    const relaxed = await solve(model, { gap: 0, relaxed: true, secondsLimit: 10 * secondsLimit });
    if (relaxed.status !== 'solved') throw new Error(`foresight: ${relaxed.status} ${relaxed.detail}`);
    return { score: null, bound: relaxed.bound, isWithinGap: false };
  }
  if (answer.status !== 'solved') throw new Error(`foresight: ${answer.status} ${answer.detail}`);
  const decision = read(answer.values);
  const year = openYear(world, path);
  for (let week = 0; week < livedWeeks; week += 1) {
    world.items.forEach(({ packs }, item) => {
      packs.forEach((_, pack) => {
        const count = orNone(decision.packs[item]?.[pack]?.[week]);
        if (count > 0 && !year.buy(item, pack, count))
          throw notLived(world, week, `${count} packs of ${item}`);
      });
    });
    world.recipes.forEach((recipe, at) => {
      const count = orNone(decision.batches[at]?.[week]);
      if (count > 0 && !year.make(at, count)) throw notLived(world, week, `${count} batches of ${recipe.id}`);
    });
    year.endWeek();
  }
  return { score: year.lived().score, bound: answer.bound, isWithinGap: answer.stoppedBy === 'gap' };
}

const notLived = (world: World, week: number, what: string): Error =>
  new Error(`foresight: ${what} in ${world.weeks[week]} could not be done as it was worked out`);

interface Cupboard {
  readonly onHand: number;
  readonly pack: number;
  readonly packCents: number;
  readonly isKept?: boolean;
}

const heldAt = (columns: readonly (number | null)[], done: readonly number[]) =>
  columns.flatMap((column, week): (readonly [number, readonly [number, number]])[] => {
    const count = entry(done, week, 'done');
    return column === null ? [] : [[column, [count, count]]];
  });

/** Whether enough of every crop of a batch can lie together in a week. */
function mayBeSupplied({ recipes, sources }: World, { harvest }: Path, at: number, week: number): boolean {
  return entry(recipes, at, 'recipes').produce.every(
    ({ crop, lb }) =>
      sources.reduce((pounds, source, one) => {
        if (source.crop !== crop) return pounds;
        const from = Math.max(0, week - source.carryWeeks);
        return pounds + (harvest[one] ?? []).slice(from, week + 1).reduce((sum, each) => sum + each, 0);
      }, 0) >=
      lb - 1e-9,
  );
}

/**
 * The rules of `openYear` as a model whose objective is the score: whoever lives the path by any rule lives one of its plans.
 * Where several sources give a crop, or several batches are made, the order of the books is no matter: picked produce is shared
 * by flows from week picked to week used.
 */
function yearModel(
  world: World,
  path: Path,
): {
  readonly model: Model;
  readonly read: (values: ArrayLike<number>) => Deeds;
  readonly held: (deeds: Deeds) => ColumnBoundsByIndex;
} {
  const { items, recipes, sources, weeks } = world;
  const writer = createModelWriter();
  const lived = Array.from({ length: livedWeeks }, (_, week) => week);
  const batches = recipes.map((recipe, at) =>
    lived.map((week) => {
      const most =
        entry(recipe.allowedByWeek, week, 'allowedByWeek') && mayBeSupplied(world, path, at, week)
          ? entry(world.sessionsByWeek, week, 'sessionsByWeek') * mostPerSession(world, recipe)
          : 0;
      if (most <= 0) return null;
      return writer.column(`batches[${recipe.id},${weeks[week]}]`, { lower: 0, upper: most, integer: true });
    }),
  );
  const spend = lived.map((): Entry[] => []);
  const paid = (week: number, column: number, cents: number) => {
    writer.price('money', column, cents);
    spend[week]?.push([column, cents]);
  };
  const inWeek = (week: number, weight: (recipe: number) => number): Entry[] =>
    recipes.flatMap((_, at): Entry[] => {
      const column = batches[at]?.[week];
      const each = weight(at);
      return column == null || each === 0 ? [] : [[column, each]];
    });
  const yieldOf = (at: number, week: number) => entry(entry(path.yields, at, 'yields'), week, 'yields');

  // Hours and canners.
  for (const week of lived) {
    const work = inWeek(week, (at) => entry(recipes, at, 'recipes').minutes);
    if (work.length === 0) continue;
    const most = entry(world.sessionsByWeek, week, 'sessionsByWeek');
    const sessions = writer.column(`sessions[${weeks[week]}]`, { lower: 0, upper: most, integer: true });
    writer.price('hours', sessions, (world.setUpMinutes / 60) * world.hourCents);
    for (const [column, minutes] of work) writer.price('hours', column, (minutes / 60) * world.hourCents);
    const room = world.sessionMinutes - world.setUpMinutes;
    writer.row(`hours[${weeks[week]}]`, Number.NEGATIVE_INFINITY, [...work, [sessions, -room]], 0);
    for (let canner = 0; canner < world.canners; canner += 1) {
      const loads = inWeek(week, (at) =>
        recipes[at]?.canner === canner ? entry(recipes, at, 'recipes').cannerMinutes : 0,
      );
      if (loads.length > 0)
        writer.row(
          `canner[${canner},${weeks[week]}]`,
          Number.NEGATIVE_INFINITY,
          [...loads, [sessions, -world.sessionMinutes]],
          0,
        );
    }
    recipes.forEach((recipe, at) => {
      const column = batches[at]?.[week];
      if (column != null)
        writer.row(
          `session[${recipe.id},${weeks[week]}]`,
          Number.NEGATIVE_INFINITY,
          [
            [column, 1],
            [sessions, -mostPerSession(world, recipe)],
          ],
          0,
        );
    });
    if (recipes.some(({ crock }) => crock !== null)) {
      const standing = recipes.flatMap(({ crock }, at): Entry[] =>
        crock === null
          ? []
          : Array.from({ length: crock.weeks }, (_, before) => batches[at]?.[week - before]).flatMap(
              (column): Entry[] => (column == null ? [] : [[column, crock.quarts]]),
            ),
      );
      writer.row(`crock[${weeks[week]}]`, Number.NEGATIVE_INFINITY, standing, world.crockQuarts);
    }
  }

  // Produce, from the week it is picked in to that it is used in.
  for (const crop of new Set(sources.map((source) => source.crop))) {
    const used = lived.map((week) =>
      inWeek(week, (at) =>
        entry(recipes, at, 'recipes')
          .produce.filter((one) => one.crop === crop)
          .reduce((sum, { lb }) => sum + lb, 0),
      ),
    );
    const flows = lived.map((): Entry[] => []);
    sources.forEach((source, at) => {
      if (source.crop !== crop) return;
      for (const week of lived) {
        const lb = orNone(path.harvest[at]?.[week]);
        if (lb <= 0) continue;
        const out: Entry[] = [];
        for (let to = week; to <= Math.min(week + source.carryWeeks, livedWeeks - 1); to += 1) {
          if ((used[to] ?? []).length === 0) continue;
          const flow = writer.column(`picked[${source.id},${weeks[week]},${weeks[to]}]`, {
            lower: 0,
            upper: lb,
          });
          paid(to, flow, source.centsPerLb);
          out.push([flow, 1]);
          flows[to]?.push([flow, 1]);
        }
        writer.row(`harvest[${source.id},${weeks[week]}]`, Number.NEGATIVE_INFINITY, out, lb);
      }
    });
    for (const week of lived) {
      const needed = used[week] ?? [];
      if (needed.length > 0)
        writer.row(
          `produce[${crop},${weeks[week]}]`,
          0,
          [...(flows[week] ?? []), ...needed.map(([column, lb]): Entry => [column, -lb])],
          Number.POSITIVE_INFINITY,
        );
    }
  }

  /** Bought by the pack and used up: on hand at the end it counts at cost. */
  const cupboard = (
    name: string,
    { onHand, pack, packCents, isKept = false }: Cupboard,
    used: (week: number) => readonly Entry[],
    back: (week: number) => { readonly given: number; readonly entries: readonly Entry[] },
    ready: ((week: number) => readonly Entry[]) | null,
  ) => {
    let before: Entry[] = [];
    let given = onHand;
    for (const week of lived) {
      const needed = used(week);
      const returned = back(week);
      given += returned.given;
      const packs =
        needed.length === 0
          ? null
          : writer.column(`packs[${name},${weeks[week]}]`, { lower: 0, integer: true });
      if (packs !== null) {
        paid(week, packs, packCents);
        if (isKept) writer.price('left', packs, -packCents);
      }
      const there: Entry[] = [
        ...before,
        ...returned.entries,
        ...(packs === null ? [] : [[packs, pack] as const]),
      ];
      if (ready !== null && needed.length > 0)
        writer.row(
          `ready[${name},${weeks[week]}]`,
          -given,
          [...there, ...ready(week).map(([column, each]): Entry => [column, -each])],
          Number.POSITIVE_INFINITY,
        );
      const left = writer.column(`left[${name},${weeks[week]}]`, { lower: 0 });
      writer.row(
        `cupboard[${name},${weeks[week]}]`,
        -given,
        [...there, ...needed.map(([column, each]): Entry => [column, -each]), [left, -1]],
        -given,
      );
      before = [[left, 1]];
      given = 0;
    }
    return before;
  };
  const nothingBack = () => ({ given: 0, entries: [] });
  world.supplies.forEach((supply, at) => {
    const quantityOf = (recipe: number) =>
      entry(recipes, recipe, 'recipes')
        .supplies.filter((one) => one.supply === at)
        .reduce((sum, { quantity }) => sum + quantity, 0);
    const left = cupboard(supply.id, supply, (week) => inWeek(week, quantityOf), nothingBack, null);
    for (const [column] of left) writer.price('left', column, -supply.packCents / supply.pack);
    writer.constant('left', (supply.onHand * supply.packCents) / supply.pack);
  });
  world.lids.forEach(({ mouth, onHand, box, boxCents }, at) => {
    const ofMouth = (units: (recipe: number) => number) => (recipe: number) =>
      recipes[recipe]?.lids === at ? units(recipe) : 0;
    const left = cupboard(
      `lids ${mouth}`,
      { onHand, pack: box, packCents: boxCents },
      (week) =>
        inWeek(
          week,
          ofMouth((recipe) => yieldOf(recipe, week)),
        ),
      nothingBack,
      (week) =>
        inWeek(
          week,
          ofMouth((recipe) => entry(recipes, recipe, 'recipes').mostUnits),
        ),
    );
    for (const [column] of left) writer.price('left', column, -boxCents / box);
    writer.constant('left', (onHand * boxCents) / box);
  });

  // The shelf.
  const shortages = items.map((item, at) =>
    Array.from({ length: entry(path.countedWeeks, at, 'countedWeeks') }, (_, week) => {
      const column = writer.column(`missed[${item.id},${weeks[week]}]`, {
        lower: 0,
        upper: orNone(path.use[at]?.[week]),
      });
      writer.price('missed', column, item.missCents);
      return column;
    }),
  );
  const packs = items.map((item) =>
    item.packs.map((pack) =>
      lived.map((week) => {
        if (entry(world.awayByWeek, week, 'awayByWeek')) return null;
        const column = writer.column(`bought[${item.id},${pack.id},${weeks[week]}]`, {
          lower: 0,
          integer: true,
        });
        paid(week, column, entry(pack.priceByWeek, week, 'priceByWeek'));
        return column;
      }),
    ),
  );
  items.forEach((item, at) => {
    const counted = entry(path.countedWeeks, at, 'countedWeeks');
    const arrivals: { readonly readyIn: number; readonly bestUntil: number; readonly entry: Entry }[] = [];
    recipes.forEach((recipe, recipeAt) => {
      if (recipe.item !== at) return;
      for (const week of lived) {
        const column = batches[recipeAt]?.[week];
        if (column != null)
          arrivals.push({
            readyIn: Math.min(week + recipe.readyAfterWeeks, counted - 1),
            bestUntil: week + item.lifeWeeks,
            entry: [column, yieldOf(recipeAt, week)],
          });
      }
    });
    item.packs.forEach((pack, packAt) => {
      for (const week of lived) {
        const column = packs[at]?.[packAt]?.[week];
        if (column != null)
          arrivals.push({ readyIn: week, bestUntil: week + item.lifeWeeks, entry: [column, pack.units] });
      }
    });
    let before: Entry[] = [];
    for (let week = 0; week < counted; week += 1) {
      const stock = writer.column(`stock[${item.id},${weeks[week]}]`, { lower: 0 });
      const shortage = entry(entry(shortages, at, 'shortages'), week, 'shortages');
      const opening = item.openingLots
        .filter((lot) => (week === 0 ? lot.readyIn <= 0 : lot.readyIn === week))
        .reduce((sum, { units }) => sum + units, 0);
      const given = orNone(path.use[at]?.[week]) - opening;
      writer.row(
        `shelf[${item.id},${weeks[week]}]`,
        given,
        [
          ...before,
          ...arrivals.filter(({ readyIn }) => readyIn === week).map((one) => one.entry),
          [shortage, 1],
          [stock, -1],
        ],
        given,
      );
      before = [[stock, 1]];
      const older = writer.column(`older[${item.id},${weeks[week]}]`, { lower: 0 });
      const freshOpening = item.openingLots
        .filter((lot) => lot.readyIn <= week && lot.bestUntil > week)
        .reduce((sum, { units }) => sum + units, 0);
      writer.row(
        `older[${item.id},${weeks[week]}]`,
        -freshOpening,
        [
          [older, 1],
          [stock, -1],
          ...arrivals
            .filter(({ readyIn, bestUntil }) => readyIn <= week && bestUntil > week)
            .map((one) => one.entry),
        ],
        Number.POSITIVE_INFINITY,
      );
      writer.price('older', older, item.olderCents);
      if (week === counted - 1) {
        writer.price('left', stock, -item.leftCents);
        writer.price('left', older, item.leftCents);
      }
    }
    writer.constant('left', item.leftCents * item.openingLots.reduce((sum, { units }) => sum + units, 0));
  });

  // Jars: those eaten empty in a week may be filled in the next.
  world.jars.forEach(({ kind, empty, pack, packCents }, at) => {
    const ofKind = (units: (recipe: number) => number) => (recipe: number) =>
      recipes[recipe]?.jars === at ? units(recipe) : 0;
    const eaten = items.flatMap((item, one) => (item.jarKind === kind ? [one] : []));
    // What is bought stays, full or empty, and counts at cost.
    cupboard(
      `jars ${kind}`,
      { onHand: empty, pack, packCents, isKept: true },
      (week) =>
        inWeek(
          week,
          ofKind((recipe) => yieldOf(recipe, week)),
        ),
      (week) =>
        week === 0
          ? nothingBack()
          : {
              given: eaten.reduce((sum, one) => sum + orNone(path.use[one]?.[week - 1]), 0),
              entries: eaten.flatMap((one): Entry[] => {
                const column = shortages[one]?.[week - 1];
                return column === undefined ? [] : [[column, -1]];
              }),
            },
      (week) =>
        inWeek(
          week,
          ofKind((recipe) => entry(recipes, recipe, 'recipes').mostUnits),
        ),
    );
  });

  let fund: Entry[] = [];
  for (const week of lived) {
    const left = writer.column(`fund[${weeks[week]}]`, { lower: 0 });
    const received = week === 0 ? world.fund.opening : world.fund.weekly;
    writer.row(
      `fund[${weeks[week]}]`,
      -received,
      [...fund, ...(spend[week] ?? []).map(([c, cents]): Entry => [c, -cents]), [left, -1]],
      -received,
    );
    fund = [[left, 1]];
  }
  const { model } = writer.finish();
  const whole = (values: ArrayLike<number>, column: number | null | undefined) =>
    column == null ? 0 : Math.round(entry(values, column, 'values'));
  return {
    model,
    held: (deeds) =>
      new Map([
        ...batches.flatMap((byWeek, at) => heldAt(byWeek, entry(deeds.batches, at, 'batches'))),
        ...packs.flatMap((byPack, item) =>
          byPack.flatMap((byWeek, pack) =>
            heldAt(byWeek, entry(entry(deeds.packs, item, 'packs'), pack, 'packs')),
          ),
        ),
      ]),
    read: (values) => ({
      batches: batches.map((byWeek) => byWeek.map((column) => whole(values, column))),
      packs: packs.map((byPack) => byPack.map((byWeek) => byWeek.map((column) => whole(values, column)))),
    }),
  };
}
