import type { ItemId, RecipeId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { entry, orNone } from '../lookup.ts';
import type { PlanningYear } from '../planning-year.ts';
import { stageWeeks } from '../year/stage-weeks.ts';
import type { Glut, WalkOf } from './glut.ts';
import { bestMix, byPounds, byWorth, moreThan, quickest } from './glut-mix.ts';
import type { Mix } from './glut-room.ts';
import { type GlutKitchen, kitchenFor, type MixWay, waysOf } from './glut-ways.ts';
import { type ToBuyFor, toBuyFor } from './to-buy-for.ts';

/** What an answer is best at: serving what the year lacks, using the glut up, or the least work for a pound. */
export const glutAims = ['what the year lacks', 'all of it', 'least work'] as const;
export type GlutAim = (typeof glutAims)[number];

/** Batches of one recipe, in the week of their canner load. */
export interface GlutMake {
  readonly recipe: RecipeId;
  readonly name: string;
  readonly item: ItemId;
  readonly jarKind: JarKind | null;
  readonly week: WeekKey;
  readonly batches: number;
  /** Units to count on, low yield. */
  readonly units: number;
}

/** One mix of recipes that a glut can go into, and what it asks and leaves. */
export interface GlutAnswer {
  /** What it is best at, one thing or more. */
  readonly aims: readonly GlutAim[];
  readonly makes: readonly GlutMake[];
  readonly lbUsed: number;
  readonly lbLeft: number;
  /** Quarts of room in the freezer once all of it stands there. */
  readonly freezerLeft: number;
  /** Work at table and stove, with a set-up for each week in which something is made. */
  readonly minutes: number;
  /** Jars to have ready, high yield, and how many of them are not there. */
  readonly jars: { readonly count: number; readonly missing: number };
  readonly toBuy: ToBuyFor;
  /** Units the year still wants of what is made of the crop, once these stand. */
  readonly lacks: readonly { readonly item: ItemId; readonly units: number }[];
  /** What its batches leave for others, by material, in its unit; nothing where no amount is known. */
  readonly leaves: readonly { readonly materialId: string; readonly quantity: number }[];
  /** Units beyond what the year wants. */
  readonly over: readonly { readonly item: ItemId; readonly units: number }[];
}

/**
 * The mixes worth comparing, the one a practitioner would choose first: what serves most of what the year lacks, a jar of
 * one food held against another's by its share of that food's year; what leaves the least of the glut; one recipe with
 * the least work for a pound. Mixes that are the same are one answer with several aims. All of them fit the sessions,
 * the canners, the crocks and the freezer of the weeks for which the produce keeps, beside what is pinned there.
 * Empty where no batch fits.
 *
 * Mixes are looked at up to a fixed count, the likeliest first, so that every machine gives the same answers.
 *
 * @param year The household's year with the glut at hand in its first week.
 * @param weeks In how many weeks, the first included, a batch of it may be begun.
 */
export function glutAnswers(
  year: PlanningYear,
  glut: Glut,
  { weeks, walkOf }: { readonly weeks: number; readonly walkOf: WalkOf },
): readonly GlutAnswer[] {
  const kitchen = kitchenFor(year, weeks);
  const ways = waysOf(kitchen, glut.crop, walkOf);
  const wanted = bestMix(kitchen, byWorth(ways), glut.lb, {
    isWanted: true,
    isBetter: (one, other) =>
      moreThan(one.worth, other.worth) ?? moreThan(other.minutes, one.minutes) ?? moreThan(one.lb, other.lb),
  });
  const all = bestMix(kitchen, byPounds(ways), glut.lb, {
    isWanted: false,
    isBetter: (one, other) =>
      moreThan(one.lb, other.lb) ?? moreThan(one.worth, other.worth) ?? moreThan(other.minutes, one.minutes),
  });
  const quick = quickest(kitchen, ways, glut.lb);
  const found: readonly (readonly [GlutAim, Mix | null])[] = wanted
    ? [
        ['what the year lacks', wanted],
        ['all of it', all],
        ['least work', quick],
      ]
    : [
        ['least work', quick],
        ['all of it', all],
      ];
  const byKey = new Map<string, { readonly aims: GlutAim[]; readonly mix: Mix }>();
  for (const [aim, mix] of found) {
    if (mix === null) continue;
    const key = mix.taken.map(({ way, week, batches }) => `${way.at} ${week} ${batches}`).join();
    const known = byKey.get(key);
    if (known) known.aims.push(aim);
    else byKey.set(key, { aims: [aim], mix });
  }
  return [...byKey.values()].map(({ aims, mix }) => answerOf(kitchen, ways, glut, aims, mix, walkOf));
}

function answerOf(
  { year, freezerQuarts }: GlutKitchen,
  ways: readonly MixWay[],
  { crop, lb }: Glut,
  aims: readonly GlutAim[],
  mix: Mix,
  walkOf: WalkOf,
): GlutAnswer {
  const unitsOf = (item: ItemId): number =>
    mix.taken
      .filter(({ way }) => way.recipe.itemId === item)
      .reduce((sum, { way, batches }) => sum + batches * way.recipe.yieldLowUnits, 0);
  const items = [...new Set(ways.map(({ recipe }) => recipe.itemId))];
  const jars = new Map<JarKind, number>();
  for (const { way, batches } of mix.taken)
    if (way.recipe.jarKind !== null)
      jars.set(way.recipe.jarKind, orNone(jars.get(way.recipe.jarKind)) + batches * way.recipe.yieldHighJars);
  return {
    aims,
    makes: mix.taken.map(({ way: { recipe }, week, batches }) => ({
      recipe: recipe.id,
      name: recipe.name,
      item: recipe.itemId,
      jarKind: recipe.jarKind,
      week: entry(year.weeks, week + stageWeeks(recipe), 'weeks'),
      batches,
      units: batches * recipe.yieldLowUnits,
    })),
    lbUsed: mix.lb,
    lbLeft: Math.max(0, lb - mix.lb),
    freezerLeft: Math.max(
      0,
      mix.taken.reduce((room, { way, batches }) => room - batches * way.quarts, freezerQuarts),
    ),
    minutes: mix.minutes,
    jars: {
      count: [...jars.values()].reduce((sum, count) => sum + count, 0),
      missing: [...jars].reduce(
        (sum, [kind, count]) =>
          sum + Math.max(0, count - orNone(year.jars.find((holding) => holding.kind === kind)?.empty)),
        0,
      ),
    },
    toBuy: toBuyFor(
      year,
      crop,
      mix.taken.map(({ way, week, batches }) => ({ recipe: way.recipe, week, batches })),
    ),
    lacks: items.flatMap((item) => {
      const units = orNone(walkOf(item)?.toCome) - unitsOf(item);
      return units > 1e-6 ? [{ item, units }] : [];
    }),
    leaves: leftBy(mix),
    over: items.flatMap((item) => {
      const units = unitsOf(item) - orNone(walkOf(item)?.toCome);
      return units > 1e-6 ? [{ item, units }] : [];
    }),
  };
}

/** What the batches of a mix leave, each material once. */
function leftBy({ taken }: Mix): GlutAnswer['leaves'] {
  const left = new Map<string, number>();
  for (const { way, batches } of taken)
    for (const { materialId, quantity } of way.recipe.gives)
      left.set(materialId, orNone(left.get(materialId)) + batches * quantity);
  return [...left].map(([materialId, quantity]) => ({ materialId, quantity }));
}
