import type { RecipeKind } from '../../../shared/schemas/reference/recipe.ts';
import { type Citation, cite, fromMemory } from '../citation.ts';
import { allowed, forbidden, type Ruling, refusal } from '../refusal.ts';
import { leastHoursBefore } from '../stages/recipe-stages.ts';
import type { TestedRecipe } from './recipe-book.ts';

/** The only changes under which a household's copy of a tested recipe may still be canned. */
export const recipeChanges = [
  'dried-spices',
  'salt',
  'less-sugar',
  'lighter-or-heavier-syrup',
  'other-variety-same-fruit',
  'bottled-lemon-juice-for-vinegar',
  'pepper-for-pepper',
  'less-onion-or-pepper',
] as const;
export type RecipeChange = (typeof recipeChanges)[number];

interface ChangeRule {
  /** Kinds of recipe to which it applies; `null`: to all but those excepted. */
  readonly kinds: ReadonlySet<RecipeKind> | null;
  readonly except: ReadonlySet<RecipeKind>;
  readonly rule: string;
  readonly source: Citation;
}

const none: ReadonlySet<RecipeKind> = new Set();

const rules: Readonly<Record<RecipeChange, ChangeRule>> = {
  'dried-spices': {
    kinds: null,
    except: none,
    rule: 'Dried spices and dried herbs may be changed or left out',
    source: cite(
      'MSUE-ALTERING',
      'changes that are safe: types and amounts of dried spices and herbs, said of salsa',
    ),
  },
  salt: {
    kinds: null,
    except: new Set<RecipeKind>(['ferment']),
    rule: 'Salt may be reduced or left out, except in fermented food and in pickles that lie in brine for days',
    source: cite('UW-CHANGES', 'salt'),
  },
  'less-sugar': {
    kinds: new Set<RecipeKind>(['fruit', 'sauce-fruit', 'juice', 'tomato']),
    except: none,
    rule: 'In plain fruit, juice and tomatoes sugar may be reduced or left out, never in jam or jelly',
    source: cite('UW-CHANGES', 'sugar'),
  },
  'lighter-or-heavier-syrup': {
    kinds: new Set<RecipeKind>(['fruit']),
    except: none,
    rule: 'Fruit may be packed in a lighter or heavier syrup, in juice or in water',
    source: cite('USDA-G2', 'p2-5'),
  },
  'other-variety-same-fruit': {
    kinds: null,
    except: none,
    rule: 'Where a recipe names no variety of its fruit or vegetable any will do, but no other kind; never white-fleshed peaches or nectarines',
    source: fromMemory('general extension advice; the white-fleshed exception is read in UW-WHITEPEACH'),
  },
  'bottled-lemon-juice-for-vinegar': {
    kinds: new Set<RecipeKind>(['salsa']),
    except: none,
    rule: 'In salsa the same amount of bottled lemon juice may replace vinegar, but vinegar may never replace lemon juice',
    source: cite('USDA-G3', 'p3-19 to p3-21'),
  },
  'pepper-for-pepper': {
    kinds: new Set<RecipeKind>(['salsa']),
    except: none,
    rule: 'In salsa one kind of pepper may replace another as long as the total amount stays the same',
    source: cite('USDA-G3', 'p3-19 to p3-21'),
  },
  'less-onion-or-pepper': {
    kinds: new Set<RecipeKind>(['sauce']),
    except: none,
    rule: 'In spaghetti sauce the onions, peppers and mushrooms must not be increased; less is allowed',
    source: cite('USDA-G3', 'p3-13'),
  },
};

/** Pickles that take longer lie in brine and partly ferment. */
const longestSoakHours = 24;

const isChange = (text: string): text is RecipeChange => recipeChanges.some((change) => change === text);

/**
 * Whether a copy of a tested recipe with these changes may still be canned by its schedule. Every change must stand on
 * the closed list and apply to that kind of recipe; proportions of salsa, relish, sauce, soup and pickle are frozen.
 * Answers with the rules relied on; otherwise refuses, and what was made is refrigerated or frozen.
 */
export const changesRuling = (
  { kind, stages }: Pick<TestedRecipe, 'kind' | 'stages'>,
  changes: readonly string[],
): Ruling<readonly { readonly change: RecipeChange; readonly rule: string; readonly source: Citation }[]> => {
  const relied: { change: RecipeChange; rule: string; source: Citation }[] = [];
  for (const change of changes) {
    const rule = isChange(change) ? rules[change] : undefined;
    if (!rule || !isChange(change)) {
      return refusedChange(
        `The change ${JSON.stringify(change)} is not one of those that keep a recipe tested`,
        cite('USDA-G3', 'p3-19 to p3-21'),
      );
    }
    const brined = change === 'salt' && kind === 'pickle' && leastHoursBefore(stages) > longestSoakHours;
    if (brined || rule.except.has(kind) || (rule.kinds !== null && !rule.kinds.has(kind))) {
      return refusedChange(`${rule.rule}; this recipe is a ${kind}`, rule.source);
    }
    relied.push({ change, rule: rule.rule, source: rule.source });
  }
  return allowed(relied);
};

const refusedChange = (rule: string, source: Citation): Ruling<never> =>
  forbidden(
    refusal(
      'change-not-allowed',
      'changes',
      rule,
      source,
      `Allowed changes, where they apply: ${recipeChanges.map((change) => change.replaceAll('-', ' ')).join(', ')}. Otherwise refrigerate or freeze what was made.`,
    ),
  );
