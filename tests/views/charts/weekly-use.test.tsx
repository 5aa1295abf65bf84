import { render } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { WeeklyUse, type WeeklyUseProps } from '../../../views/charts/weekly-use.tsx';

const peachJam: WeeklyUseProps = {
  id: 'use-peach-jam',
  itemName: 'Peach jam',
  unit: 'jars',
  past: [
    { key: '2026-W30', label: 'week of Jul 20', taken: 2, didNotCount: null },
    { key: '2026-W31', label: 'week of Jul 27', taken: 0, didNotCount: null },
    { key: '2026-W32', label: 'week of Aug 3', taken: 0, didNotCount: 'away' },
  ],
  toCome: [
    { key: '2026-W33', label: 'week of Aug 10', low: 0, expected: 1, high: 4 },
    { key: '2026-W34', label: 'week of Aug 17', low: 0, expected: 1, high: 4 },
  ],
  declaredPerWeek: 1.5,
};

const number = (svg: string, pattern: RegExp): number => {
  const text = pattern.exec(svg)?.[1];
  if (text === undefined) throw new Error(`nothing matched ${pattern}`);
  return Number(text);
};

describe('the picture of weekly use', () => {
  it('says the same in words: only weeks that counted are summed', () => {
    const svg = render(<WeeklyUse {...peachJam} />);

    expect(svg).toContain('2 taken in 2 weeks that counted. Next week between 0 and 4. You said 1.5 a week.');
  });

  it('stands a bar of two halfway up to the band’s top of four', () => {
    const svg = render(<WeeklyUse {...peachJam} />);
    const barHeight = number(svg, /class="weekly-use-bar"[^>]* height="([\d.]+)"/);
    const bandHeight = number(svg, /class="weekly-use-band"[^>]* height="([\d.]+)"/);

    expect(barHeight * 2).toBeCloseTo(bandHeight, 6);
  });

  it('hatches a week away instead of showing it as a week without use', () => {
    const svg = render(<WeeklyUse {...peachJam} />);

    expect(svg).toContain('url(#use-peach-jam-hatch)');
    expect(svg).toContain('week of Aug 3: 0, did not count: away');
    expect(svg.match(/class="weekly-use-(bar|none)"/g)).toHaveLength(2);
  });

  it('carries a table of the same figures', () => {
    const svg = render(<WeeklyUse {...peachJam} />);

    expect(svg.match(/<th scope="row">/g)).toHaveLength(5);
    expect(svg).toContain('<td>0–4</td>');
  });

  it('has designed states for nothing, one week and all zero', () => {
    expect(render(<WeeklyUse {...peachJam} past={[]} toCome={[]} />)).toBe(
      '<p class="quiet">No week has been recorded yet.</p>',
    );
    const calm = { key: '2026-W30', label: 'week of Jul 20', taken: 0, didNotCount: null };
    const one = render(<WeeklyUse {...peachJam} past={[calm]} toCome={[]} declaredPerWeek={null} />);
    expect(one).toContain('height="1"');
    expect(one).not.toContain('NaN');
  });

  it('gives the same bytes for the same props', () => {
    expect(render(<WeeklyUse {...peachJam} />)).toBe(render(<WeeklyUse {...peachJam} />));
  });
});
