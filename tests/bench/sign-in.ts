import { buildApp } from '../../server/app.ts';
import { openDatabase } from '../../server/database/database.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { furnish, member } from '../builders/furnished-household.ts';
import { medlarLane, noon } from '../builders/two-households.ts';
import { formOf } from '../builders/visitor.ts';

// Does a name somebody has answer later than one nobody has? Pairs of wrong sign-ins, in an order drawn by turns, on a machine
// that does nothing else. The sign test over the pairs: with no difference the known name is the later one in half of them,
// give or take 1.96 standard deviations of a fair coin.

const pairs = Number(process.env.SIGN_IN_PAIRS ?? 2000);
const db = await openDatabase(':memory:');
await furnish(db, medlarLane, 'medlar', '2026-12-14');
await member(db, medlarLane, { id: 'Ida', role: 'owner' }, noon);
let at = noon;
const app = await buildApp({ db, reference: loadReferenceTables(), now: () => at, requestsPerMinute: 1e9 });
const page = await app.inject('/sign-in');
const form = page.cookies.find(({ name }) => name === 'form')?.value ?? '';
const { values } = formOf(page.body, '/sign-in');

async function millisecondsFor(name: string): Promise<number> {
  // Beyond the window of failures, so that nobody has to wait.
  at += 16 * 60_000;
  const began = process.hrtime.bigint();
  const { statusCode } = await app.inject({
    method: 'POST',
    url: '/sign-in',
    cookies: { form },
    headers: { 'content-type': 'application/x-www-form-urlencoded' },
    payload: new URLSearchParams({ ...values, name, passphrase: 'wet gloves and a kettle' }).toString(),
  });
  if (statusCode !== 422) throw new Error(`expected a refused sign-in; found ${statusCode}`);
  return Number(process.hrtime.bigint() - began) / 1e6;
}

const known: number[] = [];
const unknown: number[] = [];
for (let warm = 0; warm < 20; warm += 1) await millisecondsFor(warm % 2 === 0 ? 'Ida' : 'Odo');
for (let pair = 0; pair < pairs; pair += 1) {
  const knownFirst = pair % 2 === 0;
  if (knownFirst) known.push(await millisecondsFor('Ida'));
  unknown.push(await millisecondsFor('Odo'));
  if (!knownFirst) known.push(await millisecondsFor('Ida'));
}
await app.close();
await db.destroy();

const median = (all: readonly number[]) =>
  all.toSorted((one, other) => one - other)[Math.floor(all.length / 2)] ?? 0;
const later = known.filter((ms, pair) => ms > (unknown[pair] ?? 0)).length;
const share = later / pairs;
const allowed = 1.96 * Math.sqrt(0.25 / pairs);
console.log(
  `${pairs} pairs: median ${median(known).toFixed(2)} ms known, ${median(unknown).toFixed(2)} ms unknown`,
);
console.log(
  `the known name was later in ${(100 * share).toFixed(1)} % of pairs; chance alone gives ${(100 * (0.5 - allowed)).toFixed(1)} to ${(100 * (0.5 + allowed)).toFixed(1)} %`,
);
process.exitCode = Math.abs(share - 0.5) <= allowed ? 0 : 1;
