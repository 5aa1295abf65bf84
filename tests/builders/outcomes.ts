import type { Outcome } from '../../shared/problems.ts';

/** The value of what must have worked; otherwise the test fails with the messages a person would read. */
export function worked<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new Error(
    `expected this to work: ${outcome.problems.map((problem) => `${problem.code}: ${problem.message}`).join(' | ')}`,
  );
}

/** Code and words of what must have been refused. */
export function refusalOf<T>(outcome: Outcome<T>): { code: string; field: string; message: string } {
  if (outcome.ok) throw new Error(`expected a refusal, but it worked: ${JSON.stringify(outcome.value)}`);
  const [first] = outcome.problems;
  return {
    code: first?.code ?? '',
    field: first?.path.join('.') ?? '',
    message: outcome.problems.map((problem) => problem.message).join(' | '),
  };
}
