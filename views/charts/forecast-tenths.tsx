import { scaleBand, scaleLinear } from 'd3-scale';
import { round } from './rounding.ts';

export interface ForecastTenthsProps {
  readonly id: string;
  readonly title: string;
  /** What the picture shows, in a sentence. */
  readonly words: string;
  /** Share of the forecasts in each tenth of its own forecast, lowest first. */
  readonly tenths: readonly number[];
}

const defaults = { width: 420, height: 170, top: 12, right: 8, bottom: 34, left: 40 };

/** Where what was eaten fell in its forecast: ten equal bars would be forecasts exactly as sure as they say. */
export const ForecastTenths = ({ id, title, words, tenths }: ForecastTenthsProps) => {
  const { width, height, top, right, bottom, left } = defaults;
  const x = scaleBand<number>()
    .domain(tenths.map((_, place) => place))
    .range([left, width - right])
    .paddingInner(0.12);
  const y = scaleLinear()
    .domain([0, Math.max(0.2, ...tenths)])
    .nice(4)
    .range([height - bottom, top]);
  const even = round(y(0.1));
  return (
    <figure class="picture limit-picture tenths-picture" id={id}>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-title ${id}-words`}>
        <title id={`${id}-title`}>{title}</title>
        <desc id={`${id}-words`}>{words}</desc>
        {y.ticks(4).map((share) => (
          <g key={share}>
            <line class="grid-line" x1={left} x2={width - right} y1={round(y(share))} y2={round(y(share))} />
            <text class="tick" x={left - 6} y={round(y(share)) + 4} text-anchor="end">
              {`${Math.round(share * 100)}%`}
            </text>
          </g>
        ))}
        {tenths.map((share, place) => (
          <rect
            // The place in the row is what a tenth is.
            key={`tenth-${place + 1}`}
            class="limit-bar"
            x={round(x(place) ?? left)}
            y={round(y(share))}
            width={round(x.bandwidth())}
            height={round(y(0) - y(share))}
          />
        ))}
        <line class="limit-line" x1={left} x2={width - right} y1={even} y2={even} />
        <line class="zero-line" x1={left} x2={width - right} y1={round(y(0))} y2={round(y(0))} />
        <text class="tick" x={left} y={height - 16}>
          ate less than thought
        </text>
        <text class="tick" x={width - right} y={height - 16} text-anchor="end">
          ate more than thought
        </text>
      </svg>
      <figcaption>
        <span class="key key-bar">share of the forecasts</span>
        <span class="key key-line">as sure as they say</span>
      </figcaption>
    </figure>
  );
};
