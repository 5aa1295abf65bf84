import { parseArgs } from 'node:util';
import { buildApp } from '../../server/app.ts';
import { openDatabase } from '../../server/database/database.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { furnish, member } from '../builders/furnished-household.ts';
import { medlarLane, noon } from '../builders/two-households.ts';
import { formOf } from '../builders/visitor.ts';

// Two questions about signing in, on a machine that does nothing else.
// `--pairs N`: does a name somebody has answer later than one nobody has? Pairs of wrong sign-ins, in an order drawn by turns. The
// sign test over the pairs: with no difference the known name is the later one in half of them, give or take 1.96 standard
// deviations of a fair coin.
// `--guesses N`: how much longer do others wait for their shelf while so many guess at once? Less than half as long again.

const { values: told } = parseArgs({
  options: { pairs: { type: 'string', default: '2000' }, guesses: { type: 'string', default: '200' } },
});
const pairs = Number(told.pairs);
const guesses = Number(told.guesses);
const looks = 100;

const db = await openDatabase(':memory:');
await furnish(db, medlarLane, 'medlar', '2026-12-14');
const token = await member(db, medlarLane, { id: 'Ida', role: 'owner' }, noon);
let at = noon;
const app = await buildApp({
  db,
  reference: loadReferenceTables(),
  now: () => at,
  requestsPerMinute: 1e9,
  publicAddress: 'https://pantry.example',
});
const address = await app.listen({ port: 0, host: '127.0.0.1' });
const from = (network: number) => ({
  'x-forwarded-for': `2001:db8:${(network >> 16).toString(16)}:${(network & 0xffff).toString(16)}::1`,
});
const page = await app.inject('/sign-in');
const form = page.cookies.find(({ name }) => name === '__Host-form')?.value ?? '';
const { values } = formOf(page.body, '/sign-in');

/** One wrong sign-in; how it was answered, and after how many milliseconds. */
async function guess(name: string, network = 1): Promise<{ status: number; ms: number }> {
  const began = performance.now();
  const answer = await fetch(`${address}/sign-in`, {
    method: 'POST',
    redirect: 'manual',
    headers: {
      ...from(network),
      cookie: `__Host-form=${form}`,
      'content-type': 'application/x-www-form-urlencoded',
    },
    body: new URLSearchParams({ ...values, name, passphrase: 'wet gloves and a kettle' }).toString(),
  });
  await answer.text();
  return { status: answer.status, ms: performance.now() - began };
}

async function millisecondsFor(name: string): Promise<number> {
  // Beyond the window of failures, so that nobody has to wait.
  at += 16 * 60_000;
  const { status, ms } = await guess(name);
  if (status !== 422) throw new Error(`expected a refused sign-in; found ${status}`);
  return ms;
}

const median = (all: readonly number[]) =>
  all.toSorted((one, other) => one - other)[Math.floor(all.length / 2)] ?? 0;
const failed: string[] = [];

if (pairs > 0) {
  const known: number[] = [];
  const unknown: number[] = [];
  for (let warm = 0; warm < 20; warm += 1) await millisecondsFor(warm % 2 === 0 ? 'Ida' : 'Odo');
  for (let pair = 0; pair < pairs; pair += 1) {
    const knownFirst = pair % 2 === 0;
    if (knownFirst) known.push(await millisecondsFor('Ida'));
    unknown.push(await millisecondsFor('Odo'));
    if (!knownFirst) known.push(await millisecondsFor('Ida'));
  }
  const share = known.filter((ms, pair) => ms > (unknown[pair] ?? 0)).length / pairs;
  const allowed = 1.96 * Math.sqrt(0.25 / pairs);
  const percent = (part: number) => (100 * part).toFixed(1);
  console.log(
    `${pairs} pairs: median ${median(known).toFixed(2)} ms for a known name, ${median(unknown).toFixed(2)} ms for an unknown one`,
  );
  console.log(
    `the known name was later in ${percent(share)} % of pairs; chance alone gives ${percent(0.5 - allowed)} to ${percent(0.5 + allowed)} %`,
  );
  if (Math.abs(share - 0.5) > allowed) failed.push('known and unknown names do not take the same time');
}

if (guesses > 0) {
  at = noon;
  const look = async (): Promise<number> => {
    const began = performance.now();
    const answer = await fetch(`${address}/shelf`, {
      redirect: 'manual',
      headers: { ...from(1), cookie: `__Host-sign-in=${token}` },
    });
    await answer.text();
    if (answer.status !== 200) throw new Error(`expected the shelf; found ${answer.status}`);
    return performance.now() - began;
  };
  const seen = async (times: number): Promise<number[]> => {
    const all: number[] = [];
    for (let time = 0; time < times; time += 1) all.push(await look());
    return all;
  };
  await seen(20);
  const alone = await seen(looks);

  let goesOn = true;
  let network = 2;
  const statuses = new Map<number, number>();
  const guessers = Array.from({ length: guesses }, async (_, one) => {
    while (goesOn) {
      network += 1;
      const { status } = await guess(`nobody-${one}`, network);
      statuses.set(status, (statuses.get(status) ?? 0) + 1);
    }
  });
  const among = await seen(looks);
  goesOn = false;
  await Promise.all(guessers);

  const growth = median(among) / median(alone) - 1;
  const told = [...statuses].map(([status, count]) => `${count} × ${status}`).join(', ');
  console.log(`${guesses} guesses at once, from as many networks, for ${looks} looks at the shelf: ${told}`);
  console.log(
    `others' shelf: median ${median(alone).toFixed(1)} ms alone, ${median(among).toFixed(1)} ms meanwhile, ${(100 * growth).toFixed(0)} % more; worst ${Math.max(...among).toFixed(0)} ms`,
  );
  if (growth >= 0.5) failed.push('others wait half as long again or more');
}

await app.close();
await db.destroy();
for (const what of failed) console.log(`Not held: ${what}`);
process.exitCode = failed.length === 0 ? 0 : 1;
