/** Of a further person's work: what is left when they wait for a burner, the sink or each other. Our own judgment, no source. */
const furtherPerson = 3 / 4;

/**
 * Pairs of hands that so many people at the table come to: the first counts whole, each further one three quarters. What nobody was
 * named for is the work of one. A canner holds and takes as much however many stand beside it.
 *
 * Example: two people are 1.75 pairs of hands.
 */
export const handsOf = (people: number): number => 1 + furtherPerson * Math.max(0, people - 1);
