// What a household kept on paper before it wrote anything here: marked by the reason of its events, so that it counts as use of the
// days it speaks of and never as something that was recorded when it happened.

/** Of the lot and the takings of a list of past use. */
export const pastUseReason = 'past use, brought in from a list';

/** Of what was eaten of a batch before it was written down: "put up 30 in August, 8 left". */
export const eatenBeforeReason = 'eaten before it was written down';
