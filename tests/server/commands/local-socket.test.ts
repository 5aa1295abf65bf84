import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { clearSocket } from '../../../server/commands/local-socket.ts';
import { openDatabase } from '../../../server/database/database.ts';
import { furnish, member } from '../../builders/furnished-household.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import { medlarLane } from '../../builders/two-households.ts';
import { formOf } from '../../builders/visitor.ts';

const root = resolve(import.meta.dirname, '../../..');
const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
const socket = join(folder, 'web');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A process that listens at the socket until it is ended. */
async function listener(): Promise<ReturnType<typeof spawn>> {
  const listening = spawn(process.execPath, [
    '-e',
    `require('node:net').createServer().listen(${JSON.stringify(socket)}, () => console.log('listens'))`,
  ]);
  await once(listening.stdout, 'data');
  return listening;
}

describe('room for a local socket', () => {
  test('is there where nothing is, and is made of what a killed server left behind', async () => {
    worked(await clearSocket(socket));
    const listening = await listener();
    listening.kill('SIGKILL');
    await once(listening, 'exit');
    expect(existsSync(socket)).toBe(true);

    worked(await clearSocket(socket));

    expect(existsSync(socket)).toBe(false);
  });

  test('is not made of a socket at which somebody listens, nor of a file', async () => {
    const server = createServer().listen(socket);
    await once(server, 'listening');
    const file = join(folder, 'a-file');
    writeFileSync(file, 'kept');

    expect(refusalOf(await clearSocket(socket)).message).toContain('Another program listens');
    expect(refusalOf(await clearSocket(file)).message).toContain('is no socket');

    expect([existsSync(socket), existsSync(file)]).toEqual([true, true]);
    server.close();
    await once(server, 'close');
  });
});

interface Answered {
  readonly status: number;
  readonly body: string;
  readonly cookie: string;
}

/** A request as the proxy passes it on. */
function ask(path: string, headers: Record<string, string>, body = ''): Promise<Answered> {
  return new Promise((answered, failed) => {
    const asking = request(
      {
        socketPath: socket,
        path,
        method: body === '' ? 'GET' : 'POST',
        headers: { host: 'pantry.example', ...headers },
      },
      (response) => {
        const parts: Buffer[] = [];
        response.on('data', (part: Buffer) => parts.push(part));
        response.on('end', () =>
          answered({
            status: response.statusCode ?? 0,
            body: Buffer.concat(parts).toString('utf8'),
            cookie: (response.headers['set-cookie'] ?? []).map((one) => one.split(';')[0]).join('; '),
          }),
        );
      },
    );
    asking.on('error', failed);
    asking.end(body);
  });
}

describe('a server at a local socket', () => {
  const file = join(folder, 'medlar-lane.sqlite');
  beforeAll(async () => {
    const db = await openDatabase(file);
    await furnish(db, medlarLane, 'medlar', '2026-12-14');
    await member(db, medlarLane, { id: 'Ida', role: 'owner' }, Date.now());
    await db.destroy();
  });

  test('is for user and group, believes the proxy about addresses, and leaves nothing behind', async () => {
    const serving = spawn(
      process.execPath,
      ['bin/shelfward.mjs', 'serve', '--database', file, '--public-address', 'https://pantry.example'],
      { cwd: root, env: { ...process.env, SHELFWARD_SOCKET: socket }, stdio: ['ignore', 'pipe', 'ignore'] },
    );
    let said = '';
    serving.stdout.setEncoding('utf8').on('data', (text: string) => {
      said += text;
    });
    while (!said.includes('Open https://pantry.example')) await once(serving.stdout, 'data');
    expect(statSync(socket).mode & 0o777).toBe(0o660);
    expect(refusalOf(await clearSocket(socket)).code).toBe('socket-taken');

    const forwarded = { 'x-forwarded-for': '198.51.100.1, 203.0.113.7' };
    const page = await ask('/sign-in', forwarded);
    const { values } = formOf(page.body, '/sign-in');
    const sent = new URLSearchParams({ ...values, name: 'Ida', passphrase: 'wet gloves and a kettle' });
    const answer = await ask(
      '/sign-in',
      { ...forwarded, cookie: page.cookie, 'content-type': 'application/x-www-form-urlencoded' },
      sent.toString(),
    );
    serving.kill('SIGTERM');
    const [exit] = await once(serving, 'exit');

    expect([page.status, answer.status, exit]).toEqual([200, 422, 0]);
    expect(existsSync(socket)).toBe(false);
    const db = await openDatabase(file);
    const events = await db.selectFrom('security_event').select(['kind', 'address']).execute();
    expect(events).toEqual([{ kind: 'sign-in-failed', address: '203.0.113.7' }]);
    await db.destroy();
  });
});
