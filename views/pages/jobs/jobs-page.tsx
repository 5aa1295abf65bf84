import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Banner } from '../../parts/banner.tsx';
import { EmptyState } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface JobsPageProps {
  readonly frame: Frame;
  readonly troubles: readonly string[];
  readonly jobs: readonly {
    readonly id: string;
    readonly what: string;
    readonly night: string;
    readonly outcome: string;
    readonly attempts: string;
  }[];
}

/** What the program did by itself at night. */
export const JobsPage = ({ frame, troubles, jobs }: JobsPageProps) => (
  <Page
    frame={frame}
    title={pageNames.jobs}
    section="kitchen"
    about="What the program did by itself at night."
  >
    <h1 class="page-title">{pageNames.jobs}</h1>
    <p class="page-line">
      A backup, the day’s notices and a fresh plan, every night; caught up later if the computer was off.
      Letters go when they are due.
    </p>
    {troubles.map((text) => (
      <Banner key={text} message={{ tone: 'note', text }} />
    ))}
    {jobs.length === 0 ? (
      <EmptyState text="Nothing has run yet." />
    ) : (
      <div class="table-frame">
        <table class="data-table">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">Day</th>
              <th scope="col">Outcome</th>
              <th scope="col">Tries</th>
            </tr>
          </thead>
          <tbody>
            {jobs.map(({ id, what, night, outcome, attempts }) => (
              <tr key={id}>
                <th scope="row">{what}</th>
                <td>{night}</td>
                <td>{outcome}</td>
                <td>{attempts}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    )}
  </Page>
);
