import type { Pack } from '../../../shared/schemas/reference/process-time.ts';
import type { RecipeKind } from '../../../shared/schemas/reference/recipe.ts';
import type { PotMinutes } from './day-batch.ts';

/** Filling and closing the jars of one load, at most; common practice, no source. */
const fillMinutes = 15;
const leastPrepMinutes = 5;

interface Cooking {
  readonly minutes: number;
  readonly stirred: boolean;
}

const boiledQuickly: Cooking = { minutes: 20, stirred: true };
const simmered: Cooking = { minutes: 60, stirred: false };
const heatedThrough: Cooking = { minutes: 15, stirred: false };

// How long a pot stands on the stove is common practice, no source; it orders the day and never enters a process.
const cookingOf: Partial<Readonly<Record<RecipeKind, Cooking>>> = {
  jam: boiledQuickly,
  jelly: boiledQuickly,
  spread: boiledQuickly,
  syrup: boiledQuickly,
  butter: simmered,
  'sauce-fruit': { minutes: 30, stirred: false },
  sauce: simmered,
  ketchup: simmered,
  chutney: simmered,
  beans: simmered,
  meal: simmered,
};

export interface PotToSplit {
  /** The household's own minutes of work for one pot, all of it. */
  readonly handsOnMinutes: number;
  readonly pack: Pack;
  /** `null` where no published recipe names a kind. */
  readonly kind: RecipeKind | null;
  readonly loads: number;
}

/**
 * One pot's hands-on minutes split into preparing, stirring and filling, in whole minutes, and how long it cooks. Work is
 * never more than what the household said, unless that is less than filling the jars takes.
 *
 * Example: apple butter, 120 minutes, one load: 105 prepare, 60 cook unstirred, 15 fill.
 */
export const potMinutesOf = ({ handsOnMinutes, pack, kind, loads }: PotToSplit): PotMinutes => {
  const cooking =
    pack === 'raw' ? { minutes: 0, stirred: false } : ((kind && cookingOf[kind]) ?? heatedThrough);
  const filling = fillMinutes * loads;
  const stirring = cooking.stirred ? cooking.minutes : 0;
  return {
    prepMinutes: Math.max(leastPrepMinutes, Math.round(handsOnMinutes - filling - stirring)),
    cookMinutes: cooking.minutes,
    stirred: cooking.stirred,
    fillMinutesPerLoad: fillMinutes,
  };
};
