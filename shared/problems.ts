/**
 * Something the person can mend. Data, not prose: `message` is written where the rule stands and always says what was
 * expected, what was found and what to do next; `path` names the field so the form can show it beside it.
 */
export interface Problem {
  readonly code: string;
  readonly path: readonly (string | number)[];
  readonly message: string;
}

/** Either a value or the problems that stand in its way. Never throws for what a person typed. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export const found = <T>(value: T): Outcome<T> => ({ ok: true, value });
export const refused = <T = never>(...problems: Problem[]): Outcome<T> => ({ ok: false, problems });

/** Both values, or all that stands in the way of either: what is wrong is said at once, not one thing after the other. */
export const together = <One, Other>(
  one: Outcome<One>,
  other: Outcome<Other>,
): Outcome<readonly [One, Other]> =>
  one.ok && other.ok
    ? found([one.value, other.value])
    : refused(...(one.ok ? [] : one.problems), ...(other.ok ? [] : other.problems));

/** Base of every error this program throws on purpose; `code` is stable, `message` is for developers. */
export class ShelfwardError extends Error {
  readonly code: string;
  constructor(code: string, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'ShelfwardError';
    this.code = code;
  }
}
