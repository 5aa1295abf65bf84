import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { resolve } from 'node:path';
import { validate } from 'dockerfile-utils';
import { describe, expect, test } from 'vitest';

const root = resolve(import.meta.dirname, '../../..');
const text = readFileSync(resolve(root, 'Containerfile'), 'utf8');
const [, final = ''] = text.split(/^FROM .*-slim$/m);

describe('the container', () => {
  test('has a file in which the linter finds nothing', () => {
    expect(validate(text)).toEqual([]);
    // The linter does find what is amiss.
    expect(validate(text.replace('USER node', 'USR node')).length).toBeGreaterThan(0);
  });

  test('copies what is there, and all that a package holds', () => {
    const copied = [...text.matchAll(/^COPY (?!--from)(.+) \S+$/gm)].flatMap(([, paths = '']) =>
      paths.split(' '),
    );
    expect(copied.length).toBeGreaterThan(10);
    expect(copied.filter((path) => !existsSync(resolve(root, path)))).toEqual([]);

    const { files } = JSON.parse(readFileSync(resolve(root, 'package.json'), 'utf8')) as { files: string[] };
    const inFinal = [...final.matchAll(/^COPY (?:--from=build )?(.+) \S+$/gm)].flatMap(([, paths = '']) =>
      paths.split(' ').map((path) => path.replace('/program/', '')),
    );
    expect(files.map((path) => path.replace(/\/$/, '')).filter((path) => !inFinal.includes(path))).toEqual(
      [],
    );
  });

  test('runs as a user who is not root, with all it keeps in one place', () => {
    expect(final).toContain('USER node');
    expect(final.match(/^VOLUME .*$/gm)).toEqual(['VOLUME ["/pantry"]']);
    expect(text).toContain('SHELFWARD_DATABASE=/pantry/shelfward.sqlite');
  });

  test.each([
    [200, 0],
    [503, 1],
  ])('is healthy when it is ready: an answer of %i ends its look with %i', async (status, exit) => {
    const server = createServer(({ url }, answer) => {
      answer.writeHead(url === '/ready' ? status : 404).end();
    }).listen(0, '127.0.0.1');
    await once(server, 'listening');
    expect(await look(String((server.address() as AddressInfo).port))).toBe(exit);
    server.close();
  });

  test('is not healthy while nothing answers', async () => {
    expect(await look('1')).toBe(1);
  });
});

/** What the look at its health ends with. */
async function look(port: string): Promise<number> {
  const looking = spawn(process.execPath, ['bin/is-ready.mjs'], {
    cwd: root,
    env: { ...process.env, SHELFWARD_PORT: port, SHELFWARD_SOCKET: '' },
  });
  const [exit] = await once(looking, 'exit');
  return exit;
}
