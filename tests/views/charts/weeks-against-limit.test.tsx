import { renderToString } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { type LimitedWeek, WeeksAgainstLimit } from '../../../views/charts/weeks-against-limit.tsx';
import { yearMonths } from '../page-props.ts';

const week = (place: number, value: number, limit: number | null = 8): LimitedWeek => ({
  key: `2026-W${10 + place}`,
  label: `week ${place}`,
  value,
  limit,
  words: `${value} h of ${limit ?? 'any'} h`,
});

const drawn = (weeks: readonly LimitedWeek[]): string =>
  renderToString(
    <WeeksAgainstLimit
      id="hours"
      title="Kitchen hours by week"
      unit="hours"
      valueWords="planned"
      limitWords="what the week allows"
      weeks={weeks}
      months={yearMonths.slice(0, 1)}
    />,
  );

const barHeights = (svg: string): number[] =>
  [...svg.matchAll(/class="limit-bar" [^>]*height="([\d.]+)"/g)].map((found) => Number(found[1]));

describe('weeks against their limit', () => {
  test('twice the hours is a bar of twice the height, and zero is shown as zero', () => {
    const [one = 0, two = 0, none = 1] = barHeights(drawn([week(0, 2), week(1, 4), week(2, 0)]));

    expect(two).toBeCloseTo(2 * one, 0);
    expect(none).toBe(0);
  });

  test('the busiest week is told in words, and every week stands in the table behind the picture', () => {
    const svg = drawn([week(0, 2), week(1, 6), week(2, 0)]);

    expect(svg).toContain('Most in the week 1: 6 h of 8 h.');
    expect(svg.match(/<th scope="row">/g)).toHaveLength(3);
  });

  test('weeks without a limit draw no line; weeks of nothing say so', () => {
    const svg = drawn([week(0, 0, null), week(1, 0, null)]);

    expect(svg).not.toContain('class="limit-line"');
    expect(svg).toContain('Nothing in 2 weeks.');
    expect(svg).not.toContain('NaN');
  });

  test('one week fills the width; no week at all is a sentence', () => {
    expect(barHeights(drawn([week(0, 3)]))).toHaveLength(1);
    expect(drawn([])).toContain('There is no plan to draw yet.');
  });
});
