import { ShelfwardError } from '../../shared/problems.ts';
import type { CannerFactRow } from '../../shared/schemas/reference/canner-fact.ts';
import type { Basis } from '../../shared/schemas/reference/cells.ts';

/** Where a rule or figure stands. A remembered one has the source `MEMORY` and the basis `memory`. */
export interface Citation {
  readonly sourceId: string;
  readonly locator: string;
  readonly basis: Basis;
}

export const cite = (sourceId: string, locator: string): Citation => ({ sourceId, locator, basis: 'read' });

export const fromMemory = (locator: string): Citation => ({ sourceId: 'MEMORY', locator, basis: 'memory' });

export const citationOf = (row: Citation): Citation => ({
  sourceId: row.sourceId,
  locator: row.locator,
  basis: row.basis,
});

/** `USDA-G3, p3-5` or `from memory: …`, for one line under a rule. */
export const inWords = (citation: Citation): string =>
  citation.basis === 'memory'
    ? `from memory: ${citation.locator}`
    : `${citation.sourceId}, ${citation.locator}`;

/** The published fact of that key; a missing key is our own mistake and throws. */
export const factOf = (facts: readonly CannerFactRow[], key: string): CannerFactRow => {
  const fact = facts.find((row) => row.key === key);
  if (!fact) throw new ShelfwardError('fact-missing', `factOf: no canner fact with the key ${key}`);
  return fact;
};

/** The low and high end of a fact written as a number or a range such as `8-9`. */
export const factRange = (facts: readonly CannerFactRow[], key: string): { low: number; high: number } => {
  const fact = factOf(facts, key);
  const [low, high] = fact.value.split('-').map(Number);
  if (low === undefined || Number.isNaN(low)) {
    throw new ShelfwardError('fact-not-a-number', `factRange: ${key} is ${JSON.stringify(fact.value)}`);
  }
  return { low, high: high ?? low };
};

/** The value of a fact that is one number. */
export const factNumber = (facts: readonly CannerFactRow[], key: string): number => factRange(facts, key).low;
