import type { LotId, RecipeId } from '../../shared/ids.ts';
import type { JarKind } from '../../shared/jar.ts';
import type { CalendarDate } from '../../shared/week.ts';

export type FailedSealChoice = 'reprocess' | 'freeze' | 'refrigerate' | 'discard';

/** What was found when the seals of a lot were checked the next day. */
export interface SealCheckResult {
  readonly at: number;
  readonly failed: number;
  readonly choice: FailedSealChoice | null;
}

export interface ResultLot {
  readonly lotId: LotId;
  readonly batchCode: string;
  readonly jarKind: JarKind | null;
  readonly units: number;
  readonly readyFrom: CalendarDate;
  readonly bestQualityUntil: CalendarDate;
  /** Whether anything was processed, so that there are seals to check. */
  readonly isProcessed: boolean;
  readonly sealCheck: SealCheckResult | null;
}

/** What came out of the batches of one recipe on a day. */
export interface BatchResult {
  readonly id: string;
  readonly recipeId: RecipeId;
  readonly madeOn: CalendarDate;
  /** The canning day it was written on, which may have been begun before or after its date. */
  readonly sessionOn: CalendarDate;
  readonly batches: number;
  /** In jars of the recipe's own kind (or bags, lb …). */
  readonly jars: number;
  readonly minutesTaken: number | null;
  /** When the last load came out of the canner. */
  readonly processedAt: number;
  readonly note: string;
  readonly lots: readonly ResultLot[];
}
