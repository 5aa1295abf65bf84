import { scaleLinear } from 'd3-scale';
import { area, curveLinear } from 'd3-shape';
import { formatPlainCount, round } from './rounding.ts';

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
  readonly key: string;
  readonly name: string;
  readonly href: string;
  /** What stands now, as it is counted: `12`. */
  readonly now: string;
  /** The one sentence about it, for those who hear the picture. */
  readonly sentence: string;
  /** Units that stand today. */
  readonly opening: number;
  readonly weeks: readonly BoardWeek[];
  readonly harvests: readonly WeekSpan[];
  readonly putUp: readonly WeekMark[];
  readonly bought: readonly WeekMark[];
  /** Weeks in which there are likely none. */
  readonly bare: readonly WeekSpan[];
  /** Where jars pass their best quality. */
  readonly bestQuality: readonly WeekMark[];
}

/** Geometry all boards share. */
export interface BoardScale {
  readonly x: (week: number) => number;
  readonly weekWidth: number;
  readonly left: number;
  readonly right: number;
  readonly width: number;
  readonly rowHeight: number;
  readonly namesAbove: boolean;
  readonly weekCount: number;
  readonly hatch: string;
}

/** A low row, as when sixty boards hang on one page, gives nearly all its height to the stock. */
const spacious = { board: 2.5, hatch: 5, gap: 4, headroom: 13, jarHeight: 10 };
const close = { board: 1.2, hatch: 3.5, gap: 2, headroom: 3, jarHeight: 8 };
const jarWidth = 8;
/** Two digits and a breath. */
const leastJarDistance = 15;
const leastHeightInUnits = 1;

const isTall = (scale: BoardScale): boolean => scale.rowHeight >= 30;
const spacingOf = (scale: BoardScale) => (isTall(scale) ? spacious : close);

interface BoardParts {
  readonly id: string;
  readonly board: YearBoardProps;
  readonly top: number;
  readonly scale: BoardScale;
}

/** One item's year on its board. The whole board is a link to the item. */
export const YearBoard = ({ id, board, top, scale }: BoardParts) => {
  const spacing = spacingOf(scale);
  const headroom = scale.namesAbove ? 40 : spacing.headroom;
  const boardTop = top + scale.rowHeight - spacing.gap - spacing.hatch - spacing.board;
  const most = Math.max(leastHeightInUnits, board.opening, ...board.weeks.map((week) => week.high));
  const y = scaleLinear()
    .domain([0, most])
    .range([boardTop, top + headroom]);
  const height = (units: number): number => round(y(units));
  return (
    <a class="year-board" href={board.href} id={id}>
      <title>{board.sentence}</title>
      <rect class="board-ground" x={0} y={top} width={scale.width} height={scale.rowHeight} />
      <BoardName board={board} top={top} boardTop={boardTop} scale={scale} />
      <Stock opening={board.opening} weeks={board.weeks} height={height} scale={scale} />
      {board.harvests.map((span) => (
        <Harvest key={span.from} span={span} boardTop={boardTop} scale={scale} />
      ))}
      <rect
        class="board-wood"
        x={scale.left}
        y={boardTop}
        width={scale.right - scale.left}
        height={spacing.board}
      />
      {board.bare.map((span) => (
        <Bare key={span.from} span={span} boardTop={boardTop} scale={scale} />
      ))}
      {board.bestQuality.map((mark) => (
        <Notch key={mark.week} mark={mark} boardTop={boardTop} scale={scale} />
      ))}
      {board.bought.map((mark) => (
        <Bought key={mark.week} mark={mark} boardTop={boardTop} scale={scale} />
      ))}
      {closeMarksJoined(board.putUp, scale).map((mark) => (
        <Jar
          key={mark.week}
          mark={mark}
          standsOn={Math.min(boardTop, height(board.weeks[mark.week]?.likely ?? 0))}
          top={top}
          scale={scale}
        />
      ))}
      <text class="board-most" x={scale.right + 5} y={boardTop}>
        {formatPlainCount(most)}
      </text>
    </a>
  );
};

const BoardName = ({ board, top, boardTop, scale }: Omit<BoardParts, 'id'> & { boardTop: number }) => {
  const baseline = scale.namesAbove ? top + 14 : boardTop + spacingOf(scale).board;
  return (
    <>
      <rect class="family-stripe" x={scale.namesAbove ? 2 : 0} y={baseline - 11} width={4} height={13} />
      <text class="board-name" x={scale.namesAbove ? 11 : 10} y={baseline}>
        {shortened(board.name, scale.namesAbove ? 34 : 27)}
      </text>
      <text
        class="board-now"
        x={scale.namesAbove ? scale.right : scale.left - 8}
        y={baseline}
        text-anchor="end"
      >
        {board.now}
      </text>
    </>
  );
};

/** Sure at the bottom, soft at the top: three heights of one colour. */
const Stock = ({
  opening,
  weeks,
  height,
  scale,
}: {
  opening: number;
  weeks: readonly BoardWeek[];
  height: (units: number) => number;
  scale: BoardScale;
}) => {
  const filled = (of: (week: BoardWeek) => number): string => {
    const heights = [opening, ...weeks.map(of), of(weeks.at(-1) ?? { low: 0, likely: 0, high: 0 })];
    return (
      area<number>()
        .x((_units, place) => scale.x(placeInYear(place, weeks.length)))
        .y0(height(0))
        .y1(height)
        .curve(curveLinear)
        .digits(1)(heights) ?? ''
    );
  };
  return (
    <>
      <path class="stock stock-high" d={filled((week) => week.high)} />
      <path class="stock stock-likely" d={filled((week) => week.likely)} />
      <path class="stock stock-low" d={filled((week) => week.low)} />
    </>
  );
};

/** The year begins with what stands today, then shows each week in its middle, and holds the last to the edge. */
const placeInYear = (place: number, weekCount: number): number => {
  if (place === 0) return 0;
  return place > weekCount ? weekCount : place - 0.5;
};

const spanWidth = (span: WeekSpan, scale: BoardScale): number =>
  round(scale.x(span.until) - scale.x(span.from));

const Harvest = ({ span, boardTop, scale }: { span: WeekSpan; boardTop: number; scale: BoardScale }) => (
  <rect
    class="harvest"
    x={scale.x(span.from)}
    y={boardTop + spacingOf(scale).board}
    width={spanWidth(span, scale)}
    height={spacingOf(scale).hatch}
    fill={`url(#${scale.hatch})`}
  >
    <title>{span.words}</title>
  </rect>
);

const Bare = ({ span, boardTop, scale }: { span: WeekSpan; boardTop: number; scale: BoardScale }) => {
  const width = spanWidth(span, scale);
  const { board, hatch } = spacingOf(scale);
  const roomForWord = width > 44 && isTall(scale);
  return (
    <g class="bare">
      <title>{span.words}</title>
      <rect class="bare-gap" x={scale.x(span.from)} y={boardTop - 0.5} width={width} height={board + 1} />
      <line
        class="bare-line"
        x1={scale.x(span.from)}
        x2={scale.x(span.until)}
        y1={boardTop + board / 2}
        y2={boardTop + board / 2}
      />
      <line
        class="bare-edge"
        x1={scale.x(span.from)}
        x2={scale.x(span.from)}
        y1={boardTop - 7}
        y2={boardTop + board + hatch}
      />
      {roomForWord ? (
        <text
          class="bare-word"
          x={round((scale.x(span.from) + scale.x(span.until)) / 2)}
          y={boardTop - 4}
          text-anchor="middle"
        >
          none
        </text>
      ) : null}
    </g>
  );
};

/** Cut from below into the board: from here on jars stand past their best quality. */
const Notch = ({ mark, boardTop, scale }: { mark: WeekMark; boardTop: number; scale: BoardScale }) => {
  const x = scale.x(mark.week + 0.5);
  const { board, hatch } = spacingOf(scale);
  const bottom = boardTop + board + hatch;
  return (
    <path class="notch" d={`M${x - 4},${bottom}L${x},${boardTop - 1}L${x + 4},${bottom}Z`}>
      <title>{mark.words}</title>
    </path>
  );
};

const Bought = ({ mark, boardTop, scale }: { mark: WeekMark; boardTop: number; scale: BoardScale }) => (
  <circle class="bought" cx={scale.x(mark.week + 0.5)} cy={boardTop + spacingOf(scale).board / 2} r={2.6}>
    <title>{mark.words}</title>
  </circle>
);

/** Jars that would stand on each other's counts are drawn as one, at the last of their weeks, with their sum. */
const closeMarksJoined = (marks: readonly WeekMark[], scale: BoardScale): readonly WeekMark[] => {
  const joined: WeekMark[] = [];
  for (const mark of marks) {
    const before = joined.at(-1);
    if (before !== undefined && (mark.week - before.week) * scale.weekWidth < leastJarDistance)
      joined[joined.length - 1] = {
        week: mark.week,
        count: before.count + mark.count,
        words: `${before.words}; ${mark.words}`,
      };
    else joined.push(mark);
  }
  return joined;
};

/** A jar with its count, standing on what is already there. */
const Jar = ({
  mark,
  standsOn,
  top,
  scale,
}: {
  mark: WeekMark;
  standsOn: number;
  top: number;
  scale: BoardScale;
}) => {
  const tall = isTall(scale);
  const { jarHeight } = spacingOf(scale);
  const x = round(scale.x(mark.week + 0.5));
  const foot = Math.max(top + jarHeight + (tall ? 11 : 3), standsOn);
  const half = jarWidth / 2;
  return (
    <g class="jar">
      <title>{mark.words}</title>
      <rect
        class="jar-glass"
        x={x - half}
        y={foot - jarHeight + 2}
        width={jarWidth}
        height={jarHeight - 2}
        rx={1.5}
      />
      <rect class="jar-lid" x={x - half + 0.5} y={foot - jarHeight} width={jarWidth - 1} height={2} />
      <text
        class="jar-count"
        x={tall ? x : x + half + 2}
        y={tall ? foot - jarHeight - 2 : foot - 1}
        text-anchor={tall ? 'middle' : 'start'}
      >
        {formatPlainCount(mark.count)}
      </text>
    </g>
  );
};

const shortened = (name: string, letters: number): string =>
  name.length <= letters ? name : `${name.slice(0, letters - 1).trimEnd()}…`;
