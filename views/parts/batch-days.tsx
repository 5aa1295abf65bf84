import { StageForm, type StageStep } from './stages.tsx';

/** One thing to do, or done, on a day before or after a canner load. */
export interface BatchDayLine {
  readonly key: string;
  readonly what: string;
  /** `3:00 PM to 9:00 PM`; empty where any time of the day will do. */
  readonly when: string;
  readonly more: readonly string[];
  readonly state: 'done' | 'due' | 'ahead' | 'missed';
  /** The form that writes it down; null where that is not possible now. */
  readonly step: StageStep | null;
  /** Where it is written down instead. */
  readonly href: string | null;
}

export interface BatchDaysProps {
  /** Address of the page, to come back to. */
  readonly from: string;
  /** Loads that cannot be on their day, and why. */
  readonly heldBack: readonly string[];
  readonly days: readonly {
    readonly key: string;
    /** `Fri, Aug 21` */
    readonly title: string;
    readonly isToday: boolean;
    readonly lines: readonly BatchDayLine[];
  }[];
}

/** The days before and after canner loads: what is begun, drained, skimmed or checked on which. */
export const BatchDays = ({ days }: { days: BatchDaysProps }) => (
  <>
    {days.heldBack.map((words) => (
      <p key={words} class="banner banner-problem">
        {words}
      </p>
    ))}
    <ol class="batch-days">
      {days.days.map((day) => (
        <li key={day.key} class="batch-day">
          <p class="batch-day-title">
            {day.title}
            {day.isToday ? <span class="quiet"> today</span> : null}
          </p>
          <ul class="batch-day-lines">
            {day.lines.map((line) => (
              <Line key={line.key} line={line} from={days.from} />
            ))}
          </ul>
        </li>
      ))}
    </ol>
  </>
);

const Line = ({ line, from }: { line: BatchDayLine; from: string }) => (
  <li class={`batch-day-line is-${line.state}`}>
    <p>
      <span class="batch-day-mark" aria-hidden="true">
        {line.state === 'done' ? '☑' : '☐'}
      </span>{' '}
      {line.what}
      {line.when === '' ? null : <span class="stamp"> {line.when}</span>}
    </p>
    {line.more.length === 0 ? null : <p class="quiet">{line.more.join(' · ')}</p>}
    {line.step === null ? null : <StageForm step={line.step} from={from} verb="Done" of={line.what} />}
    {line.href === null ? null : (
      <p class="quiet not-on-paper">
        <a href={line.href}>Write down what was found</a>
      </p>
    )}
  </li>
);
