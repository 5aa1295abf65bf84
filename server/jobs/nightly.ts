import { DateTime, IANAZone } from 'luxon';
import type { HouseholdId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Clock } from '../clock.ts';
import type { Database, Writing } from '../database/database.ts';
import { faultWords } from '../faults.ts';
import { firstHousehold, notNotedFor, zonesLivedIn } from '../queries/household/household.ts';
import { wholeFile } from '../queries/notices/jobs.ts';
import { keepClock } from '../records/household/clock.ts';
import { jobRow } from '../records/job-row.ts';
import { doDueJobs, type JobKind, type JobRule, type JobWork } from './job-table.ts';
import { type Repeating, repeating } from './repeating.ts';

/** Kinds of the night's work. */
export type NightKind = Exclude<JobKind, 'letter' | 'plan' | 'question'>;

export interface NightlyParts {
  readonly db: Database;
  readonly now: Clock;
  readonly work: Readonly<Record<NightKind, JobWork>>;
  readonly onError?: ((cause: unknown) => void) | undefined;
  /** Asked for a plan where one was made for days that have not come. */
  readonly planAgain?: (household: HouseholdId) => void;
  /** Told that a job has ended: what waited for its household may go on. */
  readonly onEnd?: () => void;
  /** So many households are looked after at once; one unless said. */
  readonly atOnce?: number;
}

/** For the log, and for whoever starts the program. */
export const clockWords = (aheadUntil: number): string =>
  `The clock of this machine went back: rows of the file are dated up to ${new Date(aheadUntil).toISOString()}. They were set right; look whether the clock is right now.`;

/** What could not be done at night, in words for whose night it was. */
export class NightFailure extends ShelfwardError {
  /** Whether a second try may go better. */
  readonly triedAgain: boolean;
  constructor(words: string, { triedAgain, ...options }: ErrorOptions & { readonly triedAgain: boolean }) {
    super('night-failed', words, options);
    this.triedAgain = triedAgain;
  }
}

/** Half past two where the household lives. */
const nightHour = { hour: 2, minute: 30 } as const;
const everyNight = {
  waitsMs: [60_000, 10 * 60_000, 60 * 60_000],
  failureWords: (cause: unknown) =>
    cause instanceof NightFailure
      ? cause.message
      : faultWords(cause, 'It stopped because of a fault in the program.'),
  isFinal: (cause: unknown) => cause instanceof NightFailure && !cause.triedAgain,
} as const;
const backupRule: JobRule = { ...everyNight, kinds: ['backup'], lanes: ['soon'] };
const householdRule: JobRule = { ...everyNight, kinds: ['notices', 'replan'], lanes: ['night'] };
const keptMs = 90 * 24 * 60 * 60_000;

/**
 * The night's work from a table: each job once for its day, taken under a lease, tried again when it fails. The backup
 * goes first and has a round of its own, so that nothing a household holds, and no plan that takes long, keeps it from
 * being made; each household is looked after by itself.
 */
export function openNightly({
  db,
  now,
  work,
  onError,
  planAgain,
  onEnd,
  atOnce = 1,
}: NightlyParts): Repeating {
  const round = (rule: JobRule, howMany: number, note: () => Promise<void>) =>
    repeating(async (goesOn) => {
      await note();
      const due = { db, now, rule, work: (kind: JobKind) => work[kind as NightKind], goesOn, onEnd };
      await Promise.all(Array.from({ length: howMany }, () => doDueJobs({ ...due, onFailure: onError })));
    }, onError);
  /** A clock that was ahead is noticed before anything is done by it; no fault of that keeps the night from its work. */
  const look = repeating(async () => {
    const { aheadUntil, toPlan } = await keepClock(db, now());
    if (aheadUntil === null) return;
    onError?.(new ShelfwardError('clock-went-back', clockWords(aheadUntil)));
    for (const household of toPlan) planAgain?.(household);
  }, onError);
  const backups = round(backupRule, 1, () => noteBackup(db, now(), onError));
  const ofHouseholds = round(householdRule, atOnce, () => noteHouseholds(db, now(), onError));
  return {
    run: async () => {
      await look.run();
      await backups.run();
      await ofHouseholds.run();
    },
    start: (everyMs) => {
      look.start(everyMs);
      backups.start(everyMs);
      ofHouseholds.start(everyMs);
    },
    close: async () => {
      await Promise.all([look.close(), backups.close(), ofHouseholds.close()]);
    },
  };
}

/** The night that is past, in the household's zone: several nights missed ask for the last one only. */
function lastNight(at: number, zone: string): { readonly dueAt: number; readonly forOn: CalendarDate } {
  // A zone that is none is no reason to go without: the night is then that of Greenwich, and the work itself says what is wrong.
  const here = DateTime.fromMillis(at, { zone: IANAZone.isValidZone(zone) ? zone : 'UTC' });
  const tonight = here.set({ ...nightHour, second: 0, millisecond: 0 });
  const night = tonight <= here ? tonight : tonight.minus({ days: 1 });
  return { dueAt: night.toMillis(), forOn: night.toFormat('yyyy-MM-dd') as CalendarDate };
}

interface Wanted {
  readonly kind: NightKind;
  /** Whose; null for what is done for the whole file. */
  readonly household: HouseholdId | null;
  readonly zone: string;
}

async function note(db: Database | Writing, at: number, { kind, household, zone }: Wanted): Promise<void> {
  const { dueAt, forOn } = lastNight(at, zone);
  await db
    .insertInto('job')
    .values(
      jobRow(
        {
          kind,
          subject: household ?? wholeFile,
          household,
          lane: kind === 'backup' ? 'soon' : 'night',
          forOn,
          dueAt,
        },
        at,
      ),
    )
    // Whichever key says that it is noted already: of a queue that is spread, each names the bucket too.
    .onConflict((same) => same.doNothing())
    .execute();
}

/** The file is backed up in the night of the household it was made for, whatever the others hold. */
async function noteBackup(db: Database, at: number, onError: NightlyParts['onError']): Promise<void> {
  const first = await firstHousehold(db).catch((cause: unknown) => {
    onError?.(cause);
    return null;
  });
  await note(db, at, { kind: 'backup', household: null, zone: first?.timeZone ?? 'UTC' });
}

/** So many nights are written to disk at once. */
const notedAtOnce = 200;

/**
 * Each household's night is written down once, when it is past where the household lives; many at a time, and each by itself
 * where that cannot be, so that what one household holds keeps no other from its night.
 */
async function noteHouseholds(db: Database, at: number, onError: NightlyParts['onError']): Promise<void> {
  for (const zone of await zonesLivedIn(db)) {
    const { forOn } = lastNight(at, zone);
    const noteAll = (households: readonly HouseholdId[]) =>
      db.transaction().execute(async (trx) => {
        for (const household of households) {
          await note(trx, at, { kind: 'notices', household, zone });
          await note(trx, at, { kind: 'replan', household, zone });
          await trx
            .updateTable('household')
            .set({ noted_night: forOn })
            .where('id', '=', household)
            .execute();
        }
      });
    const waiting = await notNotedFor(db, zone, forOn);
    for (let from = 0; from < waiting.length; from += notedAtOnce) {
      const some = waiting.slice(from, from + notedAtOnce);
      const isNoted = await noteAll(some).then(
        () => true,
        () => false,
      );
      if (isNoted) continue;
      for (const household of some)
        try {
          await noteAll([household]);
        } catch (cause) {
          onError?.(
            new ShelfwardError('night-not-noted', `the night of household ${household} was not noted`, {
              cause,
            }),
          );
        }
    }
  }
  await sweep(db, at);
}

/** What was done long ago says nothing any more, and a key that old is not sent again. */
async function sweep(db: Database, at: number): Promise<void> {
  await db
    .deleteFrom('job')
    .where('due_at', '<', at - keptMs)
    .where((row) => row.or([row('kind', '!=', 'letter'), row('finished_at', 'is not', null)]))
    .execute();
  await db
    .deleteFrom('idempotency')
    .where('recorded_at', '<', at - keptMs)
    .execute();
}
