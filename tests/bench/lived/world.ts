import type { JarKind, Mouth } from '../../../shared/jar.ts';
import type { WeekKey } from '../../../shared/week.ts';

// What a lived year ranges over. Weeks are counted from the first lived one; items, recipes and the others stand for their place
// in these lists. Money in cents, time in minutes, produce in pounds.

/** Weeks in which a household cans and buys. */
export const livedWeeks = 52;
/** Weeks looked at in all: after the last lived one only the shelf is eaten, until its next season. */
export const weeksInAll = 84;

export interface World {
  readonly weeks: readonly WeekKey[];
  readonly items: readonly WorldItem[];
  readonly recipes: readonly WorldRecipe[];
  readonly sources: readonly WorldSource[];
  readonly supplies: readonly WorldSupply[];
  readonly jars: readonly WorldJars[];
  readonly lids: readonly WorldLids[];
  readonly canners: number;
  readonly sessionsByWeek: readonly number[];
  readonly sessionMinutes: number;
  readonly setUpMinutes: number;
  readonly awayByWeek: readonly boolean[];
  readonly crockQuarts: number;
  readonly fund: { readonly opening: number; readonly weekly: number };
  /** What an hour in the kitchen is worth to this household. */
  readonly hourCents: number;
}

export interface WorldItem {
  readonly id: string;
  readonly kind: 'preserve' | 'staple';
  readonly jarKind: JarKind | null;
  /** Weeks from making or buying until best quality ends. */
  readonly lifeWeeks: number;
  /** What one unit that is left over counts for: the least it can have cost, so that nothing is ever made or bought to be left. */
  readonly leftCents: number;
  readonly missCents: number;
  /** What one unit usually costs, its hours with it. */
  readonly costCents: number;
  /** For each week one unit stands past its best. */
  readonly olderCents: number;
  readonly packs: readonly {
    readonly id: string;
    readonly units: number;
    readonly priceByWeek: readonly number[];
  }[];
  readonly openingLots: readonly Lot[];
}

/** Weeks may lie before the first one, or after the last. */
export interface Lot {
  readonly id: string;
  readonly units: number;
  readonly madeIn: number;
  readonly readyIn: number;
  /** First week at whose end it is past its best. */
  readonly bestUntil: number;
}

export interface WorldRecipe {
  readonly id: string;
  readonly item: number;
  readonly jars: number | null;
  readonly lids: number | null;
  /** Jars and lids got ready for a batch; no batch gives more. */
  readonly mostUnits: number;
  readonly leastUnits: number;
  readonly minutes: number;
  readonly canner: number | null;
  readonly cannerMinutes: number;
  readonly produce: readonly { readonly crop: string; readonly lb: number }[];
  readonly supplies: readonly { readonly supply: number; readonly quantity: number }[];
  readonly readyAfterWeeks: number;
  readonly crock: { readonly quarts: number; readonly weeks: number } | null;
  readonly allowedByWeek: readonly boolean[];
}

export interface WorldSource {
  readonly id: string;
  readonly crop: string;
  readonly centsPerLb: number;
  /** Whole weeks it keeps after the week it was picked in. */
  readonly carryWeeks: number;
}

export interface WorldSupply {
  readonly id: string;
  readonly onHand: number;
  readonly pack: number;
  readonly packCents: number;
}

export interface WorldJars {
  readonly kind: JarKind;
  readonly empty: number;
  readonly pack: number;
  readonly packCents: number;
}

export interface WorldLids {
  readonly mouth: Mouth;
  readonly onHand: number;
  readonly box: number;
  readonly boxCents: number;
}

/** One way the years may go: nobody in them knows it beforehand. */
export interface Path {
  /** [item][week]: units wanted. */
  readonly use: readonly (readonly number[])[];
  /** [source][week]: pounds it gives. */
  readonly harvest: readonly (readonly number[])[];
  /** [recipe][week]: whole units that every batch made in that week gives. */
  readonly yields: readonly (readonly number[])[];
  /** [item]: weeks over which its use counts: the lived ones, and for what is made those until it can be made again. */
  readonly countedWeeks: readonly number[];
}

/** Most batches of a recipe that fit one session: at table and stove, and in its canner. */
export const mostPerSession = (world: World, { minutes, cannerMinutes }: WorldRecipe): number =>
  Math.min(
    Math.floor((world.sessionMinutes - world.setUpMinutes) / Math.max(1, minutes) + 1e-9),
    cannerMinutes > 0 ? Math.floor(world.sessionMinutes / cannerMinutes + 1e-9) : Number.POSITIVE_INFINITY,
  );

/** What was done in a year: batches by [recipe][week], packs of staples by [item][pack][week]. */
export interface Deeds {
  readonly batches: readonly (readonly number[])[];
  readonly packs: readonly (readonly (readonly number[])[])[];
}
