import { YearBoard, type YearBoardProps } from '../../charts/year-board.tsx';
import { PictureKey, type YearAxis, YearMarks, YearMonths } from '../../charts/year-picture.tsx';
import { drawnOnce } from '../../parts/drawn-once.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { sentenceCase } from '../../words/sentences.ts';

/** One item's year in a breath, and the same as its board: `12 left. Lasts to early March. Next peaches in August. Make 20.` */
export interface YearRow {
  readonly key: string;
  readonly item: ItemLabel;
  readonly href: string;
  /** `12` with its unit `jars` */
  readonly left: string;
  readonly unit: string;
  /** `to early March`, `all year`, `none now` */
  readonly lasts: string;
  /** None is left. */
  readonly isGone: boolean;
  /** `then none for 9 weeks`, when the plan does not keep it from running out; null otherwise. */
  readonly bare: string | null;
  /** `9 years in 10`; empty for what nobody says they eat. */
  readonly sure: string;
  /** `peaches in August`, `any week in the shop` */
  readonly next: string;
  /** `20`, or null when nothing more is to be made or bought. */
  readonly make: string | null;
  /** `4 are still missing`, beyond what the plan makes; null where nothing is, or nothing is planned. */
  readonly short: string | null;
  readonly makeVerb: 'Make' | 'Buy';
  /** Said where nothing more is to be made or bought: that it is enough, or why none comes and the one step that mends it. */
  readonly instead: {
    readonly words: string;
    readonly step: { readonly words: string; readonly href: string } | null;
  };
  readonly board: YearBoardProps;
}

/** The soonest to run out first, each with its words under its board on a phone and beside it elsewhere. */
export const YearBoards = ({
  rows,
  axis,
  marks,
}: {
  rows: readonly YearRow[];
  axis: YearAxis;
  marks: string;
}) => (
  <ol class="year-boards">
    {rows.map((row) => (
      <Row key={row.key} row={row} weekCount={axis.weekCount} marks={marks} />
    ))}
  </ol>
);

interface RowProps {
  readonly row: YearRow;
  readonly weekCount: number;
  readonly marks: string;
}

const Row = drawnOnce('row', ({ row, weekCount, marks }: RowProps) => (
  <li class={`year-row family-${row.item.family}${row.bare === null ? '' : ' goes-bare'}`}>
    <a class="year-name" href={row.href}>
      <ItemName item={row.item} />
    </a>
    <p class="year-words">
      <span class="year-left">
        <b class="big-number">{row.left}</b> <span class="unit">{row.unit}</span>
        <span class="in-words">{row.isGone && row.bare !== null ? ' left, ' : ' left. '}</span>
      </span>
      <span class="year-lasts">
        {row.isGone ? null : `Lasts ${row.lasts}${row.bare === null ? '. ' : ', '}`}
        {row.bare === null ? null : (
          <>
            <strong class="bare-words">{row.bare}</strong>
            {'. '}
          </>
        )}
        <span class="year-next">{`Next ${row.next}. `}</span>
        {row.sure === '' ? null : <span class="year-sure">{`Lasts till then ${row.sure}. `}</span>}
      </span>
      <Coming row={row} />
    </p>
    {/* biome-ignore lint/a11y/useAnchorContent: the link before it leads there in words, for those who hear and those who tab */}
    <a class="year-drawing" href={row.href} tabIndex={-1} aria-hidden="true">
      <YearBoard board={row.board} weekCount={weekCount} marks={marks} />
    </a>
  </li>
));

/** What is still to make or buy, or what stands in its place. */
const Coming = ({ row: { make, makeVerb, short, instead } }: { row: YearRow }) => {
  if (make !== null)
    return (
      <>
        <span class="year-coming">
          {makeVerb} <b class="big-number">{make}</b>
          {short === null ? '. ' : '; '}
        </span>
        {short === null ? null : <span class="year-short">{`${short}.`}</span>}
      </>
    );
  if (instead.step !== null)
    return (
      <span class="year-instead">
        {sentenceCase(instead.words)}: <a href={instead.step.href}>{instead.step.words}</a>.
      </span>
    );
  return (
    <span class="year-coming quiet">
      {instead.words === 'enough' ? 'That is enough.' : `${sentenceCase(instead.words)}.`}
    </span>
  );
};

/** The shared axis with its marks; on the year's page a week is chosen on it. */
export const BoardAxis = ({ axis, marks }: { axis: YearAxis; marks: string }) => (
  <>
    <YearMarks id={marks} axis={axis} />
    <YearMonths axis={axis} />
  </>
);

/** One board by itself under its months, large. */
export const OneBoard = ({
  id,
  board,
  axis,
  withKey,
}: {
  id: string;
  board: YearBoardProps;
  axis: YearAxis;
  /** What its marks mean, under it. */
  withKey: boolean;
}) => (
  <figure class="one-board">
    <BoardAxis axis={axis} marks={id} />
    <YearBoard board={board} weekCount={axis.weekCount} marks={id} />
    {withKey ? (
      <figcaption>
        <BoardKey marks={id} />
      </figcaption>
    ) : null}
  </figure>
);

export const BoardKey = ({ marks }: { marks: string }) => (
  <details class="board-key">
    <summary>What the marks mean</summary>
    <PictureKey marks={marks} />
  </details>
);
