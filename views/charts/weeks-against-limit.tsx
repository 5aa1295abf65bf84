import { scaleBand, scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { counted } from '../../shared/counting.ts';
import { drawnOnce } from '../parts/drawn-once.tsx';
import { round } from './rounding.ts';
import type { YearMonth } from './year-picture.tsx';

export interface LimitedWeek {
  readonly key: string;
  /** `week of Aug 17` */
  readonly label: string;
  readonly value: number;
  /** What the week allows, or what is in the fund; null where nothing limits. */
  readonly limit: number | null;
  /** Value and limit as they are read: `4 h 30 min of 10 h`. */
  readonly words: string;
}

export interface WeeksAgainstLimitProps {
  readonly id: string;
  readonly title: string;
  /** Unit of the axis: `hours`, `dollars`. */
  readonly unit: string;
  readonly valueWords: string;
  readonly limitWords: string;
  readonly weeks: readonly LimitedWeek[];
  readonly months: readonly YearMonth[];
  /** A short name above it, where several stand under one heading. */
  readonly name?: string;
}

const defaults = { width: 640, height: 206, top: 34, right: 8, bottom: 26, left: 48 };

/** Bars by week under the line they must not cross. */
export const WeeksAgainstLimit = drawnOnce('weeks', (props: WeeksAgainstLimitProps) => {
  const { id, title, unit, weeks, months } = props;
  if (weeks.length === 0) return <p class="empty-state">There is no plan to draw yet.</p>;

  const { width, height, top, right, bottom, left } = defaults;
  const highest = Math.max(1, ...weeks.map((week) => Math.max(week.value, week.limit ?? 0)));
  const lowest = Math.min(0, ...weeks.map((week) => Math.min(week.value, week.limit ?? 0)));
  const x = scaleBand<string>()
    .domain(weeks.map((week) => week.key))
    .range([left, width - right])
    .paddingInner(0.25);
  const y = scaleLinear()
    .domain([lowest, highest])
    .nice(4)
    .range([height - bottom, top]);
  const edge = (key: string): number => round((x(key) ?? left) - (x.step() - x.bandwidth()) / 2);
  const steps = weeks.flatMap((week): [number, number][] =>
    week.limit === null
      ? []
      : [
          [edge(week.key), round(y(week.limit))],
          [round(edge(week.key) + x.step()), round(y(week.limit))],
        ],
  );
  return (
    <figure class="picture limit-picture" id={id}>
      {props.name === undefined ? null : <p class="picture-name">{props.name}</p>}
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-title ${id}-words`}>
        <title id={`${id}-title`}>{title}</title>
        <desc id={`${id}-words`}>{inWords(weeks)}</desc>
        {y.ticks(4).map((level) => (
          <g key={level}>
            <line class="grid-line" x1={left} x2={width - right} y1={round(y(level))} y2={round(y(level))} />
            <text class="tick" x={left - 6} y={round(y(level))} dy="0.32em" text-anchor="end">
              {level}
            </text>
          </g>
        ))}
        <text class="tick" x={0} y={top - 18}>
          {unit}
        </text>
        {months.map((month, place) =>
          place % 2 === 1 ? null : (
            <text
              key={month.label + month.at}
              class="tick"
              x={round(left + month.at * x.step())}
              y={height - 4}
            >
              {month.label}
            </text>
          ),
        )}
        {weeks.map((week) => (
          <rect
            key={week.key}
            class="limit-bar"
            x={round(x(week.key) ?? 0)}
            y={round(y(week.value))}
            width={round(x.bandwidth())}
            height={round(y(0) - y(week.value))}
          >
            <title>{`${week.label}: ${week.words}`}</title>
          </rect>
        ))}
        {steps.length === 0 ? null : <path class="limit-line" d={line().digits(1)(steps) ?? ''} />}
        <line class="zero-line" x1={left} x2={width - right} y1={round(y(0))} y2={round(y(0))} />
      </svg>
      <details class="figures">
        <summary>The figures</summary>
        <table class="data-table">
          <caption class="heard-only">{title}</caption>
          <thead>
            <tr>
              <th scope="col">Week</th>
              <th scope="col">{`${props.valueWords}, ${props.limitWords}`}</th>
            </tr>
          </thead>
          <tbody>
            {weeks.map((week) => (
              <tr key={week.key}>
                <th scope="row">{week.label}</th>
                <td>{week.words}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
      <figcaption>
        <span class="key key-bar">{props.valueWords}</span>
        {steps.length === 0 ? null : <span class="key key-line">{props.limitWords}</span>}
      </figcaption>
    </figure>
  );
});

const inWords = (weeks: readonly LimitedWeek[]): string => {
  const busiest = weeks.reduce((most, week) => (week.value > most.value ? week : most));
  return busiest.value === 0
    ? `Nothing in ${counted(weeks.length, 'week')}.`
    : `Most in the ${busiest.label}: ${busiest.words}.`;
};
