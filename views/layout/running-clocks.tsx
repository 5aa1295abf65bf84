/** The clock of a canner load, as every page shows it while it runs. */
export interface RunningClock {
  readonly key: string;
  /** `Peach halves, load 2 of 3` */
  readonly title: string;
  /** `11:07 AM` */
  readonly due: string;
  /** Milliseconds still to run; 0 once the time is up. */
  readonly remainingMs: number;
  readonly isDoubted: boolean;
  /** Where its load stands. */
  readonly href: string;
}

/** The clocks that run, at the thumb of every page; on the canning day large enough to be read across the kitchen. */
export const RunningClocks = ({
  clocks,
  large = false,
  beside = false,
}: {
  readonly clocks: readonly RunningClock[];
  readonly large?: boolean;
  /** Set when they travel beside another part of an answer. */
  readonly beside?: boolean;
}) => (
  <aside
    id="clocks"
    class={large ? 'clocks clocks-large' : 'clocks'}
    aria-label="Clocks of the canning day"
    hx-swap-oob={beside ? 'true' : undefined}
  >
    {clocks.map(({ key, title, due, remainingMs, isDoubted, href }) => (
      <a key={key} href={href} class={remainingMs === 0 ? 'clock-run clock-is-up' : 'clock-run'}>
        <span class="clock-left" data-remaining-ms={remainingMs}>
          {remainingMs === 0 ? 'Time is up' : due}
        </span>
        <span class="clock-of">
          {title}
          <span class="quiet">{remainingMs === 0 ? `since ${due}` : `due ${due}`}</span>
          {isDoubted ? <strong>This time is doubted: read why.</strong> : null}
        </span>
      </a>
    ))}
  </aside>
);
