import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';

/** What somebody saw who looks at one page again and again while others work. */
export interface Looks {
  readonly looks: number;
  /** Answers that were not the page, by status. */
  readonly others: Readonly<Record<string, number>>;
  /** From asking to the whole answer, ms as they passed. */
  readonly medianMs: number;
  readonly slowestMs: number;
}

export interface Look {
  readonly address: string;
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  /** Between an answer and the next look. */
  readonly pauseMs: number;
}

/** Somebody in a process of their own: nobody else's work is measured as waiting. */
export class Onlooker {
  readonly #child: ChildProcess;
  #looks: Looks = { looks: 0, others: {}, medianMs: 0, slowestMs: 0 };

  private constructor(child: ChildProcess) {
    this.#child = child;
  }

  static async start(look: Look): Promise<Onlooker> {
    const child = fork(
      fileURLToPath(new URL('./onlooker-process.ts', import.meta.url)),
      [JSON.stringify(look)],
      {
        execArgv: ['--import', 'tsx'],
      },
    );
    // The first looks warm both up and are not told.
    await once(child, 'message');
    return new Onlooker(child);
  }

  /** What was seen so far. */
  async seen(): Promise<Looks> {
    const told = once(this.#child, 'message');
    this.#child.send('seen');
    const [looks] = (await told) as [Looks];
    this.#looks = looks;
    return looks;
  }

  /** What was seen when it was last asked, or closed. */
  get looks(): Looks {
    return this.#looks;
  }

  async close(): Promise<void> {
    await this.seen();
    const ended = once(this.#child, 'exit');
    this.#child.send('end');
    await ended;
  }
}
