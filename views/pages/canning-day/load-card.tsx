import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { elementId } from '../../words/element-id.ts';

export interface StepProps {
  readonly key: string;
  readonly text: string;
  readonly ticked: boolean;
  /** The clock does not start before this is ticked. */
  readonly blocks: boolean;
}

export interface ClockProps {
  readonly state: 'not-started' | 'running' | 'interrupted' | 'done';
  /** `Started 10:42 AM, due 11:07 AM.` */
  readonly words: string;
  /** `11:07 AM`; null while it does not run. */
  readonly due: string | null;
  /** Milliseconds still to run, for the countdown; null while it does not run. */
  readonly remainingMs: number | null;
  /** Words of the button that starts it: `Full boil: start the clock`. */
  readonly start: string | null;
  readonly interruptions: readonly { readonly value: string; readonly words: string }[];
  /** Why the time is doubted and what to do; null while the clocks agree. */
  readonly doubt: string | null;
}

export interface LoadProps {
  readonly key: string;
  /** `Peach halves, load 2 of 3` */
  readonly title: string;
  /** `7 quarts in Blue kettle` */
  readonly line: string;
  readonly minutes: string;
  readonly pressure: string | null;
  readonly steps: readonly StepProps[];
  readonly clock: ClockProps;
  readonly keys: FormKeys;
  readonly ticksTo: string;
  readonly clockTo: string;
  /** Unfolded: it is the load at hand. The others show their clock in one line. */
  readonly isOpen: boolean;
  /** What stands in the way of the last thing asked; null when nothing does. */
  readonly problem: string | null;
}

const clockWords: Readonly<Record<ClockProps['state'], string>> = {
  'not-started': 'not started',
  running: 'running',
  interrupted: 'back to zero',
  done: 'time is up',
};

/** One canner load: its clock, large, and the checklist that keeps its ticks. */
export const LoadCard = ({ load }: { load: LoadProps }) => {
  const id = elementId('load', load.key);
  return (
    <article id={id} class={`load load-${load.clock.state}`} aria-labelledby={`${id}-title`}>
      <details class="load-fold" open={load.isOpen}>
        <summary class="load-head">
          <h3 id={`${id}-title`}>{load.title}</h3>
          <span class="quiet load-line">{load.line}</span>
          <span class="load-short">{`${load.minutes}${load.pressure === null ? '' : ` at ${load.pressure}`}, ${clockWords[load.clock.state]}`}</span>
        </summary>
        {load.problem === null ? null : (
          <p class="banner banner-problem" role="alert">
            {load.problem}
          </p>
        )}
        <LoadClock load={load} id={id} />
        <PostForm
          action={load.ticksTo}
          keys={load.keys}
          replaces={`#${id}`}
          class="ticks"
          label={`Checklist, ${load.title}`}
        >
          <ol>
            {load.steps.map((step) => (
              <li key={step.key}>
                <button
                  type="submit"
                  class="tick"
                  name="tick"
                  value={`${step.key}:${step.ticked ? 'no' : 'yes'}`}
                  aria-pressed={step.ticked}
                >
                  <span class="tick-box" aria-hidden="true">
                    {step.ticked ? '✓' : ''}
                  </span>
                  <span class="tick-words">
                    {step.text}
                    {step.blocks && !step.ticked ? <strong> Before the clock may start.</strong> : null}
                  </span>
                </button>
              </li>
            ))}
          </ol>
        </PostForm>
      </details>
    </article>
  );
};

const LoadClock = ({ load, id }: { load: LoadProps; id: string }) => {
  const { clock } = load;
  return (
    <div class="load-clock">
      <p class="clock-time">
        <span class="clock-minutes">{load.minutes}</span>
        {load.pressure === null ? null : <span class="clock-pressure">{` at ${load.pressure}`}</span>}
      </p>
      <p class="clock-state" role="status">
        <span class="heard-only">{`Clock: ${clockWords[clock.state]}. `}</span>
        {clock.due === null || clock.remainingMs === null ? null : (
          <span class="clock-due">
            {clock.state === 'done' ? 'Time is up since ' : 'Due '}
            <strong>{clock.due}</strong>
          </span>
        )}
        {clock.state === 'running' ? (
          <span class="clock-left" data-remaining-ms={clock.remainingMs ?? undefined} />
        ) : null}
        <span class="clock-words">{clock.words}</span>
      </p>
      {clock.doubt === null ? null : (
        <p class="banner banner-problem clock-doubt" role="alert">
          {clock.doubt}
        </p>
      )}
      {clock.start === null && clock.interruptions.length === 0 ? null : (
        <PostForm
          action={load.clockTo}
          keys={load.keys}
          replaces={`#${id}`}
          class="clock-actions"
          label={`Clock, ${load.title}`}
        >
          {clock.start === null ? null : (
            <Button weight="main" big name="event" value="started">
              {clock.start}
            </Button>
          )}
          {clock.interruptions.map(({ value, words }) => (
            <Button key={value} name="event" value={value}>
              {words}
            </Button>
          ))}
        </PostForm>
      )}
    </div>
  );
};
