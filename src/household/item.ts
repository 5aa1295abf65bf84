import type { Family } from '../../shared/family.ts';
import type { ItemId } from '../../shared/ids.ts';
import type { JarKind } from '../../shared/jar.ts';
import type { CountsAs } from '../../shared/meal-kinds.ts';
import type { CalendarDate } from '../../shared/week.ts';

/** How an item is kept. */
export type Keeping = 'canned' | 'frozen' | 'dried' | 'fermented' | 'cellar' | 'refrigerated' | 'bought';

/** What an item is counted in. */
export type ItemUnit = 'jar' | 'bag' | 'lb' | 'bin' | 'each';

/** Anything the household keeps: a preserve it can make, or a staple it only buys. */
export interface Item {
  readonly id: ItemId;
  readonly name: string;
  readonly kind: 'preserve' | 'staple';
  readonly keeping: Keeping;
  readonly family: Family;
  readonly unit: ItemUnit;
  /** The jar that one unit of the item means; null when it is not kept in jars. */
  readonly usualJar: JarKind | null;
  readonly servingsPerUnit: number | null;
  /** What it counts as in meals, as the household said; null goes by its kind (`countsAs`). */
  readonly countsAs: CountsAs | null;
  readonly shelfLifeKey: string | null;
  readonly bestQualityDays: number;
  readonly keepColdDays: number | null;
  /** What one unit takes up in the freezer; null where nobody said, and for what is not frozen. */
  readonly freezerQuarts: number | null;
  /** Chance of lasting to the next supply that the household wants, 0..1. */
  readonly chanceWanted: number;
  readonly familyMinimumUnits: number | null;
  /** Whole units that always stay for an emergency, the oldest eaten first; null where none do. */
  readonly emergencyUnits: number | null;
  /** Set when it is no longer kept: what still stands is eaten down, nothing new is made or bought. */
  readonly retiredOn: CalendarDate | null;
}

/** Units of an item that always stay for an emergency; of what is no longer kept all may be eaten. */
export const keptForEmergency = ({ emergencyUnits, retiredOn }: Item): number =>
  retiredOn === null ? (emergencyUnits ?? 0) : 0;

/** How everything that is canned is kept and counted. */
export const inJars = {
  keeping: 'canned',
  unit: 'jar',
  freezerQuarts: null,
} as const satisfies Partial<Item>;
