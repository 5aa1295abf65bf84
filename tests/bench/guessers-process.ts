import type { Guessing } from './sign-in.ts';

// Guessers in a process of their own: what they take of the processor to ask is not the server's to answer for.

const { address, headers, fields, guesses } = JSON.parse(process.argv[2] ?? '{}') as Guessing;
const statuses: Record<string, number> = {};
let network = 2;
let goesOn = true;

/** One wrong sign-in, from a network nobody else guesses from. */
async function guess(name: string): Promise<void> {
  network += 1;
  const answer = await fetch(`${address}/sign-in`, {
    method: 'POST',
    redirect: 'manual',
    headers: {
      ...headers,
      'x-forwarded-for': `2001:db8:${(network >> 16).toString(16)}:${(network & 0xffff).toString(16)}::1`,
    },
    body: new URLSearchParams({ ...fields, name, passphrase: 'wet gloves and a kettle' }).toString(),
  });
  await answer.text();
  statuses[answer.status] = (statuses[answer.status] ?? 0) + 1;
}

for (const end of ['message', 'disconnect'])
  process.on(end, () => {
    goesOn = false;
  });
const all = Array.from({ length: guesses }, async (_, one) => {
  while (goesOn) await guess(`nobody-${one}`);
});
process.send?.('guessing');
await Promise.all(all);
process.send?.(statuses);
process.disconnect?.();
