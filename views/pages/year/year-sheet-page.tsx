import { YearBoard } from '../../charts/year-board.tsx';
import type { YearAxis } from '../../charts/year-picture.tsx';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { ItemName } from '../../parts/item-name.tsx';
import { EmptyState } from '../../parts/part.tsx';
import { BoardAxis, type YearRow } from './year-boards.tsx';

export interface YearSheetPageProps {
  readonly frame: Frame;
  /** `Thistle Bank, from Aug 12, 2026` */
  readonly heading: string;
  readonly summary: string;
  readonly axis: YearAxis;
  readonly boards: readonly YearRow[];
}

const marks = 'sheet';
/** Names of more boards than these are set smaller to stay on one side. */
const mostAtFullSize = 34;

/** The boards of the year by themselves, filling one side of paper on its long edge. */
export const YearSheetPage = ({ frame, heading, summary, axis, boards }: YearSheetPageProps) => (
  <Page
    frame={frame}
    title="The year on one sheet"
    section="year"
    about="The picture of the year, to print on one side of paper."
    wide
    moreCss={frame.assets.yearCss}
  >
    <p class="page-back not-on-paper">
      <a href="/year">The year</a>
    </p>
    <h1 class="page-title">The year on the shelf</h1>
    <p class="page-line">{`${heading}. ${summary}`}</p>
    <p class="hint not-on-paper">
      Print it from the browser; it fills one side of Letter or A4, long edge at the top.
    </p>
    {boards.length === 0 ? (
      <EmptyState
        text="Nothing is put up in this household yet."
        action={{ words: 'Choose something from the recipe book', href: '/items/new' }}
      />
    ) : (
      <div class={boards.length <= mostAtFullSize ? 'year-sheet' : 'year-sheet sheet-of-many'}>
        <div class="year-axis">
          <BoardAxis axis={axis} marks={marks} />
        </div>
        <ol>
          {boards.map((row) => (
            <li key={row.key} class={`family-${row.item.family}`}>
              <span class="sheet-name">
                <ItemName item={row.item} /> <b>{row.left}</b> <span class="unit">{row.unit}</span>
              </span>
              <span class="year-drawing">
                <YearBoard board={row.board} weekCount={axis.weekCount} marks={marks} />
              </span>
            </li>
          ))}
        </ol>
      </div>
    )}
  </Page>
);
