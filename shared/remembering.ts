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
