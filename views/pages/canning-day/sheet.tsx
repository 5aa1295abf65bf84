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

/** What can be printed of the smaller of the two papers (Letter), mm, with a little to spare. */
const sideMm = 250;

/** The times and the steps under one another; how large the times are, and how high a line of the day is in it, mm. */
const oneSide = [
  { look: 'paper-large', size: 1.4, entryMm: 10 },
  { look: 'paper-large paper-middle', size: 1, entryMm: 5 },
] as const;

/** The times on the front, the steps on the back: how many lines of the day the front holds, and how large the steps are. */
const twoSides = [
  { look: 'paper-two-sides', upTo: 56, stepSize: 1.26 },
  { look: 'paper-two-sides paper-dense', upTo: Number.POSITIVE_INFINITY, stepSize: 1 },
] as const;

/** How high the times are, mm, measured on printed sheets: a batch with its minutes, its loads to write on and its acid at the left, the day at the right. */
const frontMm = (
  { timeline, batches, days, without }: SheetProps,
  { size, entryMm }: { readonly size: number; readonly entryMm: number },
): number =>
  Math.max(
    size *
      batches.reduce(
        (sum, { loads, schedule }) => sum + 50 + 16 * loads.length + (schedule.acid === null ? 0 : 13),
        14,
      ),
    20 + entryMm * timeline.length,
  ) +
  18 * days.length +
  6 * without.length;

/** How high the steps and the safety notes are in their smallest print, mm: two headings, and so many letters on a millimeter. */
const backMm = ({ steps, cautions }: SheetProps): number => {
  const inSteps = steps.reduce((sum, { words, page }) => sum + words.length + page.length + 3, 0);
  const inNotes = cautions.reduce((sum, { text, source }) => sum + text.length + source.length, 0);
  return 10 + (inSteps + inNotes) / 30.5;
};

/** A line of the day is one, a load three, a batch with its time eight. */
const linesOf = ({ timeline, batches, days, without }: SheetProps): number =>
  timeline.length +
  days.length +
  without.length +
  batches.reduce((sum, { loads }) => sum + 8 + 3 * loads.length, 0);

/** The largest print in which the whole day stands on one side; else its steps are on the back. */
const lookOf = (sheet: SheetProps): string =>
  oneSide.find((print) => frontMm(sheet, print) + backMm(sheet) <= sideMm)?.look ??
  twoSides.find(({ upTo, stepSize }) => linesOf(sheet) <= upTo && stepSize * backMm(sheet) <= sideMm)?.look ??
  twoSides[1].look;

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
              {step.blocks ? <strong> Before the clock starts.</strong> : null}{' '}
              <span class="paper-page">{step.page}</span>
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
