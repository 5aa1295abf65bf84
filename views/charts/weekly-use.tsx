import { scaleBand, scaleLinear } from 'd3-scale';
import { counted } from '../../shared/counting.ts';

/** A past week: bar height in units; a week that did not count (away, empty shelf, nothing recorded) says why. */
export interface PastWeek {
  readonly key: string;
  readonly label: string;
  readonly taken: number;
  readonly didNotCount: string | null;
}

/** A week to come: four weeks in five lie between `low` and `high`. */
export interface WeekToCome {
  readonly key: string;
  readonly label: string;
  readonly low: number;
  readonly expected: number;
  readonly high: number;
}

export interface WeeklyUseProps {
  readonly id: string;
  readonly itemName: string;
  /** Plural of what is counted, for the axis: "jars". */
  readonly unit: string;
  readonly past: readonly PastWeek[];
  readonly toCome: readonly WeekToCome[];
  readonly declaredPerWeek: number | null;
}

const defaults = { width: 640, height: 168, top: 18, right: 10, bottom: 22, left: 30, leastTop: 2 };

/** Weekly counts of one item, and the band its next weeks should fall in. */
export function WeeklyUse(props: WeeklyUseProps) {
  const { id, past, toCome, declaredPerWeek } = props;
  if (past.length === 0 && toCome.length === 0) return <p class="quiet">No week has been recorded yet.</p>;

  const { width, height, top, right, bottom, left } = defaults;
  const highest = Math.max(
    defaults.leastTop,
    declaredPerWeek ?? 0,
    ...past.map((week) => week.taken),
    ...toCome.map((week) => week.high),
  );
  const x = scaleBand<string>()
    .domain([...past, ...toCome].map((week) => week.key))
    .range([left, width - right])
    .paddingInner(0.18);
  const y = scaleLinear()
    .domain([0, highest])
    .nice(4)
    .range([height - bottom, top]);
  const levels = y.ticks(4).filter(Number.isInteger);
  const today = toCome[0] ? (x(toCome[0].key) ?? left) - x.step() * 0.09 : width - right;
  const hatch = `${id}-hatch`;

  return (
    <div class="weekly-use" id={id}>
      <figure>
        <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-title ${id}-words`}>
          <title
            id={`${id}-title`}
          >{`${props.itemName}: ${props.unit} taken each week, and the weeks to come`}</title>
          <desc id={`${id}-words`}>{inWords(props)}</desc>
          <pattern
            id={hatch}
            width="6"
            height="6"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <line x1="0" y1="0" x2="0" y2="6" class="weekly-use-hatch" />
          </pattern>
          {levels.map((level) => (
            <g key={level}>
              <line class="weekly-use-grid" x1={left} x2={width - right} y1={y(level)} y2={y(level)} />
              <text class="weekly-use-tick" x={left - 6} y={y(level)} dy="0.32em" text-anchor="end">
                {level}
              </text>
            </g>
          ))}
          <text class="weekly-use-axis" x={0} y={top - 8}>
            {`${props.unit} a week`}
          </text>
          {past.map((week) => (
            <PastBar
              key={week.key}
              week={week}
              x={x(week.key) ?? 0}
              width={x.bandwidth()}
              y={y}
              hatch={hatch}
            />
          ))}
          {toCome.map((week) => (
            <ComingBand key={week.key} week={week} x={x(week.key) ?? 0} step={x.step()} y={y} />
          ))}
          {declaredPerWeek === null ? null : (
            <line
              class="weekly-use-declared"
              x1={left}
              x2={width - right}
              y1={y(declaredPerWeek)}
              y2={y(declaredPerWeek)}
            />
          )}
          <line class="weekly-use-today" x1={today} x2={today} y1={top - 6} y2={height - bottom} />
          <text class="weekly-use-tick" x={today} y={height - 6} text-anchor="middle">
            today
          </text>
          {past[0] && today - left > 120 ? (
            <text class="weekly-use-tick" x={left} y={height - 6}>
              {past[0].label}
            </text>
          ) : null}
        </svg>
        <figcaption>
          <span class="key key-bar">taken</span>
          <span class="key key-hatch">did not count</span>
          <span class="key key-band">expected, 4 weeks in 5</span>
          {declaredPerWeek === null ? null : <span class="key key-rule">you said</span>}
        </figcaption>
      </figure>
      <details class="figures">
        <summary>The figures</summary>
        <FiguresTable {...props} />
      </details>
    </div>
  );
}

type Height = (units: number) => number;

function PastBar(props: { week: PastWeek; x: number; width: number; y: Height; hatch: string }) {
  const { week, x, width, y } = props;
  const words = `${week.label}: ${week.taken}${week.didNotCount ? `, did not count: ${week.didNotCount}` : ''}`;
  if (week.didNotCount && week.taken === 0)
    return (
      <rect x={x} y={defaults.top} width={width} height={y(0) - defaults.top} fill={`url(#${props.hatch})`}>
        <title>{words}</title>
      </rect>
    );
  return (
    <rect
      class={week.taken > 0 ? 'weekly-use-bar' : 'weekly-use-none'}
      x={x}
      y={y(week.taken)}
      width={width}
      height={Math.max(y(0) - y(week.taken), 1)}
    >
      <title>{words}</title>
    </rect>
  );
}

function ComingBand(props: { week: WeekToCome; x: number; step: number; y: Height }) {
  const { week, x, step, y } = props;
  return (
    <g>
      <rect
        class="weekly-use-band"
        x={x}
        y={y(week.high)}
        width={step}
        height={Math.max(y(week.low) - y(week.high), 1)}
      >
        <title>{`${week.label}: ${week.low} to ${week.high}`}</title>
      </rect>
      <line class="weekly-use-mean" x1={x} x2={x + step} y1={y(week.expected)} y2={y(week.expected)} />
    </g>
  );
}

function inWords({ past, toCome, unit, declaredPerWeek }: WeeklyUseProps): string {
  const weeks = past.filter((week) => week.didNotCount === null);
  const inAll = weeks.reduce((sum, week) => sum + week.taken, 0);
  // Jars, bags and bins are whole; pounds have a part.
  const taken = unit === 'lb' || unit === 'kg' ? Math.round(inAll * 10) / 10 : Math.round(inAll);
  const first = toCome[0];
  return [
    `${taken} taken in ${counted(weeks.length, 'week')} that counted.`,
    first ? `Next week between ${first.low} and ${first.high}.` : '',
    declaredPerWeek === null ? '' : `You said ${declaredPerWeek} a week.`,
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

function FiguresTable({ past, toCome, unit }: WeeklyUseProps) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">week</th>
          <th scope="col">{unit}</th>
          <th scope="col">remark</th>
        </tr>
      </thead>
      <tbody>
        {past.map((week) => (
          <tr key={week.key}>
            <th scope="row">{week.label}</th>
            <td>{week.taken}</td>
            <td>{week.didNotCount ? `did not count: ${week.didNotCount}` : ''}</td>
          </tr>
        ))}
        {toCome.map((week) => (
          <tr key={week.key}>
            <th scope="row">{week.label}</th>
            <td>{`${week.low}–${week.high}`}</td>
            <td>expected</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
