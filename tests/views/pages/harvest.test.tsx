import { render } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { SeasonStrip, type SeasonStripProps } from '../../../views/pages/harvest/season-strip.tsx';

const plums: SeasonStripProps = {
  id: 'season-plum-tree',
  words: 'Plum tree 2026: Aug 10 to Sep 13, most of it Aug 15 to Aug 30',
  window: [222, 257],
  mostActive: [227, 243],
  today: 229,
  planned: [230, 237],
  months: [
    { day: 1, letter: 'J' },
    { day: 32, letter: 'F' },
  ],
};

const numbers = (html: string, pattern: RegExp): number[] =>
  [...html.matchAll(pattern)].map((found) => Number(found[1]));

describe('the season as a strip of the year', () => {
  it('says the same in words', () => {
    expect(render(<SeasonStrip {...plums} />)).toContain(
      'aria-label="Plum tree 2026: Aug 10 to Sep 13, most of it Aug 15 to Aug 30"',
    );
  });

  it('lays days on a year of 366: the window is 35 of them wide', () => {
    const [width = 0] = numbers(render(<SeasonStrip {...plums} />), /<rect x="[\d.]+" width="([\d.]+)"/g);

    expect(width).toBeCloseTo((35 / 366) * 560, 6);
  });

  it('stands a jar on each canning week, and today within the window', () => {
    const html = render(<SeasonStrip {...plums} />);
    const [today = 0] = numbers(html, /class="season-today" x1="([\d.]+)"/g);
    const [from = 0] = numbers(html, /<rect x="([\d.]+)"/g);

    expect(html.match(/class="season-jar"/g)).toHaveLength(2);
    expect(today).toBeGreaterThan(from);
  });

  it('is drawn without most active days, without a plan and in another year', () => {
    const html = render(<SeasonStrip {...plums} mostActive={null} planned={[]} today={null} />);

    expect(html).not.toMatch(/season-(most|jar|today)/);
    expect(html).not.toContain('NaN');
  });
});
