import { hash, verify } from '@node-rs/argon2';

// Argon2id with 19 MiB, two passes and one lane, the least that the OWASP Password Storage Cheat Sheet asks for (from memory).
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

export const hashPassphrase = (passphrase: string): Promise<string> => hash(passphrase, cost);

let nobodys: Promise<string> | null = null;

/** Whether the passphrase is the one; without an account it takes as long and says no. */
export async function isPassphrase(kept: string | null, passphrase: string): Promise<boolean> {
  nobodys ??= hashPassphrase('nobody has this passphrase');
  const fits = await verify(kept ?? (await nobodys), passphrase);
  return kept !== null && fits;
}
