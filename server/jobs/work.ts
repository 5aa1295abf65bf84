import type { HouseholdId } from '../../shared/ids.ts';
import type { Mailer } from '../mail/mailer.ts';
import { purgeHouseholds } from '../records/household/household-deletion.ts';
import type { Lane } from '../records/job-row.ts';
import { openMailJob } from './mail-job.ts';
import { nightWork } from './night-work.ts';
import { openNightly } from './nightly.ts';
import { planRunners } from './plan-job.ts';
import { openPlanMaker, type PlanMakerParts } from './plan-maker.ts';
import { planRequests } from './plan-requests.ts';
import { repeating } from './repeating.ts';

// All that is done in the background, for servers that serve pages alone.

export interface Work {
  start(): void;
  /** No new work begins; what is under way is left to whoever takes it up next. */
  close(): Promise<void>;
}

export interface WorkParts extends PlanMakerParts {
  /** The place of the database. */
  readonly file: string;
  readonly lanes: readonly Lane[];
  /** So many plans are solved at once. */
  readonly solvers: number;
  /** Who sends letters, and where the pages are; null: nobody does. */
  readonly mail: { readonly mailer: Mailer; readonly address: string } | null;
}

/** How often it is looked for what somebody waits for. */
const lookedForNowMs = 250;
const nightlyLookMs = 10_000;
const lettersEveryMs = 15_000;
const purgeEveryMs = 60 * 60_000;
/** So many households have a plan somebody waits for under way at once; they take turns at the solvers. */
const askedAtOnce = 8;

export function openWork({ file, lanes, solvers, mail, ...parts }: WorkParts): Work {
  const { db, now, onError } = parts;
  const has = (lane: Lane): boolean => lanes.includes(lane);
  const maker = openPlanMaker(parts);
  const requests = planRequests({ db, now });
  const asked = has('now') ? planRunners({ ...parts, maker, answers: true, atOnce: askedAtOnce }) : null;
  const planAgain = (household: HouseholdId): void =>
    void requests.start(household).catch((cause: unknown) => onError?.(cause));
  const nightly = has('night')
    ? openNightly({
        db,
        now,
        onError,
        work: nightWork({ ...parts, file, maker }),
        planAgain,
        onEnd: () => asked?.wake(),
        // One solver stays free for what somebody waits for.
        atOnce: has('now') ? Math.max(1, solvers - 1) : solvers,
      })
    : null;
  const letters = mail !== null && has('soon') ? openMailJob({ ...parts, ...mail }) : null;
  const purging = has('night')
    ? repeating(async () => void (await purgeHouseholds(db, now())), onError)
    : null;

  return {
    start: () => {
      asked?.start(lookedForNowMs);
      nightly?.start(nightlyLookMs);
      void nightly?.run();
      letters?.start(lettersEveryMs);
      purging?.start(purgeEveryMs);
    },
    close: async () => {
      const ends = [asked?.close(), nightly?.close(), letters?.close(), purging?.close()];
      requests.close();
      await maker.close();
      await Promise.all(ends);
    },
  };
}
