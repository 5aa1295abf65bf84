import { entry } from '../lookup.ts';
import { type Mix, Room, steady } from './glut-room.ts';
import { type GlutKitchen, type MixWay, worthOf } from './glut-ways.ts';

/** One above the other by more than rounding; null where they are the same. */
export const moreThan = (one: number, other: number): boolean | null =>
  Math.abs(one - other) < 1e-6 ? null : one > other;

const worthOfBatch = ({ walk, recipe }: MixWay): number => worthOf(walk, recipe.yieldLowUnits);
const perMinute = (amount: number, { minutes }: MixWay): number => amount / Math.max(1, minutes);

/** The likeliest ways first: what serves the year most for a minute's work. */
export const byWorth = (ways: readonly MixWay[]): readonly MixWay[] =>
  ways.toSorted(
    (one, other) =>
      perMinute(worthOfBatch(other), other) - perMinute(worthOfBatch(one), one) || steady(one, other),
  );

/** What takes most pounds for a minute's work first. */
export const byPounds = (ways: readonly MixWay[]): readonly MixWay[] =>
  ways.toSorted((one, other) => perMinute(other.lb, other) - perMinute(one.lb, one) || steady(one, other));

/** So many mixes are looked at for an aim; a household's glut rarely has a tenth of them. */
const mostMixes = 40_000;

export interface Aim {
  /** A batch counts only where the year wants at least half of it. */
  readonly isWanted: boolean;
  readonly isBetter: (one: Mix, other: Mix) => boolean | null;
}

/** The best mix by an aim, as many batches of the likeliest way first; null where no batch fits. */
export function bestMix(kitchen: GlutKitchen, ways: readonly MixWay[], lb: number, aim: Aim): Mix | null {
  const room = new Room(kitchen, ways, lb);
  let best: Mix | null = null;
  let looked = 0;
  const look = (from: number): void => {
    if (looked >= mostMixes) return;
    looked += 1;
    const mix = room.mix();
    if (mix.taken.length > 0 && (best === null || aim.isBetter(mix, best) === true)) best = mix;
    for (let at = from; at < ways.length; at += 1) {
      const way = entry(ways, at, 'ways');
      if (aim.isWanted && !room.isWanted(way)) continue;
      const week = room.add(way);
      if (week === null) continue;
      look(at);
      room.remove(way, week);
    }
  };
  look(0);
  return best;
}

/** A way by itself, as far as the year wants it or else as far as it goes: the least work for a pound used. */
export function quickest(kitchen: GlutKitchen, ways: readonly MixWay[], lb: number): Mix | null {
  const mixes = ways.flatMap((way): Mix[] => {
    const room = new Room(kitchen, ways, lb);
    const isBounded = room.isWanted(way);
    while ((!isBounded || room.isWanted(way)) && room.add(way) !== null);
    const mix = room.mix();
    return mix.taken.length > 0 ? [mix] : [];
  });
  // A jar or two out of a bushel is no answer to it.
  const most = Math.max(...mixes.map((mix) => mix.lb));
  return mixes
    .filter((mix) => mix.lb >= most / 2)
    .reduce<Mix | null>(
      (best, mix) =>
        best === null || moreThan(best.minutes / best.lb, mix.minutes / mix.lb) === true ? mix : best,
      null,
    );
}
