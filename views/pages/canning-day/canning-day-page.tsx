import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { ButtonLink } from '../../parts/button.tsx';
import { EmptyState, FoldedPart } from '../../parts/part.tsx';
import { type CanningDayProps, Day } from './day.tsx';
import { type HelpProps, HelpToFind } from './process-card.tsx';
import { Waiting, type WaitingLine } from './waiting.tsx';

export interface DayTab {
  readonly key: string;
  readonly words: string;
  readonly href: string;
  readonly isCurrent: boolean;
}

export interface CanningDayPageProps {
  readonly frame: Frame;
  readonly week: string;
  readonly empty: {
    readonly text: string;
    readonly action: { readonly words: string; readonly href: string };
  } | null;
  readonly help: readonly HelpProps[];
  readonly days: readonly DayTab[];
  readonly day: CanningDayProps | null;
  readonly unchecked: readonly { readonly href: string; readonly words: string }[];
  readonly waiting: readonly WaitingLine[];
  readonly otherWeeks: readonly { readonly href: string; readonly week: string; readonly what: string }[];
}

/** One canning day: how long here, what to fetch and set out, what to do when, and the clock of each load. */
export const CanningDayPage = (props: CanningDayPageProps) => (
  <Page
    frame={props.frame}
    title="Canning day"
    section="canning"
    about="What to pick, set out and do when on a canning day, and how long each load is processed here."
    wide
    largeClocks
    moreCss={props.frame.assets.canningCss}
  >
    <p class="page-kicker">{props.week}</p>
    <h1 class="page-title">{props.day?.title ?? 'Canning day'}</h1>
    {props.days.length > 1 ? <DayTabs days={props.days} /> : null}
    {props.empty === null ? null : <EmptyState text={props.empty.text} action={props.empty.action} />}
    {props.unchecked.map(({ href, words }) => (
      <p key={href} class="banner">
        <a href={href}>{words}</a>
      </p>
    ))}
    <HelpToFind help={props.help} />
    {props.day === null ? null : <Day day={props.day} />}
    <Waiting waiting={props.waiting} />
    <OtherWeeks weeks={props.otherWeeks} />
  </Page>
);

const DayTabs = ({ days }: { days: readonly DayTab[] }) => (
  <nav class="day-tabs" aria-label="Canning days of this week">
    <ul>
      {days.map(({ key, words, href, isCurrent }) => (
        <li key={key}>
          <a href={href} aria-current={isCurrent ? 'page' : undefined}>
            {words}
          </a>
        </li>
      ))}
    </ul>
  </nav>
);

const OtherWeeks = ({ weeks }: { weeks: CanningDayPageProps['otherWeeks'] }) => (
  <FoldedPart
    title="Other weeks, other help"
    id="other-weeks"
    line="Processing times, something wrong with a jar"
  >
    {weeks.length === 0 ? null : (
      <ul class="plain-list">
        {weeks.map(({ href, week, what }) => (
          <li key={href}>
            <a href={href}>{week}</a> <span class="quiet">{what}</span>
          </li>
        ))}
      </ul>
    )}
    <p class="page-actions">
      <ButtonLink href="/process-times">Look up a processing time</ButtonLink>
      <ButtonLink href="/safety">Something wrong with a jar?</ButtonLink>
    </p>
  </FoldedPart>
);
