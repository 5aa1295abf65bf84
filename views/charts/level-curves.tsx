import { round } from './rounding.ts';

/** One year's line: places from January 1 (0) to December 31 (1), and shares of the most that ever was there. */
export interface LevelCurve {
  readonly year: number;
  readonly points: readonly { readonly at: number; readonly share: number }[];
}

/** As many years as can be told apart; older ones are in the table only. */
const mostCurves = 4;

const [width, height] = [240, 60];

/** What was on the shelf through the year, a line for each of the last years; the running year is the boldest. */
export const LevelCurves = ({ curves, words }: { curves: readonly LevelCurve[]; words: string }) => {
  const shown = curves.slice(-mostCurves);
  return (
    <svg
      class="level-curves"
      viewBox={`0 0 ${width} ${height}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={words}
    >
      <title>{words}</title>
      {[3, 6, 9].map((month) => (
        <line
          key={month}
          class="level-quarter"
          x1={(width * month) / 12}
          x2={(width * month) / 12}
          y1="0"
          y2={height}
        />
      ))}
      {shown.map(({ year, points }, at) => (
        <polyline
          key={year}
          class={`level-line level-${shown.length - 1 - at}`}
          points={points
            .map((point) => `${round(point.at * width)},${round(1 + (1 - point.share) * (height - 2))}`)
            .join(' ')}
        />
      ))}
    </svg>
  );
};

/** Which line is which year; said once above all pictures. */
export const LevelKey = ({ years }: { years: readonly number[] }) => {
  const shown = years.slice(-mostCurves);
  return (
    <p class="level-key" aria-hidden="true">
      {shown.map((year, at) => (
        <span key={year}>
          <svg class="level-sample" aria-hidden="true" viewBox="0 0 24 8">
            <line class={`level-line level-${shown.length - 1 - at}`} x1="0" x2="24" y1="4" y2="4" />
          </svg>
          {year}
        </span>
      ))}
    </p>
  );
};
