import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button, ButtonLink } from '../../parts/button.tsx';
import {
  type Choice,
  type FieldProblems,
  type FormKeys,
  InputField,
  PostForm,
  RadioField,
  SelectField,
} from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { LoadCard, type LoadProps } from './load-card.tsx';
import {
  type CautionLine,
  Cautions,
  type HelpProps,
  HelpToFind,
  ProcessCard,
  type ProcessCardProps,
  type SourceLine,
  Sources,
} from './process-card.tsx';
import { type ResultProps, Results } from './results.tsx';
import { Sheet, type SheetProps } from './sheet.tsx';
import { Timeline, type TimelineProps } from './timeline.tsx';

export interface DayTab {
  readonly key: string;
  readonly words: string;
  readonly href: string;
  readonly isCurrent: boolean;
}

export interface SettingProps {
  readonly action: string;
  readonly keys: FormKeys;
  readonly values: {
    readonly by: string;
    readonly time: string;
    readonly people: string;
    readonly burners: string;
  };
  readonly problems: FieldProblems;
  /** A choice of printed schedule for each batch whose table prints alternatives. */
  readonly rows: readonly {
    readonly name: string;
    readonly label: string;
    readonly value: string;
    readonly choices: readonly Choice[];
  }[];
  /** Set while the day is not begun: the form looks ahead, and the other button begins. */
  readonly isAhead: boolean;
}

export interface PrintedSheetLine {
  readonly key: string;
  readonly words: string;
  readonly href: string;
  readonly isVoid: boolean;
}

export interface WaitingLine {
  readonly id: string;
  readonly words: string;
  readonly keys: FormKeys;
}

export interface CanningDayProps {
  readonly title: string;
  readonly summary: string;
  readonly isBegun: boolean;
  readonly cards: readonly ProcessCardProps[];
  readonly help: readonly HelpProps[];
  readonly loads: readonly LoadProps[];
  readonly buyBy: string;
  readonly errands: readonly {
    readonly key: string;
    readonly quantity: string;
    readonly what: string;
    readonly where: string;
  }[];
  readonly setOut: readonly { readonly title: string; readonly lines: readonly string[] }[];
  readonly setting: SettingProps;
  /** Set while a day that was begun can still be taken back. */
  readonly withdraw: { readonly action: string; readonly keys: FormKeys } | null;
  readonly timeline: TimelineProps | null;
  /** Why there is no timeline, or what is done beside it. */
  readonly timelineWords: readonly string[];
  readonly byProducts: readonly string[];
  readonly results: readonly ResultProps[];
  readonly sheet: SheetProps | null;
  readonly sheets: {
    readonly print: { readonly action: string; readonly keys: FormKeys } | null;
    readonly printed: readonly PrintedSheetLine[];
    readonly mark: string | null;
  };
  readonly cautions: readonly CautionLine[];
  readonly sources: readonly SourceLine[];
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
  readonly clockScript: string;
}

/** One canning day: how long here, what to fetch and set out, what to do when, and the clock of each load. */
export const CanningDayPage = (props: CanningDayPageProps) => (
  <Page
    frame={props.frame}
    title="Canning day"
    section="canning"
    about="What to pick, set out and do when on a canning day, and how long each load is processed here."
    wide
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
    <script src={props.clockScript} defer />
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

const Day = ({ day }: { day: CanningDayProps }) => (
  <>
    <p class="page-line">{day.summary}</p>
    {day.sheet === null ? null : <Sheet sheet={day.sheet} />}
    {day.loads.length === 0 ? null : (
      <Part
        title="Loads"
        id="loads"
        line="The clock starts at the full boil, or at pressure after venting; never before."
      >
        <div class="loads">
          {day.loads.map((load) => (
            <LoadCard key={load.key} load={load} />
          ))}
        </div>
      </Part>
    )}
    {day.isBegun ? <Results results={day.results} /> : null}
    <Part
      title="Processed here"
      id="processed"
      line="One published row each, for this food, jar, canner and altitude."
    >
      <div class="process-cards">
        {day.cards.map((card) => (
          <ProcessCard key={card.key} card={card} />
        ))}
      </div>
      <HelpToFind help={day.help} />
    </Part>
    <div class="two-columns">
      <div>
        <Part title="The day" id="timeline" line={day.timeline?.line}>
          {day.timelineWords.map((words) => (
            <p key={words} class="part-words">
              {words}
            </p>
          ))}
          {day.timeline === null ? null : <Timeline timeline={day.timeline} />}
          <Setting setting={day.setting} />
          {day.withdraw === null ? null : (
            <PostForm action={day.withdraw.action} keys={day.withdraw.keys} label="Begun by mistake">
              <p>
                <Button weight="quiet">Begun by mistake: take it back</Button>
              </p>
            </PostForm>
          )}
        </Part>
      </div>
      <div>
        <Errands day={day} />
        <SetOut groups={day.setOut} />
        <LeftOver byProducts={day.byProducts} />
        <Sheets sheets={day.sheets} isBegun={day.isBegun} />
        <Part title="Mind" id="cautions">
          <Cautions cautions={day.cautions} />
          <Sources sources={day.sources} />
        </Part>
      </div>
    </div>
  </>
);

const Errands = ({ day }: { day: CanningDayProps }) => (
  <Part title={day.buyBy} id="pick-and-buy">
    {day.errands.length === 0 ? (
      <EmptyState text="Nothing to fetch for this day." />
    ) : (
      <ul class="errands">
        {day.errands.map((errand) => (
          <li key={errand.key}>
            <span class="errand-quantity stamp">{errand.quantity}</span>
            <span class="errand-what">
              {errand.what} <span class="errand-where">{errand.where}</span>
            </span>
          </li>
        ))}
      </ul>
    )}
  </Part>
);

const SetOut = ({ groups }: { groups: CanningDayProps['setOut'] }) => (
  <Part title="Set out" id="set-out">
    {groups.map(({ title, lines }) => (
      <div key={title} class="set-out">
        <h3>{title}</h3>
        <ul class="bullets">
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
    ))}
  </Part>
);

const LeftOver = ({ byProducts }: { byProducts: readonly string[] }) =>
  byProducts.length === 0 ? null : (
    <Part title="Left over" id="left-over">
      <ul class="bullets">
        {byProducts.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
    </Part>
  );

const Sheets = ({ sheets, isBegun }: { sheets: CanningDayProps['sheets']; isBegun: boolean }) => (
  <Part title="On paper" id="sheets">
    {sheets.mark === null ? null : (
      <p>
        Right now a sheet of this day bears the mark <strong class="sheet-mark">{sheets.mark}</strong>. A
        paper with another mark is void.
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
          : 'Begin the day to print a numbered sheet: then this page can say when it is void.'}
      </p>
    ) : (
      <PostForm action={sheets.print.action} keys={sheets.print.keys} label="Print the sheet">
        <p>
          <Button>Make a sheet to print</Button>
        </p>
      </PostForm>
    )}
  </Part>
);

const counted: readonly Choice[] = [
  { value: 'start', words: 'start at' },
  { value: 'end', words: 'be done by' },
];

const Setting = ({ setting }: { setting: SettingProps }) => {
  const { values, problems } = setting;
  return (
    <PostForm action={setting.action} keys={setting.keys} problems={problems} label="How the day is laid out">
      <div class="form-row">
        <RadioField form="setting" name="by" label="The day should" value={values.by} choices={counted} />
        <InputField
          form="setting"
          name="time"
          label="Time"
          hint="On the 24-hour clock, like 09:30."
          value={values.time}
          width="short"
          problem={problems.time}
        />
      </div>
      <div class="form-row">
        <InputField
          form="setting"
          name="people"
          label="People at work"
          value={values.people}
          inputMode="numeric"
          width="short"
          problem={problems.people}
        />
        <InputField
          form="setting"
          name="burners"
          label="Burners"
          value={values.burners}
          inputMode="numeric"
          width="short"
          problem={problems.burners}
        />
      </div>
      {setting.rows.map(({ name, label, value, choices }) => (
        <SelectField
          key={name}
          form="setting"
          name={name}
          label={label}
          hint="The table prints these; follow one of them whole."
          value={value}
          choices={choices}
        />
      ))}
      <p class="page-actions">
        {setting.isAhead ? (
          <>
            <Button name="ask" value="look">
              Lay the day out again
            </Button>
            <Button weight="main" name="ask" value="begin">
              Begin this canning day
            </Button>
          </>
        ) : (
          <Button name="ask" value="begin">
            Lay the day out again
          </Button>
        )}
      </p>
    </PostForm>
  );
};

const Waiting = ({ waiting }: { waiting: readonly WaitingLine[] }) =>
  waiting.length === 0 ? null : (
    <Part title="Waiting to be used" id="waiting">
      <ul class="plain-list">
        {waiting.map(({ id, words, keys }) => (
          <li key={id}>
            {words}
            <PostForm action={`/waiting/${id}`} keys={keys} class="inline-form" label={words}>
              <Button weight="quiet" name="as" value="used">
                Used up
              </Button>
              <Button weight="quiet" name="as" value="lost">
                Thrown away
              </Button>
            </PostForm>
          </li>
        ))}
      </ul>
    </Part>
  );

const OtherWeeks = ({ weeks }: { weeks: CanningDayPageProps['otherWeeks'] }) => (
  <Part title="Other weeks, other help" id="other-weeks" class="not-on-paper">
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
      <ButtonLink href="/found-unsealed">Found a jar unsealed</ButtonLink>
      <ButtonLink href="/set-aside">Set batches aside</ButtonLink>
      <ButtonLink href="/power-cut">After a power cut</ButtonLink>
    </p>
  </Part>
);
