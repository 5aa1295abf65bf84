import type { Outcome, Problem } from '../../shared/problems.ts';
import { readForm } from '../../shared/schemas/form-fields.ts';
import type { Take } from '../../shared/schemas/take.ts';
import { type TakeOutcome, type WaitingTake, waitingTakeForm } from '../../shared/schemas/waiting-take.ts';
import { keyReused } from './once.ts';
import type { Recording } from './record.ts';
import { type TakeAnswer, take } from './take.ts';

export const takenAs: Readonly<Record<TakeOutcome, Pick<Take, 'kind' | 'reason'>>> = {
  'took-one': { kind: 'taken', reason: null },
  taken: { kind: 'taken', reason: null },
  'given-away': { kind: 'given away', reason: null },
  'not-to-taste': { kind: 'discarded', reason: 'taste' },
  unsealed: { kind: 'discarded', reason: 'not-sealed' },
};

/** What became of one take that had waited. */
export interface DeliveredTake {
  readonly key: string;
  /** `counted`: in the ledger. `conflict`: the book has none, kept until settled. `refused`: stays on the device. */
  readonly state: 'counted' | 'conflict' | 'refused';
  readonly message: string;
}

/**
 * Takes that waited on a device, in the order they were done there. Each counts once for its key, however often and in
 * whatever order deliveries come; one that was sent before and whose answer was lost is known by its key as well. A take
 * of what the book has none of becomes a conflict, never a loss.
 */
export async function deliverTakes(
  recording: Omit<Recording, 'key'>,
  takes: readonly ({ readonly key: string } & Readonly<Record<string, unknown>>)[],
): Promise<readonly DeliveredTake[]> {
  const read = takes.map((sent) => ({ key: sent.key, form: readForm(waitingTakeForm, sent) }));
  const inOrder = read.toSorted(
    (one, other) => orderOf(one.form) - orderOf(other.form) || (one.key < other.key ? -1 : 1),
  );
  const delivered: DeliveredTake[] = [];
  for (const { key, form } of inOrder) {
    const outcome = form.ok ? await deliver(recording, form.value) : form;
    delivered.push({ key, ...stateOf(outcome) });
  }
  return delivered;
}

const orderOf = (form: Outcome<WaitingTake>): number => (form.ok ? form.value.deviceAt : 0);

async function deliver(
  recording: Omit<Recording, 'key'>,
  { key, itemId, lotId, units, outcome, occurredOn }: WaitingTake,
): Promise<Outcome<TakeAnswer>> {
  const request: Take = {
    itemId,
    lotId,
    jarKind: null,
    units,
    ...takenAs[outcome],
    occurredOn,
    late: true,
  };
  const late = await take({ ...recording, key }, request);
  if (late.ok || !late.problems.some(({ code }) => code === keyReused)) return late;
  // The form itself arrived before, and only its answer was lost.
  return take({ ...recording, key }, { ...request, late: false });
}

function stateOf(outcome: Outcome<TakeAnswer>): Pick<DeliveredTake, 'state' | 'message'> {
  if (!outcome.ok) return { state: 'refused', message: messageIn(outcome.problems) };
  return outcome.value.conflictUnits > 0
    ? { state: 'conflict', message: 'The book has none left; kept until somebody settles it.' }
    : { state: 'counted', message: '' };
}

const messageIn = (problems: readonly Problem[]): string => problems.map(({ message }) => message).join(' ');
