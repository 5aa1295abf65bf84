import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button, ButtonLink } from '../../parts/button.tsx';
import { fieldsWith, InputField } from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { type NoticeLine, NoticeReason, NoticeWords } from '../../parts/notice-list.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

export interface OpenNotice {
  readonly notice: NoticeLine;
  /** Put off for a week, or said to be dealt with. */
  readonly keys: FormKeys;
}

/** Notices of one kind under its heading. */
export interface NoticeGroup {
  readonly key: string;
  readonly title: string;
  readonly notices: readonly OpenNotice[];
}

export interface NoticesListProps {
  readonly groups: readonly NoticeGroup[];
  readonly later: readonly { readonly notice: NoticeLine; readonly until: string; readonly keys: FormKeys }[];
}

export interface NoticesPageProps extends NoticesListProps {
  readonly frame: Frame;
  readonly summary: string;
}

/** Everything that needs attention, the soonest first. */
export const NoticesPage = ({ frame, summary, groups, later }: NoticesPageProps) => (
  <Page
    frame={frame}
    title="Notices"
    section="notices"
    about="What needs attention in the pantry, and by when."
  >
    <h1 class="page-title">Notices</h1>
    <p class="page-line">{summary}</p>
    <p class="page-actions">
      <ButtonLink href="/notices/settings">Reminders and letters</ButtonLink>
    </p>
    <NoticesList groups={groups} later={later} />
  </Page>
);

/** The two lists, swapped as one when a notice is settled or put off. */
export const NoticesList = ({ groups, later }: NoticesListProps) => (
  <div id="notices">
    {groups.length === 0 ? <EmptyState text="Nothing needs attention." /> : null}
    {groups.map((group) => (
      <Part key={group.key} title={group.title} id={`notices-${group.key}`}>
        <OpenNotices notices={group.notices.slice(0, shownOfAKind)} />
        {group.notices.length <= shownOfAKind ? null : (
          <details class="more-notices">
            <summary>{`${group.notices.length - shownOfAKind} more: ${group.title.toLowerCase()}`}</summary>
            <OpenNotices notices={group.notices.slice(shownOfAKind)} />
          </details>
        )}
      </Part>
    ))}
    {later.length === 0 ? null : (
      <Part title="Put off" id="notices-later">
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

/** Of one kind the first stands open, the rest are folded under it: a phone shows every kind on a screen or two. */
const shownOfAKind = 1;

const OpenNotices = ({ notices }: Pick<NoticeGroup, 'notices'>) => (
  <ul class="notice-list">
    {notices.map(({ notice, keys }) => (
      <li key={notice.id}>
        <NoticeReason notice={notice} />
        <PostForm
          action={`/notices/${notice.id}`}
          keys={keys}
          replaces="#notices"
          class="notice-answer"
          label={`Answer: ${notice.reason}`}
        >
          <Button weight="quiet" name="answer" value="done">
            Done
          </Button>
          <Button weight="quiet" name="answer" value="later">
            Remind me in a week
          </Button>
          <details class="notice-until">
            <summary>
              On another day<span class="heard-only">{`: ${notice.reason}`}</span>
            </summary>
            <InputField
              form={fieldsWith(`notice-${notice.id}`, { until: '' })}
              name="until"
              type="date"
              label="Remind me on"
            />
            <Button name="answer" value="until">
              Put off
            </Button>
          </details>
        </PostForm>
      </li>
    ))}
  </ul>
);
