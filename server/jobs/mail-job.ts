import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { Clock } from '../clock.ts';
import type { Database } from '../database/database.ts';
import { lettersDue } from '../mail/letters-due.ts';
import type { Mailer } from '../mail/mailer.ts';
import { type Household, households } from '../queries/household.ts';
import { lettersToSend } from '../queries/letters.ts';
import { letterFailed, letterSent, writeLetter } from '../records/letters.ts';
import { type Repeating, repeating } from './repeating.ts';

export interface MailJobParts {
  readonly db: Database;
  readonly reference: ReferenceTables;
  readonly now: Clock;
  readonly mailer: Mailer;
  /** Where the pages are. */
  readonly address: string;
  /** Told of what went wrong in our own code. */
  readonly onError?: (cause: unknown) => void;
}

/** Letters of every household: written when due, sent until the mail server takes them. */
export function openMailJob(parts: MailJobParts): Repeating {
  const letters = repeating(async () => {
    for (const household of await households(parts.db)) {
      try {
        await ofHousehold(parts, household);
      } catch (cause) {
        parts.onError?.(cause);
      }
    }
  }, parts.onError);
  return {
    ...letters,
    close: async () => {
      await letters.close();
      parts.mailer.close();
    },
  };
}

async function ofHousehold(
  { db, reference, now, mailer, address }: MailJobParts,
  household: Household,
): Promise<void> {
  for (const letter of await lettersDue({ db, reference, household, at: now(), address }))
    await writeLetter(db, household.id, letter, now());
  for (const letter of await lettersToSend(db, household.id, now())) {
    try {
      await mailer.send(letter);
      await letterSent(db, household.id, letter, now());
    } catch (cause) {
      const failure = cause instanceof Error ? cause.message : String(cause);
      await letterFailed(db, household.id, letter, failure, now());
    }
  }
}
