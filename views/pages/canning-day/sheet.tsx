import { type CautionLine, Cautions, type ScheduleProps } from './process-card.tsx';

export interface SheetBatch {
  readonly key: string;
  readonly name: string;
  readonly line: string;
  readonly schedule: ScheduleProps;
  /** One line a load, with a box to tick for each jar's acid. */
  readonly loads: readonly { readonly key: string; readonly name: string; readonly jars: number }[];
}

export interface SheetProps {
  /** `Saturday, August 22, 2026` */
  readonly title: string;
  readonly household: string;
  /** `Sheet 3`; null on a copy without a number. */
  readonly number: string | null;
  /** `7f2a-91c0`: the same only while altitude, canners, gauges and schedules are. */
  readonly mark: string;
  readonly batches: readonly SheetBatch[];
  /** Batches of the day that this sheet gives no time for, and why. */
  readonly without: readonly string[];
  /** What is done on other days for these loads: soaked, drained, seals checked. */
  readonly days: readonly string[];
  readonly timeline: readonly { readonly key: string; readonly at: string; readonly what: string }[];
  /** Every step of a load, in order; all of them on the paper. */
  readonly steps: readonly {
    readonly key: string;
    readonly words: string;
    readonly page: string;
    readonly blocks: boolean;
  }[];
  readonly cautions: readonly CautionLine[];
}

/** How much one side holds in each print, in lines of the day; a longer day has its steps on the back. */
const prints = [
  { upTo: 24, look: 'paper-large' },
  { upTo: 36, look: 'paper-large paper-middle' },
  { upTo: 56, look: 'paper-two-sides' },
  { upTo: Number.POSITIVE_INFINITY, look: 'paper-two-sides paper-dense' },
] as const;

/** A line of the day is one, a load three, a batch with its time eight. */
const linesOf = ({ timeline, batches, days, without }: SheetProps): number =>
  timeline.length +
  days.length +
  without.length +
  batches.reduce((sum, { loads }) => sum + 8 + 3 * loads.length, 0);

const lookOf = (sheet: SheetProps): string =>
  prints.find(({ upTo }) => linesOf(sheet) <= upTo)?.look ?? prints[0].look;

/** The canning-day sheet: black ink on both sides of one paper, to be written on. */
export const Sheet = ({ sheet }: { sheet: SheetProps }) => (
  <article class={`paper-sheet ${lookOf(sheet)}`} aria-label="Canning-day sheet">
    <div class="paper-front">
      <header class="paper-head">
        <h2>{sheet.title}</h2>
        <p>
          {[sheet.household, sheet.number, `mark ${sheet.mark}`]
            .filter((words) => words !== null)
            .join(' · ')}
        </p>
      </header>
      <div class="paper-batches">
        {sheet.batches.map((batch) => (
          <section key={batch.key} class="paper-batch">
            <h3>{batch.name}</h3>
            <p class="paper-line">{batch.line}</p>
            <p class="paper-time">
              <span class="paper-minutes">{batch.schedule.minutes}</span> minutes
              {batch.schedule.pressure === null ? null : (
                <>
                  {' at '}
                  <span class="paper-minutes">{batch.schedule.pressure}</span>
                </>
              )}
            </p>
            <p>{batch.schedule.how}</p>
            <p class="paper-facts">
              {batch.schedule.facts.map(({ name, value }) => `${name}: ${value}`).join('. ')}.
            </p>
            {batch.schedule.acid === null ? null : (
              <p>
                <strong>Into every jar first: </strong>
                {batch.schedule.acid}.
              </p>
            )}
            <ul class="paper-loads">
              {batch.loads.map((load) => (
                <li key={load.key}>
                  {load.name}, {load.jars} jars:
                  {batch.schedule.acid === null ? null : (
                    <span class="paper-boxes">{` acid ${'☐'.repeat(load.jars)}`}</span>
                  )}
                  <span class="paper-blank">
                    {['started', 'due', 'again'].map((what) => (
                      <span key={what}>{what}</span>
                    ))}
                  </span>
                </li>
              ))}
            </ul>
            <p class="paper-source">{batch.schedule.source}</p>
          </section>
        ))}
      </div>
      {sheet.without.map((words) => (
        <p key={words} class="paper-without">
          {words}
        </p>
      ))}
      {sheet.days.length === 0 ? null : (
        <section class="paper-days">
          <h3>Before and after this day</h3>
          <ul class="plain-list">
            {sheet.days.map((words) => (
              <li key={words}>☐ {words}</li>
            ))}
          </ul>
        </section>
      )}
      <section class="paper-day">
        <h3>When</h3>
        <ul class="paper-when">
          {sheet.timeline.map(({ key, at, what }) => (
            <li key={key}>
              <span class="paper-at">{at}</span> {what}
            </li>
          ))}
        </ul>
      </section>
    </div>
    <div class="paper-back">
      <section class="paper-each-load">
        <h3>Each load, step by step</h3>
        <ol class="paper-steps">
          {sheet.steps.map((step) => (
            <li key={step.key} class="paper-step">
              ☐ {step.words}
              {step.blocks ? <strong> Before the clock starts.</strong> : null}
              <span class="paper-page">{` ${step.page}`}</span>
            </li>
          ))}
        </ol>
      </section>
      <section>
        <h3>Safety notes</h3>
        <Cautions cautions={sheet.cautions} />
      </section>
    </div>
  </article>
);
