import type { FastifyReply, FastifyRequest } from 'fastify';
import type { z } from 'zod';
import type { ItemId, LotId } from '../../../shared/ids.ts';
import type { Problem } from '../../../shared/problems.ts';
import type { Take } from '../../../shared/schemas/shelf/take.ts';
import { asDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { JarEventKind } from '../../../src/household/ledger.ts';
import { unitsStanding } from '../../../src/household/lot.ts';
import { memberNamed } from '../../access/members.ts';
import { type ProblemAnswer, sendProblem } from '../../interface/problem-answers.ts';
import { type takeAnswer, takeSent, type undoneAnswer } from '../../interface/shapes.ts';
import { itemById } from '../../queries/household/items.ts';
import { ledgerOf } from '../../queries/shelf/ledger.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { keyReused } from '../../records/once.ts';
import type { Recording } from '../../records/record.ts';
import { take } from '../../records/shelf/take.ts';
import { undo } from '../../records/shelf/undo.ts';
import { takenAs } from '../../records/shelf/waiting-takes.ts';
import { exactly } from './answers.ts';

/** What a write came to: its answer, or why nothing was written. */
export type Written<T> =
  | { readonly ok: true; readonly answer: T }
  | { readonly ok: false; readonly problem: ProblemAnswer };

export const sendWritten = <T>(
  reply: FastifyReply,
  written: Written<T>,
  send: (answer: T) => FastifyReply,
): FastifyReply => (written.ok ? send(written.answer) : sendProblem(reply, written.problem));

const refuse = (problem: ProblemAnswer) => ({ ok: false, problem }) as const;

/** The shelf’s own words, each beside the field that was sent. */
const fieldOf: Readonly<Record<string, string>> = { itemId: 'item', lotId: 'batch', occurredOn: 'on' };

const statusOf = ({ code }: Problem): number => {
  if (code === 'entry-unknown') return 404;
  return code === keyReused || code === 'already-undone' || code === 'already-used' ? 409 : 422;
};

/** Where a record speaks of its page, a thing is told what it can do itself. */
const toThings: Readonly<Record<string, string>> = {
  [keyReused]:
    'A write needs a key of its own; this key was sent before with other contents, and that was recorded. Send this one with a new Idempotency-Key.',
  'item-unknown': 'The household keeps nothing under the id that was sent. Read the ids from the shelf.',
  'entry-unknown':
    'We need a take of this household; none has the name that was sent. Send what the take was answered with.',
};

function notDone(problems: readonly Problem[]): Written<never> {
  const [first] = problems;
  const told = problems.map((problem) => {
    const name = String(problem.path.at(-1) ?? '');
    return { field: fieldOf[name] ?? name, detail: toThings[problem.code] ?? problem.message };
  });
  return refuse({
    status: first === undefined ? 422 : statusOf(first),
    code: first?.code ?? 'not-done',
    detail: told.map(({ detail }) => detail).join(' '),
    errors: told.filter(({ field }) => field !== '' && field !== 'key' && field !== 'entryId'),
  });
}

/** The write as this thing’s: its keys are its own, so that two things that count alike do not meet. */
function recordingOf(request: FastifyRequest, who: string | undefined): Written<Recording> {
  const { thing, server, household, today } = request;
  const sent = request.headers['idempotency-key'];
  const key = typeof sent === 'string' ? sent : '';
  if (!/^[\x21-\x7e]{8,100}$/.test(key))
    return refuse({
      status: 400,
      code: 'key-missing',
      detail: `A write needs an Idempotency-Key of 8 to 100 letters, digits and signs, so that one that is sent again counts once; ${key === '' ? 'none was sent' : 'what was sent is another'}. Send a random one with each take, and the same one when you repeat it.`,
    });
  const name = thing?.name ?? '';
  return {
    ok: true,
    answer: {
      db: server.db,
      householdId: household.id,
      at: server.now(),
      today,
      key: `thing ${thing?.id ?? ''} ${key}`,
      by: who === undefined ? name : `${who} (${name})`,
    },
  };
}

export async function takeHere(request: FastifyRequest): Promise<Written<z.input<typeof takeAnswer>>> {
  const read = takeSent.safeParse(request.body);
  if (!read.success)
    return refuse({
      status: 422,
      code: 'not-fitting',
      detail: read.error.issues.map(({ message }) => message).join(' '),
      errors: read.error.issues.flatMap(({ path, message }) =>
        path.length === 0 ? [] : [{ field: path.join('.'), detail: message }],
      ),
    });
  const { item, batch, units, outcome, on, forPromise, who } = read.data;
  const recording = recordingOf(request, who);
  if (!recording.ok) return recording;
  let left: Left | null = null;
  const asked: Take = {
    itemId: item as ItemId,
    lotId: batch === undefined ? null : (batch as LotId),
    jarKind: null,
    units,
    ...takenAs[outcome],
    occurredOn: on === undefined ? null : asDate(on),
    late: false,
    forPromise,
    takenBy: await whoSaid(request, who),
  };
  const taken = await take(recording.answer, asked, (own, unitsLeft) => {
    left = leftIn(own, unitsLeft);
  });
  if (!taken.ok) return notDone(taken.problems);
  const { entryId, itemId, from, conflictUnits } = taken.value;
  return {
    ok: true,
    answer: {
      take: entryId,
      ...(left ?? (await leftOf(request, itemId))),
      from: from.map((part) => ({
        batch: part.lotId,
        code: part.batchCode,
        jar: part.jarKind,
        bestUntil: part.bestQualityUntil,
        units: exactly(part.units),
      })),
      notOnShelf: exactly(conflictUnits),
    },
  };
}

/** A member by the name that was sent, however it is spelled; of anybody else the name as it was sent. */
async function whoSaid(
  { server, household }: FastifyRequest,
  who: string | undefined,
): Promise<string | null> {
  const member = await memberNamed(server.db, household.id, who ?? '');
  return member.ok ? member.value : (who ?? null);
}

const takesOf: ReadonlySet<JarEventKind> = new Set(['taken', 'given away', 'discarded', 'seal failed']);

/** Only what left the shelf is taken back here: a thing undoes no batch, count or purchase. */
export async function undoHere(
  request: FastifyRequest,
  entryId: string,
): Promise<Written<z.input<typeof undoneAnswer>>> {
  const recording = recordingOf(request, undefined);
  if (!recording.ok) return recording;
  const events = await ledgerOf(request.server.db, request.household.id, { entryId });
  if (events.some(({ kind }) => !takesOf.has(kind)) || events.length === 0)
    return notDone([{ code: 'entry-unknown', path: ['entryId'], message: '' }]);
  const undone = await undo(recording.answer, entryId);
  if (!undone.ok) return notDone(undone.problems);
  const { itemId, units } = undone.value;
  return {
    ok: true,
    answer: { undone: entryId, ...(await leftOf(request, itemId)), units: exactly(units) },
  };
}

interface Left {
  readonly item: { readonly id: string; readonly name: string };
  readonly unitsLeft: number;
}

const leftIn = ({ id, name }: Item, units: number): Left => ({
  item: { id, name },
  unitsLeft: exactly(units),
});

/** What is left of an item; of one that is gone, nothing. */
async function leftOf({ server: { db }, household }: FastifyRequest, itemId: string): Promise<Left> {
  const [item, lots] = await Promise.all([
    itemById(db, household.id, itemId),
    lotsOf(db, household.id, { itemId }),
  ]);
  return item === null
    ? { item: { id: itemId, name: itemId }, unitsLeft: 0 }
    : leftIn(item, unitsStanding(item, lots));
}
