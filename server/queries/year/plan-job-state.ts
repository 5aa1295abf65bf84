import type { PlanSoFar } from '../../../src/planning/answer/plan-so-far.ts';

/** What is being done about a household's plan. */
export type PlanJobState =
  | { readonly state: 'idle' }
  | {
      readonly state: 'running';
      readonly startedAt: number;
      /** Cents of the best plan so far and what no plan can be below; null before the first. */
      readonly best: number | null;
      readonly bound: number | null;
      /** 0 to 1. */
      readonly gap: number | null;
      /** What the best plan so far comes to; null before the first. */
      readonly soFar?: PlanSoFar | null;
      /** What is to be known of a year that is large; null for others. */
      readonly note?: string | null;
    }
  /** A plan is there and is being played against sampled years; a better one may replace it. */
  | { readonly state: 'checking' }
  | { readonly state: 'failed'; readonly words: string; readonly mayPass?: boolean };
