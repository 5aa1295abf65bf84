import { entry, orNone } from '../../../src/planning/lookup.ts';
import type { Score } from './score.ts';
import {
  type Deeds,
  type Lot,
  livedWeeks,
  mostPerSession,
  type Path,
  type World,
  type WorldRecipe,
} from './world.ts';

// The books of a lived year, kept apart from the program's own: whoever lives it may only do what its money, hours, jars, lids,
// canners and crops allow, and everything that comes and goes is written down here.

export interface LivedYear {
  /** Weeks lived so far, and the place of the one that is lived now. */
  readonly week: () => number;
  readonly fund: () => number;
  /** Empty jars by kind, as they stand. */
  readonly empties: () => readonly number[];
  readonly lidsOnHand: () => readonly number[];
  readonly suppliesOnHand: () => readonly number[];
  /** What stands on the shelf, ready or not. */
  readonly lots: (item: number) => readonly Lot[];
  readonly standing: (item: number) => number;
  /** Pounds of a crop in the kitchen or to be had this week. */
  readonly poundsOf: (crop: string) => number;
  /** Produce of the weeks before that lies in the kitchen. */
  readonly kitchen: () => readonly { readonly source: number; readonly week: number; readonly lb: number }[];
  /** Pounds a source gives this week, and what of them nobody has used. */
  readonly offered: (source: number) => { readonly given: number; readonly left: number };
  /** Makes so many batches if all of them can be; else does nothing and says so. */
  readonly make: (recipe: number, batches: number) => boolean;
  /** Buys packs of a staple if the fund can pay; else does nothing and says so. */
  readonly buy: (item: number, pack: number, packs: number) => boolean;
  /** Ends the week: what is wanted is taken, first what is past its best soonest. */
  readonly endWeek: () => WeekEnd;
  readonly jarsInAll: () => { readonly full: number; readonly empty: number; readonly bought: number };
  readonly moneyInAll: () => { readonly received: number; readonly spent: number };
  /** After the last lived week. */
  readonly lived: () => Lived;
}

/** A year when it is over: what it came to, and what was done in it. */
export interface Lived {
  readonly score: Score;
  readonly deeds: Deeds;
}

export interface WeekEnd {
  readonly taken: readonly { readonly item: number; readonly lot: string; readonly units: number }[];
  readonly missed: readonly number[];
}

interface Picked {
  readonly source: number;
  readonly week: number;
  lb: number;
}

interface Bill {
  readonly cents: number;
  readonly fromSources: readonly { readonly picked: Picked; readonly lb: number }[];
  readonly supplyPacks: readonly number[];
  readonly jarPacks: number;
  readonly lidBoxes: number;
  readonly sessions: number;
}

export function openYear(world: World, path: Path): LivedYear {
  const { items, recipes, sources } = world;
  const shelf = items.map(({ openingLots }) => openingLots.map((lot) => ({ ...lot })));
  const empties = world.jars.map(({ empty }) => empty);
  const lids = world.lids.map(({ onHand }) => onHand);
  const supplies = world.supplies.map(({ onHand }) => onHand);
  const jarsBought = world.jars.map(() => 0);
  const missed = items.map(() => 0);
  const openingLeft = leftOnShelf() + leftInCupboard();
  let picked: Picked[] = [];
  const crocks: { readonly quarts: number; readonly until: number }[] = [];
  let batches = recipes.map(() => 0);
  let sessions = 0;
  let week = 0;
  let fund = world.fund.opening;
  let spent = 0;
  let minutes = 0;
  let olderCents = 0;
  let lastLot = 0;
  const everyWeek = () => Array.from({ length: livedWeeks }, () => 0);
  const made = recipes.map(everyWeek);
  const bought = items.map(({ packs }) => packs.map(everyWeek));
  pickWeek();

  function pickWeek(): void {
    picked = picked.filter((one) => one.week + entry(sources, one.source, 'sources').carryWeeks >= week);
    sources.forEach((_, source) => {
      const lb = orNone(path.harvest[source]?.[week]);
      if (lb > 0) picked.push({ source, week, lb });
    });
  }

  function pay(cents: number): void {
    fund -= cents;
    spent += cents;
  }

  const ofCrop = (crop: string) =>
    picked
      .filter(({ source }) => entry(sources, source, 'sources').crop === crop)
      .toSorted(
        (one, other) =>
          entry(sources, one.source, 'sources').centsPerLb -
            entry(sources, other.source, 'sources').centsPerLb || one.week - other.week,
      );

  function sessionsFor(made: readonly number[]): number {
    if (made.every((count) => count === 0)) return 0;
    const work = recipes.reduce((sum, recipe, at) => sum + recipe.minutes * entry(made, at, 'made'), 0);
    const byTable = Math.ceil(work / (world.sessionMinutes - world.setUpMinutes) - 1e-9);
    const byCanner = Array.from({ length: world.canners }, (_, canner) =>
      Math.ceil(
        recipes.reduce(
          (sum, recipe, at) =>
            recipe.canner === canner ? sum + recipe.cannerMinutes * entry(made, at, 'made') : sum,
          0,
        ) /
          world.sessionMinutes -
          1e-9,
      ),
    );
    const byRecipe = recipes.map((recipe, at) => {
      const count = entry(made, at, 'made');
      return count === 0 ? 0 : Math.ceil(count / mostPerSession(world, recipe) - 1e-9);
    });
    return Math.max(1, byTable, ...byCanner, ...byRecipe);
  }

  /** What making so many batches more takes; null where it cannot be done. */
  function billOf(recipe: WorldRecipe, at: number, count: number): Bill | null {
    if (!entry(recipe.allowedByWeek, week, 'allowedByWeek')) return null;
    const needed = sessionsFor(batches.map((made, one) => (one === at ? made + count : made)));
    if (needed > entry(world.sessionsByWeek, week, 'sessionsByWeek')) return null;
    if (recipe.crock !== null) {
      const inUse = crocks
        .filter(({ until }) => until > week)
        .reduce((quarts, crock) => quarts + crock.quarts, 0);
      if (inUse + recipe.crock.quarts * count > world.crockQuarts + 1e-9) return null;
    }
    let cents = 0;
    const fromSources: { picked: Picked; lb: number }[] = [];
    for (const { crop, lb } of recipe.produce) {
      let open = lb * count;
      for (const one of ofCrop(crop)) {
        const share = Math.min(open, one.lb);
        if (share <= 0) continue;
        fromSources.push({ picked: one, lb: share });
        cents += share * entry(sources, one.source, 'sources').centsPerLb;
        open -= share;
      }
      if (open > 1e-9) return null;
    }
    const supplyPacks = supplies.map(() => 0);
    for (const { supply, quantity } of recipe.supplies) {
      const { pack, packCents } = entry(world.supplies, supply, 'supplies');
      const short = quantity * count - entry(supplies, supply, 'supplies');
      const packs = Math.max(0, Math.ceil(short / pack - 1e-9));
      supplyPacks[supply] = packs;
      cents += packs * packCents;
    }
    const ready = recipe.mostUnits * count;
    const jarPacks = packsFor(recipe.jars, world.jars, empties, ready);
    const lidBoxes = packsFor(
      recipe.lids,
      world.lids.map(({ box }) => ({ pack: box })),
      lids,
      ready,
    );
    if (recipe.jars !== null) cents += jarPacks * entry(world.jars, recipe.jars, 'jars').packCents;
    if (recipe.lids !== null) cents += lidBoxes * entry(world.lids, recipe.lids, 'lids').boxCents;
    return cents > fund + 1e-9
      ? null
      : { cents, fromSources, supplyPacks, jarPacks, lidBoxes, sessions: needed };
  }

  function make(at: number, count: number): boolean {
    const recipe = entry(recipes, at, 'recipes');
    if (count <= 0) return true;
    const bill = billOf(recipe, at, count);
    if (bill === null) return false;
    pay(bill.cents);
    for (const { picked: one, lb } of bill.fromSources) one.lb -= lb;
    bill.supplyPacks.forEach((packs, supply) => {
      supplies[supply] =
        entry(supplies, supply, 'supplies') + packs * entry(world.supplies, supply, 'supplies').pack;
    });
    for (const { supply, quantity } of recipe.supplies)
      supplies[supply] = entry(supplies, supply, 'supplies') - quantity * count;
    const units = entry(entry(path.yields, at, 'yields'), week, 'yields') * count;
    if (recipe.jars !== null) {
      const bought = bill.jarPacks * entry(world.jars, recipe.jars, 'jars').pack;
      jarsBought[recipe.jars] = entry(jarsBought, recipe.jars, 'jarsBought') + bought;
      empties[recipe.jars] = entry(empties, recipe.jars, 'empties') + bought - units;
    }
    if (recipe.lids !== null)
      lids[recipe.lids] =
        entry(lids, recipe.lids, 'lids') + bill.lidBoxes * entry(world.lids, recipe.lids, 'lids').box - units;
    const added = bill.sessions - sessions;
    minutes += recipe.minutes * count + world.setUpMinutes * added;
    sessions = bill.sessions;
    batches = batches.map((made, one) => (one === at ? made + count : made));
    const { crock } = recipe;
    if (crock !== null) crocks.push({ quarts: crock.quarts * count, until: week + crock.weeks });
    arrive(recipe.item, units, recipe.readyAfterWeeks);
    addTo(entry(made, at, 'made'), count);
    return true;
  }

  const addTo = (byWeek: number[], count: number): void => {
    byWeek[week] = entry(byWeek, week, 'byWeek') + count;
  };

  function arrive(item: number, units: number, readyAfterWeeks: number): void {
    lastLot += 1;
    const counted = entry(path.countedWeeks, item, 'countedWeeks');
    entry(shelf, item, 'shelf').push({
      id: `lot-${lastLot}`,
      units,
      madeIn: week,
      readyIn: Math.min(week + readyAfterWeeks, counted - 1),
      bestUntil: week + entry(items, item, 'items').lifeWeeks,
    });
  }

  function buy(item: number, packAt: number, packs: number): boolean {
    const pack = entry(entry(items, item, 'items').packs, packAt, 'packs');
    const cents = packs * entry(pack.priceByWeek, week, 'priceByWeek');
    if (entry(world.awayByWeek, week, 'awayByWeek') || cents > fund + 1e-9) return false;
    if (packs <= 0) return true;
    pay(cents);
    addTo(entry(entry(bought, item, 'bought'), packAt, 'bought'), packs);
    arrive(item, packs * pack.units, 0);
    return true;
  }

  function eat(item: number, at: number): { taken: WeekEnd['taken'][number][]; missed: number } {
    const lots = entry(shelf, item, 'shelf');
    let open = orNone(path.use[item]?.[at]);
    const taken: WeekEnd['taken'][number][] = [];
    for (const lot of lots.toSorted((one, other) => one.bestUntil - other.bestUntil)) {
      const units = lot.readyIn <= at ? Math.min(open, lot.units) : 0;
      if (units <= 0) continue;
      (lot as { units: number }).units -= units;
      open -= units;
      taken.push({ item, lot: lot.id, units });
    }
    shelf[item] = lots.filter(({ units }) => units > 1e-9);
    missed[item] = entry(missed, item, 'missed') + open;
    const older = entry(shelf, item, 'shelf')
      .filter((lot) => lot.readyIn <= at && lot.bestUntil <= at)
      .reduce((sum, { units }) => sum + units, 0);
    olderCents += older * entry(items, item, 'items').olderCents;
    return { taken, missed: open };
  }

  function endWeek(): WeekEnd {
    const eaten = items.map((_, item) => eat(item, week));
    const back = new Map<string | null, number>();
    eaten.forEach(({ taken }, item) => {
      const { jarKind } = entry(items, item, 'items');
      back.set(jarKind, orNone(back.get(jarKind)) + taken.reduce((sum, { units }) => sum + units, 0));
    });
    world.jars.forEach(({ kind }, at) => {
      empties[at] = entry(empties, at, 'empties') + orNone(back.get(kind));
    });
    week += 1;
    batches = recipes.map(() => 0);
    sessions = 0;
    if (week < livedWeeks) {
      fund += world.fund.weekly;
      pickWeek();
    } else eatOn();
    return { taken: eaten.flatMap(({ taken }) => taken), missed: eaten.map((one) => one.missed) };
  }

  /** After the last lived week what stands is eaten until its next season. */
  function eatOn(): void {
    items.forEach((_, item) => {
      for (let at = livedWeeks; at < entry(path.countedWeeks, item, 'countedWeeks'); at += 1) eat(item, at);
    });
  }

  function leftOnShelf(): number {
    return items.reduce(
      (sum, { leftCents }, item) =>
        sum + leftCents * entry(shelf, item, 'shelf').reduce((units, lot) => units + lot.units, 0),
      0,
    );
  }

  /** At the end what is past its best counts for nothing. */
  function leftAtEnd(): number {
    return items.reduce((sum, { leftCents }, item) => {
      const last = entry(path.countedWeeks, item, 'countedWeeks') - 1;
      const fresh = entry(shelf, item, 'shelf').filter((lot) => lot.bestUntil > last || lot.readyIn > last);
      return sum + leftCents * fresh.reduce((units, lot) => units + lot.units, 0);
    }, 0);
  }

  function leftInCupboard(): number {
    return (
      world.supplies.reduce(
        (sum, { pack, packCents }, at) => sum + (entry(supplies, at, 'supplies') * packCents) / pack,
        0,
      ) +
      world.lids.reduce((sum, { box, boxCents }, at) => sum + (entry(lids, at, 'lids') * boxCents) / box, 0) +
      world.jars.reduce(
        (sum, { pack, packCents }, at) => sum + (entry(jarsBought, at, 'jarsBought') * packCents) / pack,
        0,
      )
    );
  }

  const missedOf = (kind: 'preserve' | 'staple') =>
    items.reduce((sum, item, at) => (item.kind === kind ? sum + entry(missed, at, 'missed') : sum), 0);

  return {
    week: () => week,
    fund: () => fund,
    empties: () => [...empties],
    lidsOnHand: () => [...lids],
    suppliesOnHand: () => [...supplies],
    lots: (item) => entry(shelf, item, 'shelf'),
    standing: (item) => entry(shelf, item, 'shelf').reduce((sum, { units }) => sum + units, 0),
    poundsOf: (crop) => ofCrop(crop).reduce((sum, { lb }) => sum + lb, 0),
    offered: (source) => ({
      given: orNone(path.harvest[source]?.[week]),
      left: picked.reduce((sum, one) => (one.source === source && one.week === week ? sum + one.lb : sum), 0),
    }),
    kitchen: () => picked.filter((one) => one.week < week && one.lb > 1e-9),
    make,
    buy,
    endWeek,
    jarsInAll: () => ({
      full: items.reduce(
        (sum, { jarKind }, item) =>
          jarKind === null
            ? sum
            : sum + entry(shelf, item, 'shelf').reduce((jars, { units }) => jars + units, 0),
        0,
      ),
      empty: empties.reduce((sum, jars) => sum + jars, 0),
      bought: jarsBought.reduce((sum, jars) => sum + jars, 0),
    }),
    moneyInAll: () => ({
      received: world.fund.opening + world.fund.weekly * Math.min(week, livedWeeks - 1),
      spent,
    }),
    lived: () => {
      if (week < livedWeeks) throw new Error(`score: expected ${livedWeeks} lived weeks, found ${week}`);
      const cost = spent + openingLeft - leftAtEnd() - leftInCupboard();
      const hours = (minutes / 60) * world.hourCents;
      const missCents = items.reduce(
        (sum, { missCents: each }, at) => sum + each * entry(missed, at, 'missed'),
        0,
      );
      return {
        score: {
          score: cost + hours + missCents + olderCents,
          cost,
          hours,
          older: olderCents,
          jarsMissed: missedOf('preserve'),
          staplesMissed: missedOf('staple'),
        },
        deeds: { batches: made, packs: bought },
      };
    },
  };
}

function packsFor(
  at: number | null,
  packs: readonly { readonly pack: number }[],
  onHand: readonly number[],
  needed: number,
): number {
  if (at === null) return 0;
  return Math.max(
    0,
    Math.ceil((needed - entry(onHand, at, 'onHand')) / entry(packs, at, 'packs').pack - 1e-9),
  );
}
