import { render } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import {
  type SeasonAxis,
  SeasonMonths,
  SeasonStrip,
  type SeasonStripProps,
} from '../../../views/pages/harvest/season-strip.tsx';

/** From August 2026 through August 2027, on August 17. */
const axis: SeasonAxis = {
  days: 396,
  today: 16,
  months: [
    { day: 0, name: 'Aug', year: '2026' },
    { day: 31, name: 'Sep', year: null },
    { day: 153, name: 'Jan', year: '2027' },
  ],
};

const plums: SeasonStripProps = {
  id: 'season-plum-tree',
  words: 'Plum tree 2026: Aug 10 to Sep 13, most of it Aug 15 to Aug 30',
  axis,
  seasons: [{ window: [9, 44], mostActive: [14, 30] }],
  planned: [17, 24],
};

const numbers = (html: string, pattern: RegExp): number[] =>
  [...html.matchAll(pattern)].map((found) => Number(found[1]));

describe('a source’s season on the shared axis', () => {
  it('says the same in words', () => {
    expect(render(<SeasonStrip {...plums} />)).toContain(
      'aria-label="Plum tree 2026: Aug 10 to Sep 13, most of it Aug 15 to Aug 30"',
    );
  });

  it('lies where its days lie: the window is 35 of 396 wide', () => {
    const [width = 0] = numbers(render(<SeasonStrip {...plums} />), /<rect x="[\d.]+%" width="([\d.]+)%"/g);

    expect(width).toBeCloseTo((35 / 396) * 100, 2);
  });

  it('stands a jar on each canning week, and today within the window', () => {
    const html = render(<SeasonStrip {...plums} />);
    const [today = 0] = numbers(html, /class="season-today" x1="([\d.]+)%"/g);
    const [from = 0] = numbers(html, /<rect x="([\d.]+)%"/g);

    expect(html.match(/class="season-jar"/g)).toHaveLength(2);
    expect(today).toBeGreaterThan(from);
  });

  it('is cut where the axis ends, on both sides', () => {
    const html = render(
      <SeasonStrip
        {...plums}
        seasons={[
          { window: [-40, 12], mostActive: null },
          { window: [370, 430], mostActive: [380, 420] },
        ]}
      />,
    );
    const ends = [...html.matchAll(/<rect[^>]*>/g)].map(([tag]) => {
      const at = (name: string) => Number(new RegExp(` ${name}="([\\d.]+)%"`).exec(tag)?.[1]);
      return at('x') + at('width');
    });

    expect(numbers(html, /x="(-?[\d.]+)%"/g).every((x) => x >= 0)).toBe(true);
    expect(Math.max(...ends)).toBeLessThanOrEqual(100);
  });

  it('is drawn without most active days, without a season and without a plan', () => {
    const html = render(
      <>
        <SeasonStrip {...plums} seasons={[{ window: [9, 44], mostActive: null }]} planned={[]} />
        <SeasonStrip {...plums} seasons={[]} />
      </>,
    );

    expect(html).not.toMatch(/season-most/);
    expect(html).not.toContain('NaN');
  });
});

describe('the months above all seasons', () => {
  it('stand at their first days, and say where a year begins', () => {
    const html = render(<SeasonMonths axis={axis} />);

    const at = numbers(html, /x="([\d.]+)%" y="25"/g);
    expect(at[0]).toBe(0);
    expect(at[1]).toBeCloseTo((31 / 396) * 100, 2);
    expect(at[2]).toBeCloseTo((153 / 396) * 100, 2);
    expect(html.match(/harvest-year/g)).toHaveLength(2);
  });
});
