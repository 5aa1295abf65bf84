/** Questions remembered at most; then all are forgotten. */
const mostRemembered = 20_000;

/**
 * Answers each question once and from memory after that. For pure answers to plain questions that are asked many thousand times:
 * a year's picture asks for the same few hundred days again and again.
 */
export const remembering = <Asked extends string | number, Answered>(
  answer: (asked: Asked) => Answered,
): ((asked: Asked) => Answered) => {
  const remembered = new Map<Asked, Answered>();
  return (asked) => {
    const known = remembered.get(asked);
    if (known !== undefined) return known;
    if (remembered.size >= mostRemembered) remembered.clear();
    const answered = answer(asked);
    remembered.set(asked, answered);
    return answered;
  };
};
