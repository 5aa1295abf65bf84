import { LRUCache } from 'lru-cache';
import type { HouseholdId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { Household } from '../../src/household/household.ts';
import { linkPages, linkTo } from '../access/links.ts';
import { type Clock, momentIn } from '../clock.ts';
import type { Database } from '../database/database.ts';
import { lettersDue } from '../mail/letters-due.ts';
import type { Mailer } from '../mail/mailer.ts';
import { findHousehold } from '../queries/household/household.ts';
import {
  addressToConfirm,
  householdsWithMail,
  type Letter,
  letterById,
  lettersOfADay,
  mailWish,
  mostTrialsADay,
  type WithMail,
} from '../queries/notices/letters.ts';
import {
  aboutConfirming,
  askLetter,
  isToFormerAddress,
  waitingAskLetter,
} from '../records/notices/address-letters.ts';
import { letterSent, writeLetter } from '../records/notices/letters.ts';
import { notSentElsewhere, secretFor } from '../records/notices/mail-confirmation.ts';
import { doDueJobs, type JobRule } from './job-table.ts';
import { type Repeating, repeating } from './repeating.ts';

export interface MailJobParts {
  readonly db: Database;
  readonly reference: ReferenceTables;
  readonly now: Clock;
  readonly mailer: Mailer;
  /** Where the pages are. */
  readonly address: string;
  /** Told of what went wrong in our own code. */
  readonly onError?: ((cause: unknown) => void) | undefined;
}

const minute = 60_000;
/** A household of which nothing changed is looked at again after so long: an hour or a day may have begun, or a notice. */
const lookedAgainMs = 5 * minute;
/** So many households are remembered as looked at. */
const mostRemembered = 50_000;

/** Tried later and later over two days; seven tries in all. */
const letterRule: JobRule = {
  kinds: ['letter'],
  lanes: ['soon'],
  waitsMs: [5, 15, 60, 240, 720, 1440].map((minutes) => minutes * minute),
  failureWords: (cause) => (cause instanceof Error ? cause.message : String(cause)).slice(0, 300),
};

/**
 * Letters of every household: written when due, each with a job that sends it until the mail server takes it. Whether one is due hangs
 * on the hour where the household lives and on the notices of this moment, so that it cannot be noted ahead as a job; it is looked for
 * again and again, at once where anything changed, and else every five minutes.
 */
export function openMailJob(parts: MailJobParts): Repeating {
  const lookedAt = new LRUCache<HouseholdId, { readonly mark: string; readonly at: number }>({
    max: mostRemembered,
  });
  const mayBeDue = ({ id, mark, asks }: WithMail): boolean => {
    const last = lookedAt.get(id);
    const since = parts.now() - (last?.at ?? 0);
    return asks || last?.mark !== mark || since < 0 || since >= lookedAgainMs;
  };
  const letters = repeating(async (goesOn) => {
    for (const one of (await householdsWithMail(parts.db)).filter(mayBeDue)) {
      const { id, mark } = one;
      try {
        const at = parts.now();
        const household = await findHousehold(parts.db, id);
        if (household !== null) await writeDue(parts, household);
        lookedAt.set(id, { mark, at });
      } catch (cause) {
        parts.onError?.(cause);
      }
    }
    await doDueJobs({
      db: parts.db,
      now: parts.now,
      rule: letterRule,
      work: () => (subject) => send(parts, subject),
      goesOn,
    });
  }, parts.onError);
  return {
    ...letters,
    close: async () => {
      await letters.close();
      parts.mailer.close();
    },
  };
}

async function writeDue({ db, reference, now, address }: MailJobParts, household: Household): Promise<void> {
  const at = now();
  const moment = momentIn(household.timeZone, () => at);
  const asked = await addressToConfirm(db, household.id);
  if (asked !== null)
    await writeLetter(
      db,
      household.id,
      waitingAskLetter(asked.id, asked.address),
      moment,
      async (trx) => (await lettersOfADay(trx, household.id, 'confirm', at)) < mostTrialsADay,
    );
  for (const letter of await lettersDue({ db, reference, household, at, address }))
    await writeLetter(db, household.id, letter, moment);
}

/** A letter that has gone or is no longer there asks for nothing. */
async function send({ db, mailer, now, address }: MailJobParts, subject: string): Promise<void> {
  const [householdId = '', letterId = ''] = subject.split(' ');
  const household = await findHousehold(db, householdId);
  const letter = household === null ? null : await letterById(db, household.id, letterId);
  if (!household || !letter || letter.sentAt !== null) return;
  const ready = letter.about.startsWith(aboutConfirming)
    ? await withLink(db, household, letter, { address, now: now() })
    : await toConfirmedAddress(db, household, letter);
  await mailer.send(ready);
  await letterSent(db, household.id, letter, now());
}

/** The letter with its link; the secret of a letter that is tried again is another. */
async function withLink(
  db: Database,
  household: Household,
  letter: Letter,
  { address, now }: { readonly address: string; readonly now: number },
): Promise<Letter> {
  const asked = { id: letter.about.slice(aboutConfirming.length), address: letter.recipient };
  const secret = await secretFor(db, household.id, asked, now);
  if (secret === null) throw new ShelfwardError('letter-not-asked', notSentElsewhere);
  return { ...letter, ...askLetter(household, linkTo(address, linkPages.mailAddress, secret)) };
}

/** A letter goes nowhere but to the address that was confirmed; the farewell to the last one aside. */
async function toConfirmedAddress(db: Database, household: Household, letter: Letter): Promise<Letter> {
  if (isToFormerAddress(letter.about)) return letter;
  const wish = await mailWish(db, household.id);
  if (wish?.isConfirmed !== true || wish.address !== letter.recipient)
    throw new ShelfwardError(
      'letter-not-confirmed',
      wish?.address === letter.recipient ? 'Not sent yet: the address is not confirmed.' : notSentElsewhere,
    );
  return letter;
}
