import { DataTable } from '../../parts/data-table.tsx';

export interface TimelineRow {
  readonly key: string;
  /** `9:45 AM` */
  readonly at: string;
  readonly what: string;
  /** `25 min` */
  readonly lasts: string;
  readonly where: string;
  readonly who: string;
  /** Numbered from 0; null where nobody's hand or everybody's is on it. */
  readonly person: number | null;
  /** The processing itself, set heavier. */
  readonly isProcess: boolean;
}

export interface TimelineProps {
  /** `9:00 AM to 1:55 PM, 4 h 55 min, with one set-up of 45 min.` */
  readonly line: string;
  readonly strip: DayStripProps;
  readonly rows: readonly TimelineRow[];
  /** Who does what; empty where one works and has no name. */
  readonly lists: readonly PersonList[];
}

export interface PersonList {
  readonly name: string;
  /** `2 h 5 min of work` */
  readonly line: string;
  readonly steps: readonly { readonly key: string; readonly at: string; readonly what: string }[];
}

export interface StripBlock {
  readonly key: string;
  /** Minutes from the start of the strip. */
  readonly from: number;
  readonly to: number;
  readonly words: string;
  readonly kind: 'work' | 'canner' | 'process';
}

export interface DayStripProps {
  readonly minutes: number;
  readonly hours: readonly { readonly at: number; readonly words: string }[];
  readonly lanes: readonly { readonly name: string; readonly blocks: readonly StripBlock[] }[];
}

const defaults = {
  left: 108,
  width: 900,
  lane: 34,
  block: 22,
  foot: 24,
  label: 'Who and what is busy when',
} as const;

/** The day as lanes: people and canners from left to right, the processing filled solid. */
const DayStrip = ({ strip }: { strip: DayStripProps }) => {
  const { left, width, lane, block, foot, label } = defaults;
  const scale = (minute: number): number => left + (minute / Math.max(1, strip.minutes)) * (width - left);
  const height = strip.lanes.length * lane + foot;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways on a phone, and the keyboard must reach that
    <figure class="day-strip" tabIndex={0}>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
        {strip.hours.map(({ at, words }) => (
          <g key={at}>
            <line class="strip-hour" x1={scale(at)} x2={scale(at)} y1={0} y2={height - foot} />
            <text class="strip-label" x={scale(at)} y={height - 6} text-anchor="middle">
              {words}
            </text>
          </g>
        ))}
        {strip.lanes.map(({ name, blocks }, row) => (
          <g key={name}>
            <text class="strip-name" x={0} y={row * lane + lane / 2 + 5}>
              {name}
            </text>
            <line
              class="strip-board"
              x1={left}
              x2={width}
              y1={(row + 1) * lane - 3}
              y2={(row + 1) * lane - 3}
            />
            {blocks.map((one) => (
              <rect
                key={one.key}
                class={`strip-${one.kind}`}
                x={scale(one.from)}
                y={row * lane + lane - 3 - block}
                width={Math.max(1, scale(one.to) - scale(one.from) - 1)}
                height={block}
              >
                <title>{one.words}</title>
              </rect>
            ))}
          </g>
        ))}
      </svg>
    </figure>
  );
};

const WhoDoesWhat = ({ lists }: Pick<TimelineProps, 'lists'>) => (
  <section class="who-does-what" aria-label="Who does what">
    {lists.map(({ name, line, steps }) => (
      <div key={name}>
        <h3>{name}</h3>
        {line === '' ? null : <p class="hint">{line}</p>}
        <ol>
          {steps.map(({ key, at, what }) => (
            <li key={key}>
              <b>{at}</b> {what}
            </li>
          ))}
        </ol>
      </div>
    ))}
  </section>
);

export const Timeline = ({ timeline }: { timeline: TimelineProps }) => (
  <div class="timeline">
    <DayStrip strip={timeline.strip} />
    {timeline.lists.length === 0 ? null : <WhoDoesWhat lists={timeline.lists} />}
    <DataTable
      caption="The day, minute by minute"
      columns={[
        { title: 'at', kind: 'number' },
        { title: 'what', heading: true },
        { title: 'lasts', kind: 'number' },
        { title: 'where' },
        { title: 'who' },
      ]}
      rows={timeline.rows.map((row) => ({
        key: row.key,
        cells: [
          row.at,
          row.isProcess ? <strong key="what">{row.what}</strong> : row.what,
          row.lasts,
          row.where,
          row.who,
        ],
      }))}
    />
  </div>
);
