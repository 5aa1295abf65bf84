import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { EmptyState } from '../../parts/part.tsx';

export interface PaperBatch {
  readonly key: string;
  readonly name: string;
  /** `1 batch, soaked overnight, USDA-G4, p4-5` */
  readonly line: string;
  readonly heldBack: string | null;
  readonly lines: readonly {
    readonly key: string;
    readonly on: string;
    readonly when: string;
    readonly what: string;
    readonly more: string;
    readonly isDone: boolean;
  }[];
}

export interface StagesPaperPageProps {
  readonly frame: Frame;
  /** `Thistle Bank, from Aug 12, 2026` */
  readonly heading: string;
  readonly batches: readonly PaperBatch[];
}

/** What is begun, drained and filled on which day, batch by batch, with a box to tick and room for the hour. */
export const StagesPaperPage = ({ frame, heading, batches }: StagesPaperPageProps) => (
  <Page
    frame={frame}
    title="Before the canner, on paper"
    section="stages"
    about="A printed sheet of what is done on which day before each canner load."
  >
    <p class="page-back not-on-paper">
      <a href="/stages">Before the canner</a>
    </p>
    <h1 class="page-title">Before the canner</h1>
    <p class="page-line">
      {heading}. Write the hour beside each line, and write it down at the screen: nothing goes into a canner
      before that.
    </p>
    {batches.length === 0 ? (
      <EmptyState text="Nothing planned or begun waits before its canner load." />
    ) : null}
    {batches.map((batch) => (
      <article key={batch.key} class="stages-paper">
        <h2>{batch.name}</h2>
        <p class="quiet">{batch.line}</p>
        {batch.heldBack === null ? null : <p class="banner banner-problem">{batch.heldBack}</p>}
        {batch.lines.length === 0 ? null : (
          <ul class="stages-paper-lines">
            {batch.lines.map((line) => (
              <li key={line.key}>
                <span class="stages-paper-on">
                  {line.isDone ? '☑' : '☐'} {line.on}
                </span>
                <span>
                  {line.what}
                  <span class="quiet">
                    {[line.when, line.more].filter((words) => words !== '').map((words) => ` · ${words}`)}
                  </span>
                </span>
                <span class="stages-paper-hour">{line.isDone ? '' : 'at ________'}</span>
              </li>
            ))}
          </ul>
        )}
      </article>
    ))}
  </Page>
);
