import { availableParallelism } from 'node:os';
import { setTimeout as pause } from 'node:timers/promises';
import { hash, verify } from '@node-rs/argon2';
import fastq from 'fastq';
import { ShelfwardError } from '../../shared/problems.ts';

/** Hashing is slow on purpose: so many go on at once, leaving a processor to everybody else, and so many wait. */
export const hashingLimits = {
  atOnce: Math.max(1, Math.min(2, availableParallelism() - 1)),
  waiting: 20,
} as const;

/** By then the passphrases that wait have been looked at. */
export const retryAfterS = 5;

/** Thrown when more passphrases wait to be looked at than a household has people for. */
export class TooManyPassphrases extends ShelfwardError {
  constructor() {
    super('passphrases-waiting', `expected at most ${hashingLimits.waiting} passphrases to wait`);
  }
}

interface Waiting {
  readonly work: () => Promise<string | boolean>;
  readonly answer: (given: string | boolean) => void;
}

/**
 * After one look so many times its length passes before the next begins, while more wait: pages need the processor, too, and what
 * follows a look, its record on the disk and its answer, takes as long again. A household's few wait a moment; a line as long as
 * may be is not of a household, and each in it costs everybody else something.
 */
const restsPerLook = (waiting: number): number => 2 + waiting / 2;

const queue = fastq.promise<unknown, Waiting, void>(async ({ work, answer }) => {
  const began = performance.now();
  answer(await work());
  const waiting = queue.length();
  if (waiting > 0) await pause(restsPerLook(waiting) * (performance.now() - began));
}, hashingLimits.atOnce);

/** Whether one more passphrase may wait its turn. */
export const hashingHasRoom = (): boolean => queue.length() < hashingLimits.waiting;

async function inTurn<T extends string | boolean>(work: () => Promise<T>): Promise<T> {
  if (!hashingHasRoom()) throw new TooManyPassphrases();
  return new Promise<T>((answer, fail) => {
    // What cannot be looked at is told to whoever asked; the next one is looked at all the same.
    queue.push({ work, answer: (given) => answer(given as T) }).catch(fail);
  });
}

export const hashInTurn = (passphrase: string, cost: Parameters<typeof hash>[1]): Promise<string> =>
  inTurn(() => hash(passphrase, cost));

export const verifyInTurn = (kept: string, passphrase: string): Promise<boolean> =>
  inTurn(() => verify(kept, passphrase));
