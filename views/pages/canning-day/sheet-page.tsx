import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Sheet, type SheetProps } from './sheet.tsx';

export interface SheetPageProps {
  readonly frame: Frame;
  /** `Sheet 3` */
  readonly title: string;
  readonly back: string;
  /** Why the sheet is void; null while it stands. */
  readonly voidBecause: string | null;
  /** Null once the sheet is void: its minutes must not be read any more. */
  readonly sheet: SheetProps | null;
}

/** One numbered sheet as it goes to the printer, or the word that it is void. */
export const SheetPage = ({ frame, title, back, voidBecause, sheet }: SheetPageProps) => (
  <Page
    frame={frame}
    moreCss={frame.assets.canningCss}
    title={title}
    section="canning"
    about="A canning-day sheet to print on one paper."
  >
    <div class="not-on-paper">
      <p class="page-back">
        <a href={back}>Canning day</a>
      </p>
      <h1 class="page-title">{title}</h1>
      {voidBecause === null ? (
        <p class="page-line">
          Print this page from the browser: it fits on the two sides of one A4 or Letter paper, in black.
        </p>
      ) : null}
    </div>
    {voidBecause === null ? null : (
      <div class="sheet-void" role="alert">
        <p class="sheet-void-word">Void</p>
        <p>{voidBecause}</p>
        <p>Throw every copy of this sheet away and print a new one.</p>
      </div>
    )}
    {sheet === null ? null : <Sheet sheet={sheet} />}
  </Page>
);
