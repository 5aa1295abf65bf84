import { counted } from '../../shared/counting.ts';
import type { Family } from '../../shared/family.ts';
import { elementId } from '../words/element-id.ts';
import { familyWords } from '../words/format.ts';
import { round } from './rounding.ts';
import { type BoardScale, YearBoard, type YearBoardProps } from './year-board.tsx';

export interface YearMonth {
  readonly at: number;
  readonly label: string;
}

export interface BoardFamily {
  readonly family: Family;
  readonly boards: readonly YearBoardProps[];
}

/** `wide` and `middle` name each board beside it; `narrow`, for a phone, above it. */
export type PictureForm = 'wide' | 'middle' | 'narrow';

export interface YearChartProps {
  readonly id: string;
  readonly title: string;
  /** How many weeks stand from left to right. */
  readonly weekCount: number;
  /** Where months begin, by place in the year (a fraction of weeks). */
  readonly months: readonly YearMonth[];
  readonly families: readonly BoardFamily[];
  readonly form: PictureForm;
}

interface Layout {
  readonly width: number;
  readonly left: number;
  readonly right: number;
  readonly rowHeight: number;
  readonly namesAbove: boolean;
}

const axisHeight = 26;
const familyHeight = 24;

/** Few boards stand tall; sixty stand close but still apart. */
const rowHeightFor = (boards: number): number => {
  if (boards <= 3) return 104;
  if (boards <= 8) return 68;
  if (boards <= 28) return 46;
  return boards <= 40 ? 36 : 24;
};

const layoutFor = (form: PictureForm, boards: number): Layout => {
  const rowHeight = rowHeightFor(boards);
  switch (form) {
    case 'wide':
      return { width: 1140, left: 216, right: 40, rowHeight, namesAbove: false };
    case 'middle':
      return { width: 700, left: 200, right: 28, rowHeight, namesAbove: false };
    case 'narrow':
      return { width: 344, left: 2, right: 30, rowHeight: boards <= 3 ? 110 : 76, namesAbove: true };
  }
};

/**
 * The year as a shelf: every item a board, its stock standing on it and shrinking as it is eaten, soft at the top where
 * nobody can know, the harvest hatched under the board, a jar where a batch is put up, the board broken where it is bare.
 */
export const YearChart = (props: YearChartProps) => {
  const { id, title, families, form } = props;
  const boardCount = families.reduce((count, family) => count + family.boards.length, 0);
  if (boardCount === 0 || props.weekCount === 0)
    return <p class="empty-state">No board hangs here yet: there is nothing to keep for the year.</p>;

  const layout = layoutFor(form, boardCount);
  const shelf = stackFamilies(families, layout.rowHeight);
  const height = shelf.height + axisHeight;
  const weekWidth = (layout.width - layout.left - layout.right) / props.weekCount;
  const scale: BoardScale = {
    x: (week) => round(layout.left + week * weekWidth),
    weekWidth,
    left: layout.left,
    right: layout.width - layout.right,
    width: layout.width,
    rowHeight: layout.rowHeight,
    namesAbove: layout.namesAbove,
    weekCount: props.weekCount,
    hatch: `${id}-hatch`,
  };
  return (
    <svg
      class={`year-picture year-picture-${form}`}
      viewBox={`0 0 ${layout.width} ${height}`}
      aria-labelledby={`${id}-title ${id}-words`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc
        id={`${id}-words`}
      >{`${counted(boardCount, 'board')}, ${counted(props.weekCount, 'week')} from left to right, starting today.`}</desc>
      <defs>
        <pattern
          id={scale.hatch}
          width="5"
          height="5"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line class="harvest-line" x1="0" y1="0" x2="0" y2="5" />
        </pattern>
      </defs>
      <MonthAxis months={props.months} scale={scale} height={height} form={form} />
      {shelf.families.map(({ family, top, boards }) => (
        <g key={family} class={`family-${family}`}>
          <text class="family-name" x={0} y={top + 16}>
            {familyWords[family]}
          </text>
          {boards.map(({ board, top: boardTop }) => (
            <YearBoard
              key={board.key}
              id={elementId(id, board.key)}
              board={board}
              top={boardTop}
              scale={scale}
            />
          ))}
        </g>
      ))}
    </svg>
  );
};

const MonthAxis = ({
  months,
  scale,
  height,
  form,
}: {
  months: readonly YearMonth[];
  scale: BoardScale;
  height: number;
  form: PictureForm;
}) => (
  <g class="month-axis">
    {months.map((month, place) => (
      <g key={month.label + month.at}>
        <line x1={scale.x(month.at)} x2={scale.x(month.at)} y1={axisHeight - 8} y2={height} />
        {form === 'narrow' && place % 2 === 1 ? null : (
          <text x={scale.x(month.at) + 3} y={axisHeight - 10}>
            {month.label}
          </text>
        )}
      </g>
    ))}
  </g>
);

/** Where each family's heading and each board stands, top to bottom. */
const stackFamilies = (families: readonly BoardFamily[], rowHeight: number) => {
  let top = axisHeight;
  const stacked = families
    .filter((family) => family.boards.length > 0)
    .map(({ family, boards }) => {
      const familyTop = top;
      top += familyHeight;
      const placed = boards.map((board) => {
        const boardTop = top;
        top += rowHeight;
        return { board, top: boardTop };
      });
      return { family, top: familyTop, boards: placed };
    });
  return { families: stacked, height: top - axisHeight };
};
