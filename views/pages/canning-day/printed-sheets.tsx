import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { FoldedPart } from '../../parts/part.tsx';

export interface PrintedSheetLine {
  readonly key: string;
  readonly words: string;
  readonly href: string;
  readonly isVoid: boolean;
}

export interface PrintedSheetsProps {
  /** Null while no sheet can be made. */
  readonly print: { readonly action: string; readonly keys: FormKeys } | null;
  readonly printed: readonly PrintedSheetLine[];
  /** The mark a sheet made now would bear; null when no time can be given. */
  readonly mark: string | null;
}

/** The numbered sheets of a day, and which of them are void. */
export const PrintedSheets = ({ sheets, isBegun }: { sheets: PrintedSheetsProps; isBegun: boolean }) => (
  <FoldedPart
    title="On paper"
    id="sheets"
    line={sheets.printed.some(({ isVoid }) => isVoid) ? 'A printed sheet is void' : 'Numbered sheets'}
  >
    {sheets.mark === null ? null : (
      <p>
        Current sheet: <strong class="sheet-mark">{sheets.mark}</strong>. If your printout shows another mark,
        print it again.
      </p>
    )}
    {sheets.printed.length === 0 ? null : (
      <ul class="plain-list">
        {sheets.printed.map(({ key, words, href, isVoid }) => (
          <li key={key} class={isVoid ? 'sheet-is-void' : undefined}>
            <a href={href}>{words}</a>
          </li>
        ))}
      </ul>
    )}
    {sheets.print === null ? (
      <p class="quiet">
        {isBegun
          ? 'There is no tested process to print.'
          : 'Begin the day to print a numbered sheet; then this page can tell you when it is out of date.'}
      </p>
    ) : (
      <PostForm action={sheets.print.action} keys={sheets.print.keys} label="Print the sheet">
        <p>
          <Button>Make a sheet to print</Button>
        </p>
      </PostForm>
    )}
  </FoldedPart>
);
