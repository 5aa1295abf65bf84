import { describe, expect, it } from 'vitest';
import { addDays, asDate } from '../../shared/week.ts';
import { neverTappedInWords, silentWeeks, tappedShare } from '../../src/consumption/recording-habit.ts';

describe('the share of takings that is recorded', () => {
  it('is everything until a count says otherwise', () => {
    expect(tappedShare([])).toBe(1);
    expect(neverTappedInWords(1)).toBeUndefined();
  });

  it('is learnt over all items, shrunk to "everything" with five units', () => {
    const share = tappedShare([
      { tapped: 40, takenUnsaid: 10 },
      { tapped: 20, takenUnsaid: 30 },
    ]);
    expect(share).toBeCloseTo(65 / 105, 12);
  });

  it.each([
    [0.98, undefined],
    [0.961, undefined],
    [0.96, 'About one jar in twenty goes unrecorded until you count the shelf.'],
    [0.95, 'About one jar in twenty goes unrecorded until you count the shelf.'],
    [0.8, 'About one jar in five goes unrecorded until you count the shelf.'],
    [0.75, 'About one jar in four goes unrecorded until you count the shelf.'],
    [0.34, 'About two jars in three go unrecorded until you count the shelf.'],
    [0.9, 'About one jar in ten goes unrecorded until you count the shelf.'],
    [0.66, 'About one jar in three goes unrecorded until you count the shelf.'],
    [0.52, 'About half of your jars go unrecorded until you count the shelf.'],
    [0.1, 'Most of your jars go unrecorded until you count the shelf.'],
  ])('of %d is said as %s', (share, words) => {
    expect(neverTappedInWords(share)).toBe(words);
  });
});

describe('weeks in which nobody recorded anything', () => {
  const everySecondDay = Array.from({ length: 30 }, (_, step) => addDays(asDate('2026-01-01'), 2 * step));

  it('are whole weeks inside a gap that the usual rhythm does not explain', () => {
    const again = addDays(asDate('2026-04-06'), 0);
    const silent = silentWeeks([...everySecondDay, again, addDays(again, 1)], asDate('2026-04-08'));
    expect([...silent]).toEqual(['2026-W10', '2026-W11', '2026-W12', '2026-W13', '2026-W14']);
  });

  it('are none while records come in their usual rhythm, however slow', () => {
    const everyThirdWeek = Array.from({ length: 12 }, (_, step) => addDays(asDate('2026-01-01'), 21 * step));
    expect(silentWeeks(everyThirdWeek, asDate('2026-08-31')).size).toBe(0);
    expect(silentWeeks(everySecondDay, addDays(asDate('2026-01-01'), 60)).size).toBe(0);
  });

  it('are none of a gap of a week, however brisk the rhythm', () => {
    const daily = Array.from({ length: 40 }, (_, step) => addDays(asDate('2026-01-01'), step));
    // From Monday, February 9 on nothing for seven days, then for eight.
    const until = (days: number) =>
      silentWeeks([...daily, addDays(asDate('2026-02-09'), days - 1)], asDate('2026-02-18'));
    expect(until(7).size).toBe(0);
    expect([...silentWeeks(daily, asDate('2026-02-18'))]).toEqual(['2026-W07'].slice(1));
    expect([...silentWeeks(daily, asDate('2026-02-23'))]).toEqual(['2026-W08']);
  });

  it('are told by the days, whatever order they come in', () => {
    const again = asDate('2026-04-06');
    const days = [...everySecondDay, again, addDays(again, 1)];
    const told = [...silentWeeks(days, asDate('2026-04-08'))];
    expect([...silentWeeks(days.toReversed(), asDate('2026-04-08'))]).toEqual(told);
    expect([...silentWeeks([...days.slice(20), ...days.slice(0, 20)], asDate('2026-04-08'))]).toEqual(told);
  });

  it('cannot be told with fewer than five records', () => {
    expect(silentWeeks(everySecondDay.slice(0, 4), asDate('2026-12-31')).size).toBe(0);
  });
});
