import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { CheckField, fieldsWith } from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface CalendarPageProps {
  readonly frame: Frame;
  readonly isOpen: boolean;
  /** Where calendar programs read it, for owners; null while it has no address. */
  readonly address: string | null;
  readonly owns: boolean;
  readonly kinds: readonly string[];
  readonly keys: () => FormKeys;
}

const kindWords = [
  { kind: 'canning', words: 'Canning days, and what is done before and after them' },
  { kind: 'shopping', words: 'Days to pick and buy' },
  { kind: 'best_quality', words: 'Last days of best quality, batch by batch' },
  { kind: 'harvest', words: 'Harvest windows' },
] as const;

/** The pantry's days in a calendar program. */
export const CalendarPage = ({ frame, isOpen, address, owns, kinds, keys }: CalendarPageProps) => (
  <Page
    frame={frame}
    title="Calendar"
    section="print"
    about="Canning days, shopping days, best-by dates and harvests in your own calendar."
  >
    <p class="page-back">
      <a href="/print">{pageNames.print}</a>
    </p>
    <h1 class="page-title">Calendar</h1>
    <p class="page-line">
      Canning days, shopping days, best-by dates and harvests, in the calendar you look at anyway.
    </p>
    <Part
      title="Address"
      line="Subscribe to it in your calendar program. Whoever has it can read the calendar, so give it to your own household only. When a member is removed, the address is renewed."
    >
      {isOpen && !owns ? <p>The calendar has an address. An owner can tell you.</p> : null}
      {!isOpen ? (
        <EmptyState text="The calendar has no address yet, and nobody can read it." />
      ) : address === null ? null : (
        <p>
          <code class="calendar-address">{address}</code>
        </p>
      )}
      {!owns ? null : (
        <div class="page-actions">
          <PostForm action="/calendar/address" keys={keys()} class="inline-form">
            <Button weight={address === null ? 'main' : 'plain'}>
              {address === null ? 'Give it an address' : 'Give it another address'}
            </Button>
          </PostForm>
          {address === null ? null : (
            <PostForm action="/calendar/address/removal" keys={keys()} class="inline-form">
              <Button>Take the address back</Button>
            </PostForm>
          )}
        </div>
      )}
      {address === null ? null : (
        <p class="hint">Another address makes this one stop working; programs have to be told the new one.</p>
      )}
    </Part>
    {address === null ? null : (
      <Part title="What it shows">
        <PostForm action="/calendar/kinds" keys={keys()} label="What the calendar shows">
          {kindWords.map(({ kind, words }) => (
            <CheckField
              key={kind}
              form={fieldsWith('calendar', { [kind]: kinds.includes(kind) })}
              name={kind}
              label={words}
            />
          ))}
          <p>
            <Button weight="main">Save</Button>
          </p>
        </PostForm>
      </Part>
    )}
  </Page>
);
