/** As much weight as so many batches of the household's own is given to what it said at first. Our own choice. */
const saidWeight = 4;

/**
 * Hands-on minutes of one batch: what the household said, drawn towards what its batches really took,
 * said + (sum of seen − n · said) / (4 + n), where n is the batches seen. No batch seen leaves what was said.
 *
 * Example: said 120, seen 150 and 150: 120 + 60 / 6 = 130 minutes.
 */
export const learntMinutes = (saidMinutes: number, minutesSeen: readonly number[]): number => {
  const surplus = minutesSeen.reduce((sum, minutes) => sum + (minutes - saidMinutes), 0);
  return saidMinutes + surplus / (saidWeight + minutesSeen.length);
};
