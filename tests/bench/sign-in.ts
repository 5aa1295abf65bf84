import { fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { openDatabase } from '../../server/database/database.ts';
import { furnish, member } from '../builders/furnished-household.ts';
import { medlarLane, noon } from '../builders/two-households.ts';
import { cookieSet, formOf } from '../builders/visitor.ts';
import { type Looks, Onlooker } from './onlooker.ts';
import { ServedFile } from './served-file.ts';

// Two questions about signing in, on a machine that does nothing else.
// `--pairs N`: does a name somebody has answer later than one nobody has? Pairs of wrong sign-ins, in an order drawn by turns. The
// sign test over the pairs: with no difference the known name is the later one in half of them, give or take 1.96 standard
// deviations of a fair coin.
// `--guesses N`: guessers in a process of their own, the server in another, and somebody who looks at their shelf in a third: how much longer do others wait for their shelf while so many guess at once? Less than half as long again.

const { values: told } = parseArgs({
  options: { pairs: { type: 'string', default: '2000' }, guesses: { type: 'string', default: '200' } },
});
/** What the guessers are told. */
export interface Guessing {
  readonly address: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly fields: Readonly<Record<string, string>>;
  readonly guesses: number;
}

const pairs = Number(told.pairs);
const guesses = Number(told.guesses);
const looks = 100;

const folder = mkdtempSync(join(tmpdir(), 'shelfward-sign-in-'));
const file = join(folder, 'shelf.sqlite');
const db = await openDatabase(file);
await furnish(db, medlarLane, 'medlar', '2026-12-14');
const token = await member(db, medlarLane, { id: 'Ida', role: 'owner' }, noon);
await db.destroy();
const server = await ServedFile.start({ file, began: noon, publicAddress: 'https://pantry.example' });
let at = noon;
const page = await server.inject({
  method: 'GET',
  url: '/sign-in',
  headers: { 'x-forwarded-for': '2001:db8::1' },
});
const { values: fields } = formOf(page.body, '/sign-in');
const headers = {
  cookie: `__Host-form=${cookieSet(page, '__Host-form')}`,
  'content-type': 'application/x-www-form-urlencoded',
};

async function millisecondsFor(name: string): Promise<number> {
  // Beyond the window of failures, so that nobody has to wait.
  at += 16 * 60_000;
  await server.setClock(at);
  const began = performance.now();
  const { statusCode } = await server.inject({
    method: 'POST',
    url: '/sign-in',
    headers: { ...headers, 'x-forwarded-for': '2001:db8::1' },
    payload: new URLSearchParams({ ...fields, name, passphrase: 'wet gloves and a kettle' }).toString(),
  });
  if (statusCode !== 422) throw new Error(`expected a refused sign-in; found ${statusCode}`);
  return performance.now() - began;
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
  await server.setClock(noon);
  const look = {
    address: server.address,
    path: '/shelf',
    headers: { 'x-forwarded-for': '2001:db8::1', cookie: `__Host-sign-in=${token}` },
    pauseMs: 20,
  };
  /** What somebody signed in sees of their shelf in so many looks. */
  const seen = async (): Promise<Looks> => {
    const onlooker = await Onlooker.start(look);
    while ((await onlooker.seen()).looks < looks) await pause(100);
    await onlooker.close();
    return onlooker.looks;
  };
  const alone = await seen();
  const guessing: Guessing = { address: server.address, headers, fields, guesses };
  const guessers = fork(
    fileURLToPath(new URL('./guessers-process.ts', import.meta.url)),
    [JSON.stringify(guessing)],
    {
      execArgv: ['--import', 'tsx'],
    },
  );
  await once(guessers, 'message');
  const among = await seen();
  const told = once(guessers, 'message');
  guessers.send('end');
  const [statuses] = (await told) as [Record<string, number>];

  const growth = among.medianMs / alone.medianMs - 1;
  const answered = Object.entries(statuses)
    .map(([status, count]) => `${count} × ${status}`)
    .join(', ');
  console.log(
    `${guesses} guesses at once, from as many networks, for ${looks} looks at the shelf: ${answered}`,
  );
  console.log(
    `others' shelf: median ${alone.medianMs.toFixed(1)} ms alone, ${among.medianMs.toFixed(1)} ms meanwhile, ${(100 * growth).toFixed(0)} % more; slowest ${among.slowestMs.toFixed(0)} ms`,
  );
  if (growth >= 0.5) failed.push('others wait half as long again or more');
}

const { mostMemoryInMb } = await server.seen();
await server.close();
rmSync(folder, { recursive: true, force: true });
console.log(`Serving process: at most ${Math.round(mostMemoryInMb)} MB.`);
for (const what of failed) console.log(`Not held: ${what}`);
process.exitCode = failed.length === 0 ? 0 : 1;
