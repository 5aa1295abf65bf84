import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { type NoticeLine, NoticeWords } from '../../parts/notice-list.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

export interface OpenNotice {
  readonly notice: NoticeLine;
  /** Put off for a week, or said to be dealt with. */
  readonly keys: FormKeys;
}

export interface NoticesListProps {
  readonly open: readonly OpenNotice[];
  readonly later: readonly { readonly notice: NoticeLine; readonly until: string; readonly keys: FormKeys }[];
}

export interface NoticesPageProps extends NoticesListProps {
  readonly frame: Frame;
  readonly summary: string;
}

/** Everything that needs attention, the soonest first. */
export const NoticesPage = ({ frame, summary, open, later }: NoticesPageProps) => (
  <Page
    frame={frame}
    title="Notices"
    section="notices"
    about="What needs attention in the pantry, and by when."
  >
    <h1 class="page-title">Notices</h1>
    <p class="page-line">{summary}</p>
    <NoticesList open={open} later={later} />
  </Page>
);

/** The two lists, swapped as one when a notice is settled or put off. */
export const NoticesList = ({ open, later }: NoticesListProps) => (
  <div id="notices">
    <Part title="Now" id="notices-now">
      {open.length === 0 ? (
        <EmptyState text="Nothing needs attention." />
      ) : (
        <ul class="notice-list">
          {open.map(({ notice, keys }) => (
            <li key={notice.id}>
              <NoticeWords notice={notice} />
              <PostForm
                action={`/notices/${notice.id}`}
                keys={keys}
                replaces="#notices"
                class="notice-answer"
                label={`Answer: ${notice.reason}`}
              >
                <Button weight="quiet" name="answer" value="done">
                  Dealt with
                </Button>
                <Button weight="quiet" name="answer" value="later">
                  Remind me in a week
                </Button>
              </PostForm>
            </li>
          ))}
        </ul>
      )}
    </Part>
    {later.length === 0 ? null : (
      <Part title="Later" id="notices-later">
        <ul class="notice-list">
          {later.map(({ notice, until, keys }) => (
            <li key={notice.id}>
              <NoticeWords notice={notice} />
              <PostForm
                action={`/notices/${notice.id}`}
                keys={keys}
                replaces="#notices"
                class="notice-answer"
              >
                <span class="quiet">{`Comes back ${until}`}</span>
                <Button weight="quiet" name="answer" value="now">
                  Bring it back now
                </Button>
              </PostForm>
            </li>
          ))}
        </ul>
      </Part>
    )}
  </div>
);
