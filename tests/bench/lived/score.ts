/**
 * What a lived year came to, cents and units: `score` = money spent net of what is left at cost + hours at the household's price
 * + every miss at its item's own price + what stood past its best.
 */
export interface Score {
  readonly score: number;
  readonly cost: number;
  readonly hours: number;
  readonly older: number;
  readonly jarsMissed: number;
  readonly staplesMissed: number;
}

export type ScoreMeans = Pick<Score, 'score' | 'cost' | 'jarsMissed' | 'staplesMissed'>;

const round = (amount: number, digits: number): number => Number(amount.toFixed(digits));

/** Means over lived years, money in dollars. */
export function meanScore(scores: readonly Score[]): ScoreMeans {
  const mean = (of: (score: Score) => number) =>
    scores.reduce((sum, score) => sum + of(score), 0) / Math.max(1, scores.length);
  return {
    score: round(mean(({ score }) => score) / 100, 2),
    cost: round(mean(({ cost }) => cost) / 100, 2),
    jarsMissed: round(
      mean(({ jarsMissed }) => jarsMissed),
      2,
    ),
    staplesMissed: round(
      mean(({ staplesMissed }) => staplesMissed),
      2,
    ),
  };
}
