import { type LabelPlace, labelAside, labelsByRoom, type PlacedLabel } from './gap-labels.ts';
import { round } from './rounding.ts';

/** Units standing at the end of a week: nine years in ten have at least `low`, one in ten more than `high`. */
export interface BoardWeek {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** A stretch of weeks by their place in the year, start included, end not. */
export interface WeekSpan {
  readonly from: number;
  readonly until: number;
  readonly words: string;
}

/** Something that happens in one week, by its place in the year. */
export interface WeekMark {
  readonly week: number;
  readonly count: number;
  readonly words: string;
}

export interface YearBoardProps {
  /** Units that stand today. */
  readonly opening: number;
  readonly weeks: readonly BoardWeek[];
  readonly harvests: readonly WeekSpan[];
  readonly putUp: readonly WeekMark[];
  readonly bought: readonly WeekMark[];
  /** Weeks in which there are likely none, and what stands in the hole: `none 22 weeks`. */
  readonly bare: readonly (WeekSpan & { readonly label: string })[];
  /** Where jars pass their best quality. */
  readonly bestQuality: readonly WeekMark[];
}

/** Up to so many units each is a line of its own; more are one mass. */
const mostDrawnAsJars = 40;
/** Up to so many the lines between them may be a pixel wide. */
const fewJars = 14;

/** Where stock ends and the wood begins, in percent of the drawing's height; the harvest hangs below. */
const woodAt = 72;
const woodHeight = 2.5;
const bracket = { line: 2, foot: 7 };

/**
 * One item's year on its board, as wide and high as its style says: stock by the week to its own likely height, unit upon
 * unit up to forty, soft where it is unsure; the board is gone where none is left; under it the harvest and what is put up.
 * `marks` names the shared drawings (`YearMarks`). What it shows stands beside it in words.
 */
export const YearBoard = ({
  board,
  weekCount,
  marks,
}: {
  board: YearBoardProps;
  weekCount: number;
  marks: string;
}) => {
  const x = (week: number): string => `${round((week / weekCount) * 100)}%`;
  const labels = labelsByRoom({ bare: board.bare, heights: heightsOf(board), weekCount });
  const span = ({ from, until }: Pick<WeekSpan, 'from' | 'until'>) => ({
    x: x(from),
    width: x(until - from),
  });
  return (
    <svg class="board-picture" aria-hidden="true">
      <use href={`#${marks}-months`} />
      <Stock {...board} weekCount={weekCount} />
      {board.harvests.map((harvest) => (
        <rect
          key={harvest.from}
          {...span(harvest)}
          y="80%"
          height="20%"
          class="harvest"
          fill={`url(#${marks}-hatch)`}
        >
          <title>{harvest.words}</title>
        </rect>
      ))}
      {wholeBoards(board.bare, weekCount).map((whole) => (
        <rect key={whole.from} class="board-wood" {...span(whole)} y={`${woodAt}%`} height={woodHeight} />
      ))}
      {board.bought.length === 0 ? null : (
        <svg
          class="board-stock"
          aria-hidden="true"
          viewBox={`0 0 ${weekCount} 1`}
          preserveAspectRatio="none"
          y={`${woodAt}%`}
          height="1%"
          overflow="visible"
        >
          <path class="bought" d={board.bought.map(({ week }) => `M${week + 0.5},1h0`).join('')} />
        </svg>
      )}
      {board.bare.map((gap, at) => (
        <Bare key={gap.from} gap={gap} label={labels[at] ?? null} x={x} />
      ))}
      {board.bestQuality.map((mark) => (
        <use key={mark.week} class="notch" href={`#${marks}-notch`} x={x(mark.week + 0.5)} y={`${woodAt}%`}>
          <title>{mark.words}</title>
        </use>
      ))}
      {batchesJoined(board.putUp, weekCount).map((mark) => (
        <g key={mark.week} class="jar">
          <title>{mark.words}</title>
          <use href={`#${marks}-jar`} x={x(mark.week + 0.5)} y="100%" />
          <text x={x(mark.week + 0.5)} dx={6} y="100%" dy={-1}>
            {String(Math.round(mark.count))}
          </text>
        </g>
      ))}
    </svg>
  );
};

/** Stretched to the drawing's width, one unit of its height a unit of stock. */
const Stock = ({
  opening,
  weeks,
  weekCount,
}: Pick<YearBoardProps, 'opening' | 'weeks'> & { weekCount: number }) => {
  const most = mostOf({ opening, weeks });
  const filled = (of: (week: BoardWeek) => number): string => stepped(weeks.map(of), most, weekCount);
  return (
    <svg
      class="board-stock"
      aria-hidden="true"
      viewBox={`0 0 ${weekCount} ${most}`}
      preserveAspectRatio="none"
      height={`${woodAt}%`}
    >
      <path class="stock stock-high" d={filled(({ high }) => upTo(most, high))} />
      <path class="stock stock-likely" d={filled(({ likely }) => wholeUnits(likely))} />
      <path class="stock stock-low" d={filled(({ low }) => Math.round(low))} />
      {most > mostDrawnAsJars || most === 1 ? null : (
        <path
          class={most <= fewJars ? 'jar-lines' : 'jar-lines many-jars'}
          d={Array.from({ length: most - 1 }, (_, line) => `M0,${line + 1}H${weekCount}`).join('')}
        />
      )}
    </svg>
  );
};

/** Units that the drawing is high. */
const mostOf = ({ opening, weeks }: Pick<YearBoardProps, 'opening' | 'weeks'>): number =>
  Math.max(1, Math.ceil(opening), ...weeks.map(({ likely }) => wholeUnits(likely)));

const upTo = (most: number, units: number): number => Math.min(most, Math.round(units));

/** The last jar is drawn until it is gone. */
const wholeUnits = (units: number): number => (units <= 0 ? 0 : Math.max(1, Math.round(units)));

/** The outline of what stands week by week; a week of the same height as the one before costs nothing. */
const stepped = (heights: readonly number[], most: number, weekCount: number): string => {
  const steps: string[] = [];
  let standing = 0;
  heights.forEach((height, week) => {
    if (height === standing) return;
    steps.push(`${week === 0 ? '' : `H${week}`}V${most - height}`);
    standing = height;
  });
  return steps.length === 0 ? '' : `M0,${most}${steps.join('')}H${weekCount}V${most}Z`;
};

/** Where wood is: between the gaps. */
const wholeBoards = (gaps: readonly WeekSpan[], weekCount: number): Pick<WeekSpan, 'from' | 'until'>[] => {
  const starts = [0, ...gaps.map(({ until }) => until)];
  const ends = [...gaps.map(({ from }) => from), weekCount];
  return starts.flatMap((from, place) => {
    const until = ends[place] ?? weekCount;
    return until > from ? [{ from, until }] : [];
  });
};

/** How high stock is drawn in each week, of the drawing's tallest. */
const heightsOf = ({ opening, weeks }: Pick<YearBoardProps, 'opening' | 'weeks'>): readonly number[] => {
  const most = mostOf({ opening, weeks });
  return weeks.map(
    ({ low, likely, high }) => Math.max(Math.round(low), wholeUnits(likely), upTo(most, high)) / most,
  );
};

/** A hole between two brackets of ink, with how long it is where that has room. */
const Bare = ({
  gap,
  label,
  x,
}: {
  gap: YearBoardProps['bare'][number];
  label: PlacedLabel | null;
  x: (week: number) => string;
}) => (
  <g class="bare">
    <title>{gap.words}</title>
    <rect x={x(gap.from)} y="6%" width={x(gap.until - gap.from)} height={`${woodAt}%`} class="bare-hole" />
    {[x(gap.from), x(gap.until)].map((edge, side) => (
      <g key={edge} transform={side === 0 ? undefined : `translate(-${bracket.line})`}>
        <rect x={edge} y="6%" width={bracket.line} height={`${woodAt - 4}%`} />
        {['6%', `${woodAt}%`].map((foot) => (
          <rect
            key={foot}
            x={edge}
            y={foot}
            width={bracket.foot}
            height={woodHeight}
            transform={side === 0 ? undefined : `translate(${bracket.line - bracket.foot})`}
          />
        ))}
      </g>
    ))}
    {label === null ? null : (
      <text
        {...standingAt[label.place](gap, x)}
        y="50%"
        class={label.room === 0 ? undefined : `room-${label.room}`}
      >
        {gap.label}
      </text>
    )}
  </g>
);

const standingAt: Readonly<Record<LabelPlace, (gap: WeekSpan, x: (week: number) => string) => object>> = {
  within: ({ from, until }, x) => ({ x: x((from + until) / 2), 'text-anchor': 'middle' }),
  before: ({ from }, x) => ({ x: x(from), dx: -labelAside, 'text-anchor': 'end' }),
  after: ({ until }, x) => ({ x: x(until), dx: labelAside, 'text-anchor': 'start' }),
};

/** Of the year's width, so that a phone keeps the counts apart. */
const leastBetweenJars = 1 / 11;

/** Batches whose counts would stand on each other are one jar, at the first of their weeks, with their sum. */
const batchesJoined = (marks: readonly WeekMark[], weekCount: number): readonly WeekMark[] => {
  const joined: WeekMark[] = [];
  for (const mark of marks) {
    const before = joined.at(-1);
    if (before !== undefined && mark.week - before.week < weekCount * leastBetweenJars)
      joined[joined.length - 1] = {
        week: before.week,
        count: before.count + mark.count,
        words: `${before.words}; ${mark.words}`,
      };
    else joined.push(mark);
  }
  return joined;
};
