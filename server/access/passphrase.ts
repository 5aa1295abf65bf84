import { found, type Outcome, refused } from '../../shared/problems.ts';
import { hashInTurn, verifyInTurn } from './hashing.ts';
import { weakness } from './weak-passphrase.ts';

// Argon2id with 19 MiB, two passes and one lane, the least that the OWASP Password Storage Cheat Sheet asks for (from memory).
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };
/** How everything kept in that way begins. */
const todaysWay = `$argon2id$v=19$m=${cost.memoryCost},t=${cost.timeCost},p=${cost.parallelism}$`;

/** What is kept of a passphrase, made as is usual today. */
export const hashOf = (passphrase: string): Promise<string> => hashInTurn(passphrase, cost);

/** What is kept of a new passphrase; one that is easy to guess is refused. `names` are the person's and the household's. */
export async function hashPassphrase(passphrase: string, names: readonly string[]): Promise<Outcome<string>> {
  const weak = weakness(passphrase, names);
  return weak === null ? found(await hashOf(passphrase)) : refused(weak);
}

/** Whether what is kept of a passphrase was made with another way or cost of hashing than today's. */
export const isMadeOtherwise = (kept: string): boolean => !kept.startsWith(todaysWay);

/** The same work as for a passphrase that is kept; nobody's, and with it no name takes longer than another. */
const nobodys = `${todaysWay}b6PI0pO4IhvHZ77CPO+wKg$iX2tJ3aDbOCFLwR9goPXUevRD+X95d4kcXVMT7VzRiE`;

/** Whether the passphrase is the one; without an account it takes as long and says no. */
export async function isPassphrase(kept: string | null, passphrase: string): Promise<boolean> {
  const fits = await verifyInTurn(kept ?? nobodys, passphrase);
  return kept !== null && fits;
}
