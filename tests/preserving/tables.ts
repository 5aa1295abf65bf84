import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import type { ProcessTimeRow } from '../../shared/schemas/reference/process-time.ts';
import type { ProcessQuery } from '../../src/preserving/lookup/schedule.ts';

export const tables = loadReferenceTables();

/** The query that asks for exactly this printed row, at an altitude of its band. */
export const queryForRow = (row: ProcessTimeRow, altitudeFt: number): ProcessQuery => ({
  foodKey: row.foodKey,
  style: row.style,
  pack: row.pack,
  jar: row.jar,
  altitudeFt,
  ...(row.method === 'boiling-water'
    ? { method: 'boiling-water' }
    : { method: 'pressure', gauge: row.method === 'pressure-dial' ? 'dial' : 'weighted' }),
  choice: row.psi === null ? { minutes: row.minutes } : { minutes: row.minutes, psi: row.psi },
});

/** Codes of the refusals, or an empty list when the ruling allows. */
export const codesOf = (
  ruling: { ok: true } | { ok: false; problems: readonly { readonly code: string }[] },
): string[] => (ruling.ok ? [] : ruling.problems.map((problem) => problem.code));

/** The value of a ruling; a refusal fails the test with its message. */
export const answerOf = <T>(
  ruling: { ok: true; value: T } | { ok: false; problems: readonly { readonly message: string }[] },
): T => {
  if (ruling.ok) return ruling.value;
  throw new Error(
    `expected an answer, refused: ${ruling.problems.map((problem) => problem.message).join(' ')}`,
  );
};
