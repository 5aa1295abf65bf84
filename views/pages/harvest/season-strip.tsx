import { scaleLinear } from 'd3-scale';

/** A harvest window within its year, as days of the year 1..366. */
export interface SeasonStripProps {
  readonly id: string;
  /** The same in words: "Jul 20 to Sep 10, most of it Aug 5 to Aug 25". */
  readonly words: string;
  readonly window: readonly [number, number];
  readonly mostActive: readonly [number, number] | null;
  readonly today: number | null;
  /** Days of the year on which the plan cans from it. */
  readonly planned: readonly number[];
  /** First day of each month and its letter. */
  readonly months: readonly { readonly day: number; readonly letter: string }[];
}

const defaults = { width: 560, height: 44, top: 4, bottom: 18 };

/** The year as a strip: the window hatched, its most active part solid, canning weeks as jar marks. */
export function SeasonStrip({ id, words, window, mostActive, today, planned, months }: SeasonStripProps) {
  const { width, height, top, bottom } = defaults;
  const x = scaleLinear().domain([1, 367]).range([0, width]);
  const floor = height - bottom;
  const hatch = `${id}-hatch`;
  const span = ([from, until]: readonly [number, number]) => ({
    x: x(from),
    width: Math.max(x(until) - x(from), 2),
  });
  return (
    <svg class="season-strip" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={words}>
      <pattern id={hatch} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line x1="0" y1="0" x2="0" y2="5" class="season-hatch" />
      </pattern>
      {months.map((month) => (
        <g key={month.day}>
          <line class="season-month" x1={x(month.day)} x2={x(month.day)} y1={floor} y2={floor + 4} />
          <text class="season-letter" x={x(month.day + 15)} y={height - 3} text-anchor="middle">
            {month.letter}
          </text>
        </g>
      ))}
      <rect {...span(window)} y={top} height={floor - top} fill={`url(#${hatch})`} />
      {mostActive === null ? null : (
        <rect class="season-most" {...span(mostActive)} y={top} height={floor - top} />
      )}
      <line class="season-floor" x1={0} x2={width} y1={floor} y2={floor} />
      {planned.map((day) => (
        <path key={day} class="season-jar" d={jarAt(x(day), floor)} />
      ))}
      {today === null ? null : (
        <line class="season-today" x1={x(today)} x2={x(today)} y1={0} y2={floor + 4} />
      )}
    </svg>
  );
}

/** A small jar standing at x: shoulders and a lid. */
const jarAt = (x: number, floor: number): string => `M${x - 5} ${floor}v-11q0 -3 2 -4v-3h6v3q2 1 2 4v11z`;
