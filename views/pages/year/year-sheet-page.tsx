import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { EmptyState } from '../../parts/part.tsx';
import { type PictureOfYear, YearDrawing } from './year-page.tsx';

export interface YearSheetPageProps {
  readonly frame: Frame;
  /** `Thistle Bank, from Aug 12, 2026` */
  readonly heading: string;
  readonly summary: string;
  readonly picture: PictureOfYear;
}

/** The picture of the year by itself, for one side of paper. */
export const YearSheetPage = ({ frame, heading, summary, picture }: YearSheetPageProps) => (
  <Page
    frame={frame}
    title="The year on one sheet"
    section="year"
    about="The picture of the year, to print on one side of paper."
    wide
  >
    <p class="page-back not-on-paper">
      <a href="/year">The year</a>
    </p>
    <h1 class="page-title">The year on the shelf</h1>
    <p class="page-line">{`${heading}. ${summary}`}</p>
    <p class="hint not-on-paper">Print it with the browser; it is made for one side of A4 or Letter.</p>
    {picture.families.length === 0 ? (
      <EmptyState
        text="Nothing is put up in this household yet."
        action={{ words: 'Choose something from the recipe book', href: '/items/new' }}
      />
    ) : (
      <div class="year-sheet">
        <YearDrawing id="sheet" picture={picture} />
      </div>
    )}
  </Page>
);
