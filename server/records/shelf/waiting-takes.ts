import type { Outcome, Problem } from '../../../shared/problems.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { jarComesBack, type Take } from '../../../shared/schemas/shelf/take.ts';
import {
  type TakeOutcome,
  type WaitingTake,
  waitingTakeForm,
} from '../../../shared/schemas/shelf/waiting-take.ts';
import { keyReused } from '../once.ts';
import type { Recording } from '../record.ts';
import { type TakeAnswer, take } from './take.ts';

export const takenAs: Readonly<Record<TakeOutcome, Pick<Take, 'kind' | 'reason'>>> = {
  'took-one': { kind: 'taken', reason: null },
  taken: { kind: 'taken', reason: null },
  'given-away': { kind: 'given away', reason: null },
  'given-jar-back': { kind: 'given away', reason: jarComesBack },
  'not-to-taste': { kind: 'discarded', reason: 'taste' },
  broken: { kind: 'discarded', reason: 'broken' },
  unsealed: { kind: 'discarded', reason: 'not-sealed' },
  'sorted-out': { kind: 'discarded', reason: 'sorted-out' },
};

/** What became of one take that had waited. */
export interface DeliveredTake {
  readonly key: string;
  /**
   * `counted`: in the ledger. `conflict`: the book has none, kept until settled. `refused`: stays on the device.
   * `elsewhere`: of another household or person than is open now; stays on the device until theirs is.
   */
  readonly state: 'counted' | 'conflict' | 'refused' | 'elsewhere';
  readonly message: string;
}

/**
 * Takes that waited on a device, in the order they were done there. Each counts once for its key, however often and in
 * whatever order deliveries come; one that was sent before and whose answer was lost is known by its key as well. A take
 * of what the book has none of becomes a conflict, never a loss. What was taken on the page of another household, or by
 * somebody else who was signed in, is not written down here: `person` is who is signed in now, empty for nobody.
 */
export async function deliverTakes(
  recording: Omit<Recording, 'key'>,
  takes: readonly ({ readonly key: string } & Readonly<Record<string, unknown>>)[],
  person: string,
): Promise<readonly DeliveredTake[]> {
  const read = takes.map((sent) => ({ key: sent.key, form: readForm(waitingTakeForm, sent) }));
  const inOrder = read.toSorted(
    (one, other) => orderOf(one.form) - orderOf(other.form) || (one.key < other.key ? -1 : 1),
  );
  const delivered: DeliveredTake[] = [];
  for (const { key, form } of inOrder) {
    if (form.ok && !isOf(form.value, recording.householdId, person)) {
      delivered.push({ key, state: 'elsewhere', message: 'Of another household or person.' });
      continue;
    }
    const outcome = form.ok ? await deliver(recording, form.value) : form;
    delivered.push({ key, ...stateOf(outcome) });
  }
  return delivered;
}

/** What was taken while nobody was signed in belongs to whoever opens the household. */
const isOf = (take: WaitingTake, householdId: string, person: string): boolean =>
  take.household === householdId && (take.person === '' || take.person === person);

const orderOf = (form: Outcome<WaitingTake>): number => (form.ok ? form.value.deviceAt : 0);

async function deliver(
  recording: Omit<Recording, 'key'>,
  { key, person, itemId, lotId, units, outcome, occurredOn, forPromise, who }: WaitingTake,
): Promise<Outcome<TakeAnswer>> {
  const by = person === '' ? null : (recording.by ?? null);
  const request: Take = {
    itemId,
    lotId,
    jarKind: null,
    units,
    ...takenAs[outcome],
    occurredOn,
    late: true,
    forPromise,
    takenBy: who === '' ? by : who,
  };
  const late = await take({ ...recording, key, by }, request);
  if (late.ok || !late.problems.some(({ code }) => code === keyReused)) return late;
  // The form itself arrived before, and only its answer was lost.
  return take({ ...recording, key, by }, { ...request, late: false });
}

function stateOf(outcome: Outcome<TakeAnswer>): Pick<DeliveredTake, 'state' | 'message'> {
  if (!outcome.ok) return { state: 'refused', message: messageIn(outcome.problems) };
  const { conflictUnits, promisedUnits } = outcome.value;
  if (conflictUnits === 0 && promisedUnits > 0)
    return { state: 'counted', message: 'It was kept back for a promise, which is that much short now.' };
  return conflictUnits > 0
    ? { state: 'conflict', message: 'The book has none left; kept until somebody settles it.' }
    : { state: 'counted', message: '' };
}

const messageIn = (problems: readonly Problem[]): string => problems.map(({ message }) => message).join(' ');
