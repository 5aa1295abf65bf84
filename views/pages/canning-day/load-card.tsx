import { type RunningClock, RunningClocks } from '../../layout/running-clocks.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { elementId } from '../../words/element-id.ts';

/** What is done up to the start of the clock, while it runs, and once the time is up. */
type StepPhase = 'before' | 'during' | 'after';

export interface StepProps {
  readonly key: string;
  readonly text: string;
  readonly ticked: boolean;
  /** The clock does not start before this is ticked. */
  readonly blocks: boolean;
  readonly phase: StepPhase;
}

export interface ClockProps {
  readonly state: 'not-started' | 'running' | 'interrupted' | 'done';
  /** `Started 10:42 AM, due 11:07 AM.` */
  readonly words: string;
  /** `11:07 AM`; null while it does not run. */
  readonly due: string | null;
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

/** How many of the next steps stand in sight; all others are one tap away. */
const stepsInSight = 3;

const phaseNow: Readonly<Record<ClockProps['state'], StepPhase>> = {
  'not-started': 'before',
  interrupted: 'before',
  running: 'during',
  done: 'after',
};

/** One canner load: the next steps, its clock at its place among them, and behind a tap the whole checklist. */
export const LoadCard = ({ load, isAnswer = false }: { load: LoadProps; isAnswer?: boolean }) => {
  const id = elementId('load', load.key);
  const phase = phaseNow[load.clock.state];
  const open = load.steps.filter((step) => step.phase === phase && !step.ticked);
  const next = open.slice(0, stepsInSight);
  const rest = load.steps.filter((step) => !next.includes(step));
  const done = load.steps.filter(({ ticked }) => ticked).length;
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
        <p class="clock-time">
          <span class="clock-minutes">{load.minutes}</span>
          {load.pressure === null ? null : <span class="clock-pressure">{` at ${load.pressure}`}</span>}
        </p>
        <ClockState clock={load.clock} />
        {next.length === 0 ? null : (
          <Ticks load={load} steps={next} label="Next steps" id={id} isAnswer={isAnswer} />
        )}
        <ClockButtons load={load} id={id} isNext={next.length === 0} />
        <details class="steps-more">
          <summary>{`The whole checklist: ${done} of ${load.steps.length} steps done`}</summary>
          <Ticks load={load} steps={rest} label="Checklist" id={id} />
        </details>
      </details>
    </article>
  );
};

/** What a tick or a tap on the clock is answered with: the load, and the clocks that every page shows. */
export const LoadAnswer = ({ load, clocks }: { load: LoadProps; clocks: readonly RunningClock[] }) => (
  <>
    <LoadCard load={load} isAnswer />
    <RunningClocks clocks={clocks} large beside />
  </>
);

const Ticks = ({
  load,
  steps,
  label,
  id,
  isAnswer = false,
}: {
  load: LoadProps;
  steps: readonly StepProps[];
  label: string;
  id: string;
  isAnswer?: boolean;
}) => (
  <PostForm
    action={load.ticksTo}
    keys={load.keys}
    replaces={`#${id}`}
    class="ticks"
    label={`${label}, ${load.title}`}
  >
    <ol>
      {steps.map((step, at) => (
        <li key={step.key}>
          <button
            type="submit"
            class="tick"
            name="tick"
            value={`${step.key}:${step.ticked ? 'no' : 'yes'}`}
            aria-pressed={step.ticked}
            autofocus={isAnswer && at === 0}
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
);

const ClockState = ({ clock }: { clock: ClockProps }) => (
  <>
    <p class="clock-state" role="status">
      <span class="heard-only">{`Clock: ${clockWords[clock.state]}. `}</span>
      {clock.due === null ? null : (
        <span class="clock-due">
          {clock.state === 'done' ? 'Time is up since ' : 'Due '}
          <strong>{clock.due}</strong>
        </span>
      )}
      <span class="clock-words">{clock.words}</span>
    </p>
    {clock.doubt === null ? null : (
      <p class="banner banner-problem clock-doubt" role="alert">
        {clock.doubt}
      </p>
    )}
  </>
);

const ClockButtons = ({ load, id, isNext }: { load: LoadProps; id: string; isNext: boolean }) => {
  const { clock } = load;
  if (clock.start === null && clock.interruptions.length === 0) return null;
  return (
    <PostForm
      action={load.clockTo}
      keys={load.keys}
      replaces={`#${id}`}
      class="clock-actions"
      label={`Clock, ${load.title}`}
    >
      {clock.start === null ? null : (
        <Button weight={isNext ? 'main' : 'plain'} big name="event" value="started">
          {clock.start}
        </Button>
      )}
      {clock.interruptions.map(({ value, words }) => (
        <Button key={value} name="event" value={value}>
          {words}
        </Button>
      ))}
    </PostForm>
  );
};
