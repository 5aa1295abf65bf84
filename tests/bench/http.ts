import { parseArgs } from 'node:util';
import Fastify from 'fastify';
import { SQLiteStatements } from '../../server/database/sqlite.ts';
import { openDemo } from '../browser/demo.ts';
import { pagesOfDemo } from '../browser/pages-of-demo.ts';
import { formOf } from '../builders/visitor.ts';

// npm run -s bench:http -- [--looks 15]
// What each page of the demo costs, against a bare server that sends the same bytes from memory: CPU milliseconds of this process,
// the middle one of several looks; again for the first look after a jar was taken; and how many statements one look asks.

const { values: options } = parseArgs({ options: { looks: { type: 'string', default: '15' } } });
const looks = Number(options.looks);

let statements = 0;
const prepare = SQLiteStatements.prototype.prepare;
SQLiteStatements.prototype.prepare = function (this: SQLiteStatements, statement: string) {
  statements += 1;
  return prepare.call(this, statement);
};

const demo = await openDemo();
const bare = Fastify();
const pages = new Map<string, string>();
bare.get('/*', (request, reply) => reply.type('text/html; charset=utf-8').send(pages.get(request.url)));

const spent = async (look: () => Promise<unknown>): Promise<number> => {
  const before = process.cpuUsage();
  await look();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
};
const middle = (numbers: readonly number[]): number =>
  numbers.toSorted((one, other) => one - other)[Math.floor(numbers.length / 2)] ?? 0;
const middleOf = async (look: () => Promise<unknown>): Promise<number> => {
  const all: number[] = [];
  for (let at = 0; at < looks; at += 1) all.push(await spent(look));
  return middle(all);
};

/** A browser of its own: pages are looked at in one, jars are taken in another. */
const browser = () => {
  const cookies = new Map<string, string>();
  return async (asked: { readonly url: string; readonly payload?: string }) => {
    const answer = await demo.app.inject({
      ...asked,
      method: asked.payload === undefined ? 'GET' : 'POST',
      headers: {
        cookie: [...cookies].map(([name, value]) => `${name}=${value}`).join('; '),
        ...(asked.payload === undefined ? {} : { 'content-type': 'application/x-www-form-urlencoded' }),
      },
    });
    for (const { name, value } of answer.cookies) cookies.set(name, value);
    return answer;
  };
};
const look = browser();
const taker = browser();
const open = (url: string) => look({ url });

const send = async (body: string, form: string, more: Readonly<Record<string, string>>): Promise<void> => {
  const { action, values } = formOf(body, form);
  const payload = new URLSearchParams({ ...values, ...more }).toString();
  const { statusCode } = await taker({ url: action, payload });
  if (statusCode !== 303) throw new Error(`expected ${action} to be answered by 303; found ${statusCode}`);
};

/** One jar is taken as the form of the shelf has it. */
const takeOne = async (): Promise<void> => {
  const { body } = await taker({ url: '/shelf' });
  const [, form] = body.match(/action="(\/shelf\/[^"]+\/takes)"/) ?? [];
  if (form === undefined) throw new Error('expected a jar to take on /shelf; found none');
  await send(body, form, { outcome: 'took-one' });
};
/** The last one is put back: jars taken for every page would empty the shelf. */
const putBack = async (): Promise<void> =>
  send((await taker({ url: '/shelf' })).body, '/shelf/reversals', {});

// What a server costs that has been asked for a while: the first pages of a process also pay for code that is still to be compiled.
for (const { path } of pagesOfDemo) {
  await takeOne();
  await open(path);
  await putBack();
}

console.log(`${'page'.padEnd(26)}  bytes    bare    warm  ratio  after a take  statements`);
const warmOf: number[] = [];
for (const { name, path } of pagesOfDemo) {
  const { body, statusCode } = await open(path);
  if (statusCode !== 200) continue;
  pages.set(path, body);
  statements = 0;
  await open(path);
  const asked = statements;
  const warm = await middleOf(() => open(path));
  const own = await middleOf(() => bare.inject({ method: 'GET', url: path }));
  const after: number[] = [];
  for (let at = 0; at < 3; at += 1) {
    await takeOne();
    after.push(await spent(() => open(path)));
    await putBack();
  }
  warmOf.push(warm);
  console.log(
    [
      name.padEnd(26),
      String(Buffer.byteLength(body)).padStart(7),
      own.toFixed(2).padStart(8),
      warm.toFixed(1).padStart(8),
      (warm / own).toFixed(0).padStart(7),
      middle(after).toFixed(1).padStart(14),
      String(asked).padStart(12),
    ].join(''),
  );
}
console.log(`middle of all pages: ${middle(warmOf).toFixed(1)} ms warm`);
await bare.close();
await demo.close();
