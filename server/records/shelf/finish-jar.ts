import { isOrAre } from '../../../shared/counting.ts';
import { dateWords } from '../../../shared/date-words.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import type { FinishedJar } from '../../../shared/schemas/shelf/finished-jar.ts';
import { openJarsOf } from '../../queries/shelf/open-jars.ts';
import { type Recording, record, refuse } from '../record.ts';
import { addJarEvents, newEntryId } from './jar-events.ts';

/**
 * An open jar is empty, or what was left of it is thrown away. Nothing leaves the shelf by it: the jar left when it was
 * taken. Each finished jar is an event of its own with the day it was opened on, so that it is told from the others.
 */
export const finishJar = (
  recording: Recording,
  request: FinishedJar,
): Promise<Outcome<{ readonly entryId: string; readonly itemId: ItemId }>> =>
  record(
    recording,
    'finish jar',
    request,
    async (recorder) => {
      const { trx, householdId, today } = recorder;
      const standing = await openJarsOf(trx, householdId, today);
      const open = standing.find(
        ({ lotId, openedOn }) => lotId === request.lotId && openedOn === request.openedOn,
      );
      if (!open || open.jars < request.jars)
        return refuse(
          'jar-not-open',
          'jars',
          `Of the batch “${open?.batchCode ?? request.lotId}” from ${dateWords(request.openedOn)}, ${open?.jars ?? 0} ${isOrAre(open?.jars ?? 0)} open, not ${request.jars}. Load the page again to see what is open.`,
        );
      const entryId = newEntryId();
      await addJarEvents(
        recorder,
        Array.from({ length: request.jars }, () => ({
          entryId,
          lotId: request.lotId,
          kind: 'finished' as const,
          units: 0,
          reason: request.openedOn,
          occurredOn: today,
        })),
      );
      return found({ entryId, itemId: open.itemId });
    },
    'no facts',
  );
