import type { CannerId, CropKey, ItemId, RecipeId } from '../../shared/ids.ts';
import type { JarKind } from '../../shared/jar.ts';

/** Somebody said that there is none of another food in what goes by a name. */
export interface NameDenial {
  /** The exact name it was said of. */
  readonly name: string;
  /** What is not in it, as the question had it. */
  readonly otherFood: string;
}

/** Food, style and pack of the published processing table that a recipe follows, and the canner it is done in. */
export interface RecipeProcess {
  readonly food: string;
  readonly style: string;
  readonly pack: string;
  readonly cannerId: CannerId;
  readonly jarKind: JarKind;
}

/** A denial with who said it and when. */
export interface SignedDenial extends NameDenial {
  readonly by: string | null;
  /** Milliseconds since 1970. */
  readonly at: number;
}

export interface Recipe {
  readonly id: RecipeId;
  readonly itemId: ItemId;
  readonly name: string;
  /** The published recipe it follows. */
  readonly basedOn: string;
  /** What the household does otherwise, of the changes under which it stays tested. */
  readonly changes: readonly string[];
  readonly jarKind: JarKind | null;
  /** Null for what is not canned. */
  readonly process: RecipeProcess | null;
  /** A tested process is named, but no canner of the kitchen has been chosen for it. */
  readonly awaitsCanner: boolean;
  /** Why a process that was brought in with it was not believed; null for all others. */
  readonly processRefused: string | null;
  /** Foods somebody said are not in it, though a name of it seems to say so. */
  readonly nameDenials: readonly SignedDenial[];
  /** Jars (bags, lb …) from one batch, of the recipe's own jar kind: as published, drawn towards what was seen here. */
  readonly yieldLow: number;
  /** Whole: jars and lids are got ready for it. */
  readonly yieldHigh: number;
  /** Hands-on work of one batch: as said, drawn towards what it took here. */
  readonly handsOnMinutes: number;
  /** The same before anything was seen, and how many batches were. */
  readonly atFirst: {
    readonly yieldLow: number;
    readonly yieldHigh: number;
    readonly handsOnMinutes: number;
    readonly batchesSeen: number;
  };
  readonly readyAfterDays: number;
  /** As written down with it; null where none was: then `crockOf` works it out. */
  readonly crock: CrockNeeded | null;
  /** Months in which it may be made, the last included; null for any. */
  readonly season: { readonly fromMonth: number; readonly untilMonth: number } | null;
  readonly produce: readonly { readonly crop: CropKey; readonly lb: number; readonly mayBeFrozen: boolean }[];
  readonly supplies: readonly { readonly supplyId: string; readonly quantity: number }[];
  readonly gives: readonly { readonly materialId: string; readonly quantity: number }[];
  readonly uses: readonly { readonly materialId: string; readonly quantity: number }[];
  readonly stages: readonly {
    readonly name: string;
    readonly afterDays: number;
    readonly handsOnMinutes: number;
  }[];
  /** Which of several printed ways the household chose, who and when; null until somebody does. */
  readonly way: ChosenWay | null;
}

/** What a recipe is based on that is the household's own and copies no printed one. Nothing of it is canned. */
export const ownWay = 'own';

/**
 * Whether the amounts of a recipe are the household's own: it names no tested process, so nothing of it is canned and what a
 * batch takes and gives may be changed.
 */
export const hasOwnAmounts = ({
  process,
  awaitsCanner,
  processRefused,
  basedOn,
}: Pick<Recipe, 'process' | 'awaitsCanner' | 'processRefused' | 'basedOn'>): boolean =>
  process === null &&
  !awaitsCanner &&
  processRefused === null &&
  (basedOn === ownWay || basedOn.startsWith('uncanned:'));

/** The crock one batch stands in while its stages run, and for how many days at most. */
export interface CrockNeeded {
  readonly quarts: number;
  readonly days: number;
}

export interface ChosenWay {
  readonly way: string;
  readonly by: string | null;
  readonly at: number;
}
