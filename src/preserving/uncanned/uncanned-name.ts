import { counted } from '../../../shared/counting.ts';
import type { Problem } from '../../../shared/problems.ts';
import type { Keeping } from '../../household/item.ts';
import { namedIn } from '../foods/name-reading.ts';
import { oilRefusal } from '../foods/untested-foods.ts';

const standsUnfrozen: ReadonlySet<Keeping> = new Set(['dried', 'cellar', 'fermented', 'refrigerated']);

/** Cooked meat, fish, milk and eggs keep so many days in the refrigerator. Source: FSIS-SHELF-DATA, soup and stock opened. */
const animalFoodCold = '3 to 4 days';

/** What keeps shorter in the refrigerator is gone before a plan by weeks can count on it. Our own bound. */
const fewestDaysCold = 8;

/**
 * What stands against keeping something of this name so, or nothing. Frozen food is held against nothing, what is canned
 * or bought has rules elsewhere. Food in oil grows botulism bacteria wherever no air gets to it and it is not frozen.
 * Meat, fish, milk and eggs that are dried, cured, fermented or cellared follow rules of their own, which this program
 * does not carry; in the refrigerator they keep days only.
 */
export function uncannedNameProblem(
  name: string,
  keeping: Keeping,
  days: number | null = null,
): Problem | null {
  if (!standsUnfrozen.has(keeping)) return null;
  const named = namedIn(name);
  const inOil = oilRefusal(named);
  if (inOil !== undefined) return inOil;
  const animal = named.find(
    ({ food, group, sure }) =>
      sure && food !== 'butter' && (group === 'meat' || group === 'seafood' || group === 'dairy'),
  );
  if (keeping === 'refrigerated')
    return animal === undefined ? tooShortCold(days) : animalCold(name, animal.food);
  return animal === undefined
    ? null
    : {
        code: 'uncanned-animal-food',
        path: ['name'],
        message: `“${name.slice(0, 60)}” names ${animal.food}. Meat, fish, milk and eggs are dried, cured and fermented by rules of their own that are not in this program. Keep it frozen here, or can it by a tested recipe.`,
      };
}

const animalCold = (name: string, food: string): Problem => ({
  code: 'animal-food-cold',
  path: ['name'],
  message: `“${name.slice(0, 60)}” names ${food}. Cooked meat, fish, milk and eggs keep ${animalFoodCold} in the refrigerator, too short to plan on. Keep it frozen.`,
});

const tooShortCold = (days: number | null): Problem | null =>
  days === null || days >= fewestDaysCold
    ? null
    : {
        code: 'keeps-too-short',
        path: ['bestQualityDays'],
        message: `What keeps less than ${counted(fewestDaysCold, 'day')} in the refrigerator is eaten fresh and not planned. Write ${counted(fewestDaysCold, 'day')} or more, or keep it frozen.`,
      };
