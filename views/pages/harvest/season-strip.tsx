import { scaleLinear } from 'd3-scale';
import { drawnOnce } from '../../parts/drawn-once.tsx';

/** The thirteen months that all seasons are drawn under: from the first of the present one. Days count from there. */
export interface SeasonAxis {
  readonly days: number;
  readonly today: number;
  readonly months: readonly {
    readonly day: number;
    /** "Nov" */
    readonly name: string;
    /** The year, where it begins and at the axis' left end. */
    readonly year: string | null;
  }[];
}

/** What one source gives within the axis, in days of it. */
export interface SeasonStripProps {
  readonly id: string;
  /** The same in words: "Jul 20 to Sep 10, most of it Aug 5 to Aug 25". */
  readonly words: string;
  readonly axis: SeasonAxis;
  readonly seasons: readonly {
    readonly window: readonly [number, number];
    readonly mostActive: readonly [number, number] | null;
  }[];
  /** Days on which the plan cans from it. */
  readonly planned: readonly number[];
}

const height = 21;
const floor = height - 2;

/** The months' names once, above all strips. */
export const SeasonMonths = ({ axis }: { axis: SeasonAxis }) => (
  <div class="harvest-months">
    <svg height={30} aria-hidden="true">
      {axis.months.map((month) => (
        <g key={month.day}>
          {month.year === null ? null : (
            <text class="harvest-year" x={onAxis(axis, month.day)} y={11}>
              {month.year}
            </text>
          )}
          <text x={onAxis(axis, month.day)} y={25}>
            {month.name}
          </text>
        </g>
      ))}
    </svg>
  </div>
);

/** Where a day stands on the axis, cut at its ends: "12.5%". */
const onAxis = (axis: SeasonAxis, day: number): string => `${rounded(shareOf(axis)(day))}%`;

const shareOf = (axis: SeasonAxis) => scaleLinear().domain([0, axis.days]).range([0, 100]).clamp(true);
const rounded = (share: number) => Number(share.toFixed(3));

/** A source's seasons on the shared axis: windows hatched, their most active part solid, canning weeks as jars. */
export const SeasonStrip = drawnOnce('seasons', ({ id, words, axis, seasons, planned }: SeasonStripProps) => {
  const share = shareOf(axis);
  const x = (day: number) => onAxis(axis, day);
  const span = ([from, until]: readonly [number, number]) => ({
    x: x(from),
    width: `${rounded(Math.max(share(until) - share(from), 0.5))}%`,
  });
  const hatch = `${id}-hatch`;
  return (
    <svg class="season-strip" height={height} role="img" aria-label={words}>
      <pattern id={hatch} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line x1="0" y1="0" x2="0" y2="5" class="season-hatch" />
      </pattern>
      {axis.months.map((month) => (
        <line
          key={month.day}
          class={month.year === null ? 'season-month' : 'season-month season-new-year'}
          x1={x(month.day)}
          x2={x(month.day)}
          y1={0}
          y2={height}
        />
      ))}
      {seasons.map(({ window, mostActive }) => (
        <g key={window[0]}>
          <rect {...span(window)} y={3} height={floor - 3} fill={`url(#${hatch})`} />
          {mostActive === null ? null : (
            <rect class="season-most" {...span(mostActive)} y={3} height={floor - 3} />
          )}
        </g>
      ))}
      <line class="season-floor" x1="0" x2="100%" y1={floor} y2={floor} />
      {planned.length === 0 ? null : (
        <defs>
          <path id={`${id}-jar`} d="M-4.5 0v-10q0 -3 2 -4v-2.5h5v2.5q2 1 2 4v10z" />
        </defs>
      )}
      {planned.map((day) => (
        <use key={day} class="season-jar" href={`#${id}-jar`} x={x(day)} y={floor} />
      ))}
      <line class="season-today" x1={x(axis.today)} x2={x(axis.today)} y1={0} y2={height} />
    </svg>
  );
});
