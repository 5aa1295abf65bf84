import type { Problem } from '../../shared/problems.ts';
import { type Citation, inWords } from './citation.ts';

/** Why there is no schedule: the rule, where it stands, and what can be done instead. */
export interface Refusal extends Problem {
  readonly rule: string;
  readonly source: Citation;
  readonly instead: string;
}

/** A value, or the rules that forbid it. Fits wherever an `Outcome` is expected. */
export type Ruling<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Refusal[] };

export const refusal = (
  code: string,
  field: string,
  rule: string,
  source: Citation,
  instead: string,
): Refusal => ({
  code,
  path: [field],
  rule,
  source,
  instead,
  message: `${rule} (${inWords(source)}). ${instead}`,
});

export const allowed = <T>(value: T): Ruling<T> => ({ ok: true, value });
export const forbidden = <T = never>(...problems: Refusal[]): Ruling<T> => ({ ok: false, problems });
