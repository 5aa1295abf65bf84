import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { EmptyState } from '../../parts/part.tsx';

export interface AccountEventsPageProps {
  readonly frame: Frame;
  readonly events: readonly {
    readonly id: string;
    readonly when: string;
    readonly who: string;
    readonly what: string;
    readonly from: string;
  }[];
}

/** What happened to the accounts of a household, for its owners. */
export const AccountEventsPage = ({ frame, events }: AccountEventsPageProps) => (
  <Page
    frame={frame}
    title="What happened to accounts"
    section="kitchen"
    about="Sign-ins, refusals and changes of the last ninety days."
  >
    <h1 class="page-title">What happened to accounts</h1>
    <p class="page-line">
      Sign-ins, refusals and changes of the last ninety days, the newest first. What you do not recognise, ask
      about.
    </p>
    {events.length === 0 ? (
      <EmptyState text="Nothing has happened yet." />
    ) : (
      <div class="table-frame">
        <table class="data-table">
          <thead>
            <tr>
              <th scope="col">When</th>
              <th scope="col">Who</th>
              <th scope="col">What</th>
              <th scope="col">From</th>
            </tr>
          </thead>
          <tbody>
            {events.map(({ id, when, who, what, from }) => (
              <tr key={id}>
                <th scope="row">{when}</th>
                <td>{who}</td>
                <td>{what}</td>
                <td>{from}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    )}
  </Page>
);
