import type { SourceId } from '../../shared/ids.ts';

/** What a garden source gave in one year, pounds, and from how many plants; null where nobody counted them. */
export interface GardenYield {
  readonly sourceId: SourceId;
  readonly year: number;
  readonly lb: number;
  readonly plants: number | null;
}
