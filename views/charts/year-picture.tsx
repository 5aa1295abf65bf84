import { round } from './rounding.ts';
import { YearBoard, type YearBoardProps } from './year-board.tsx';

export interface YearMonth {
  readonly at: number;
  readonly label: string;
}

/** The weeks every board of a year runs through, from today on. */
export interface YearAxis {
  /** How many weeks stand from left to right. */
  readonly weekCount: number;
  /** Where months begin, by place in the year (a fraction of weeks). */
  readonly months: readonly YearMonth[];
}

const share = ({ weekCount }: YearAxis, week: number): string => `${round((week / weekCount) * 100)}%`;

/** What all boards draw with, once on a page: the lines of the months, the hatch of a harvest, a jar, a notch. */
export const YearMarks = ({ id, axis }: { id: string; axis: YearAxis }) => (
  <svg class="heard-only" aria-hidden="true" width="1" height="1">
    <defs>
      <pattern
        id={`${id}-hatch`}
        width="5"
        height="5"
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <line class="harvest-line" x1="0" y1="0" x2="0" y2="5" />
      </pattern>
      <path id={`${id}-jar`} d="M-4 0v-7q0 -2 1.5 -2.5v-2h5v2q1.5 .5 1.5 2.5v7z" />
      <path id={`${id}-notch`} d="M-4 -1L0 7L4 -1z" />
      <g id={`${id}-months`} class="month-lines">
        {axis.months
          .filter(({ at }) => at > 0)
          .map((month) => (
            <line key={month.at} x1={share(axis, month.at)} x2={share(axis, month.at)} y1="0" y2="100%" />
          ))}
      </g>
    </defs>
  </svg>
);

/** As many weeks stand between two names as a phone needs to keep them apart. */
const leastBetweenNames = 4;

/** The months above all boards; the left edge is now. */
export const YearMonths = ({ axis }: { axis: YearAxis }) => (
  <svg class="year-months" aria-hidden="true">
    <text class="now" x="0" y="14">
      now
    </text>
    {axis.months
      .filter(({ at }) => at >= leastBetweenNames && at <= axis.weekCount - leastBetweenNames)
      .map((month) => (
        <text key={month.at} x={share(axis, month.at)} y="14">
          {month.label}
        </text>
      ))}
  </svg>
);

/** One week marked through all boards. */
export const WeekCursor = ({ axis, week }: { axis: YearAxis; week: number }) => (
  <svg class="week-cursor" aria-hidden="true">
    <rect x={share(axis, week)} y="0" width={share(axis, 1)} height="100%" />
  </svg>
);

/** What the marks of the year's picture mean, each beside its own drawing. */
export const PictureKey = ({ marks }: { marks: string }) => (
  <ul class="picture-key" aria-label="What the marks mean">
    <li>
      <KeyBoard marks={marks} board={{ weeks: [4, 4, 3, 3, 2, 2, 1, 1].map(unsure) }} />
      one line is one jar, down to the week it is likely eaten; pale where that is unsure
    </li>
    <li>
      <KeyBoard marks={marks} board={{ bare: [{ from: 2, until: 7, words: 'Likely none', label: '' }] }} />
      no board: likely none left
    </li>
    <li>
      <KeyBoard
        marks={marks}
        board={{
          harvests: [{ from: 1, until: 7, words: 'Harvest' }],
          putUp: [{ week: 2, count: 9, words: 'Put up 9' }],
        }}
      />
      harvest is open; put up from it, with the count
    </li>
    <li>
      <KeyBoard
        marks={marks}
        board={{ bought: [1, 3, 5].map((week) => ({ week, count: 1, words: 'Bought' })) }}
      />
      bought
    </li>
    <li>
      <KeyBoard marks={marks} board={{ bestQuality: [{ week: 3, count: 1, words: 'Past best' }] }} />
      jars pass best quality
    </li>
  </ul>
);

const unsure = (likely: number) => ({ low: likely - 1, likely, high: likely + 1 });

const KeyBoard = ({ marks, board }: { marks: string; board: Partial<YearBoardProps> }) => (
  <span class="key-board family-tomatoes">
    <YearBoard
      marks={marks}
      weekCount={8}
      board={{
        opening: 0,
        weeks: [],
        harvests: [],
        putUp: [],
        bought: [],
        bare: [],
        bestQuality: [],
        ...board,
      }}
    />
  </span>
);
