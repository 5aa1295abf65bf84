import { entry, orNone } from '../../../src/planning/lookup.ts';
import { historyWeeks, type LivedHousehold } from './household.ts';
import { type Lived, type LivedYear, openYear, type WeekEnd } from './live.ts';
import { livedWeeks, type Path, type World } from './world.ts';

/** A notebook and a rule: `factor` times what was eaten in a year is put up, begun in the first week its crops come in. */
export interface PaperRule {
  readonly name: string;
  readonly factor: number;
}

export const paperRules: readonly PaperRule[] = [1, 1.1, 1.3].map((factor) => ({
  name: `paper ×${factor.toFixed(1)}`,
  factor,
}));

/** Staples are bought when less than so many weeks' use stands, up to so many. */
const staplesBelowWeeks = 2;
const staplesUpToWeeks = 4;
/** The large pack is bought where it is eaten within so many weeks. */
const largePackWeeks = 10;
/** Weeks without a crop after which its next picking begins a season. */
const seasonGapWeeks = 8;

interface Season {
  /** Units the season is to bring the shelf to. */
  wanted: number;
  lastRipe: number;
}

export function liveByPaper(household: LivedHousehold, path: Path, { factor }: PaperRule): Lived {
  const eaten = household.takenBefore.map((weeks) => [...weeks]);
  return liveTowards(household.world, path, {
    perWeek: () =>
      eaten.map((weeks) => {
        const last = weeks.slice(-historyWeeks);
        return last.reduce((sum, units) => sum + units, 0) / last.length;
      }),
    wanted: (perWeek) => perWeek.map((units) => factor * 52 * units),
    write: (end) => {
      eaten.forEach((weeks, item) => {
        if (!isBare(end, item)) weeks.push(takenOf(end, item));
      });
    },
  });
}

/** A year in which staples are bought by their use of a week, and every season brings its shelf to what is wanted. */
export function liveTowards(
  world: World,
  path: Path,
  rule: {
    /** [item]: units of a week. */
    readonly perWeek: () => readonly number[];
    /** [item]: units that a season which begins now is to bring the shelf to. */
    readonly wanted: (perWeek: readonly number[]) => readonly number[];
    readonly write?: (end: WeekEnd, year: LivedYear, week: number) => void;
  },
): Lived {
  const year = openYear(world, path);
  const seasons: (Season | null)[] = world.items.map(() => null);
  for (let week = 0; week < livedWeeks; week += 1) {
    const perWeek = rule.perWeek();
    buyStaples(world, year, perWeek, week);
    canTowards(world, year, { seasons, week, wanted: rule.wanted(perWeek) });
    const end = year.endWeek();
    rule.write?.(end, year, week);
  }
  return year.lived();
}

const takenOf = ({ taken }: WeekEnd, item: number): number =>
  taken.reduce((sum, one) => (one.item === item ? sum + one.units : sum), 0);

/** A week in which it ran out tells nothing of how much would have been eaten. */
const isBare = ({ missed }: WeekEnd, item: number): boolean => orNone(missed[item]) > 0;

function buyStaples({ items }: World, year: LivedYear, perWeek: readonly number[], week: number): void {
  items.forEach(({ packs }, item) => {
    const use = entry(perWeek, item, 'perWeek');
    if (packs.length === 0 || year.standing(item) >= staplesBelowWeeks * use) return;
    const byUnit = packs
      .map((pack, at) => ({
        at,
        units: pack.units,
        cents: entry(pack.priceByWeek, week, 'priceByWeek') / pack.units,
      }))
      .toSorted((one, other) => one.cents - other.cents || one.units - other.units);
    const smallest = byUnit.toSorted((one, other) => one.units - other.units)[0];
    const chosen = byUnit.find(({ units }) => units <= largePackWeeks * use) ?? smallest;
    if (chosen === undefined) return;
    const packsWanted = Math.max(1, Math.ceil((staplesUpToWeeks * use - year.standing(item)) / chosen.units));
    for (let packs = packsWanted; packs > 0; packs -= 1) if (year.buy(item, chosen.at, packs)) return;
    if (smallest !== undefined) year.buy(item, smallest.at, 1);
  });
}

/** One batch after the other of what is furthest below what it should come to, as long as anything can be made. */
function canTowards(
  world: World,
  year: LivedYear,
  {
    seasons,
    week,
    wanted,
  }: {
    readonly seasons: (Season | null)[];
    readonly week: number;
    readonly wanted: readonly number[];
  },
): void {
  world.items.forEach((_, item) => {
    if (!isRipe(world, year, item, week)) return;
    const season = seasons[item];
    if (season == null || week - season.lastRipe > seasonGapWeeks)
      seasons[item] = { wanted: entry(wanted, item, 'wanted'), lastRipe: week };
    else season.lastRipe = week;
  });
  const refused = new Set<number>();
  for (;;) {
    const next = world.items
      .flatMap((_, item) => {
        const season = seasons[item];
        if (refused.has(item) || season == null || season.lastRipe !== week || season.wanted <= 0) return [];
        const share = year.standing(item) / season.wanted;
        return share < 1 ? [{ item, share }] : [];
      })
      .toSorted((one, other) => one.share - other.share || one.item - other.item)[0];
    if (next === undefined) return;
    const isMade = world.recipes.some(({ item }, at) => item === next.item && year.make(at, 1));
    if (!isMade) refused.add(next.item);
  }
}

const isRipe = ({ recipes }: World, year: LivedYear, item: number, week: number): boolean =>
  recipes.some(
    (recipe) =>
      recipe.item === item &&
      recipe.allowedByWeek[week] === true &&
      recipe.produce.every(({ crop, lb }) => year.poundsOf(crop) >= lb),
  );
