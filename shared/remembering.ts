interface Memory<Asked extends readonly unknown[]> {
  /** What tells one question from another; left out, the one thing asked. */
  readonly keyOf?: (...asked: Asked) => unknown;
  /** Answers remembered at most; then all are forgotten. */
  readonly most?: number;
}

/**
 * Answers each question once and from memory after that. For pure answers to plain questions that are asked many thousand times:
 * a year's picture asks for the same few hundred days again and again.
 */
export const remembering = <Asked extends readonly unknown[], Answered>(
  answer: (...asked: Asked) => Answered,
  { keyOf = (...[one]: Asked) => one, most = 20_000 }: Memory<Asked> = {},
): ((...asked: Asked) => Answered) => {
  const remembered = new Map<unknown, Answered>();
  return (...asked) => {
    const key = keyOf(...asked);
    const known = remembered.get(key);
    if (known !== undefined) return known;
    if (remembered.size >= most) remembered.clear();
    const answered = answer(...asked);
    remembered.set(key, answered);
    return answered;
  };
};

/**
 * Answers from memory as long as each part of the question is the very same object or value as the last time, or a list or set of
 * the very same ones. The answer is kept with the part `by`, and goes when nobody has that part any more: many households have an
 * answer each.
 */
export const whileTheSame = <Part extends string, Parts extends Readonly<Record<Part, object>>, Answered>(
  by: Part,
  answer: (parts: Parts) => Answered,
): ((parts: Parts) => Answered) => {
  const answers = new WeakMap<object, { readonly parts: Parts; readonly answered: Answered }>();
  return (parts) => {
    const last = answers.get(parts[by]);
    if (last !== undefined && areSame(last.parts, parts)) return last.answered;
    const answered = answer(parts);
    answers.set(parts[by], { parts, answered });
    return answered;
  };
};

const areSame = <Parts extends object>(one: Parts, other: Parts): boolean => {
  const names = Object.keys(one) as (keyof Parts)[];
  return (
    names.length === Object.keys(other).length && names.every((name) => isSamePart(one[name], other[name]))
  );
};

const isSamePart = (one: unknown, other: unknown): boolean => {
  if (Object.is(one, other)) return true;
  if (Array.isArray(one) && Array.isArray(other))
    return one.length === other.length && one.every((each, at) => Object.is(each, other[at]));
  return (
    one instanceof Set &&
    other instanceof Set &&
    one.size === other.size &&
    [...one].every((each) => other.has(each))
  );
};
