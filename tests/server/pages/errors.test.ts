import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { openDatabase } from '../../../server/database/database.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { type QuinceYardPages, quinceYardPages } from '../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const asForm = { 'content-type': 'application/x-www-form-urlencoded' };

describe('when there is no page', () => {
  test('an unknown address is 404 with a way on', async () => {
    const answer = await pages.visitor.open('/attic');

    expect(answer.status).toBe(404);
    expect(wordsOf(answer.body)).toContain('There is no page at this address');
    expect(answer.body).toContain('href="/"');
  });

  test('10 MB of form are refused with 413, and nothing is kept', async () => {
    const response = await pages.app.inject({
      method: 'POST',
      url: '/plan',
      headers: asForm,
      payload: `note=${'a'.repeat(10_000_000)}`,
    });

    expect(response.statusCode).toBe(413);
    expect(wordsOf(response.body)).toContain('A form may hold at most 1 MB.');
  });

  test('a fault of ours is a plain 500 without path, stack or driver words', async () => {
    await pages.app.close();
    const app = await buildApp({
      db: pages.db,
      reference: loadReferenceTables(),
      now: () => Date.UTC(2026, 7, 17),
    });
    app.get('/broken', () => {
      throw new Error('SQLITE_CORRUPT at /srv/secret/place.ts:12');
    });

    const response = await app.inject('/broken');

    expect(response.statusCode).toBe(500);
    expect(response.body).not.toMatch(/SQLITE|secret|\.ts:|node_modules/);
    expect(wordsOf(response.body)).toContain('This is our fault, not yours.');
    await app.close();
  });

  test('when not even that page can be made, a few words say so and nothing of the inside', async () => {
    await pages.app.close();
    const app = await buildApp({
      db: pages.db,
      reference: loadReferenceTables(),
      now: () => Date.UTC(2026, 7, 17),
    });
    app.get('/collapse', async () => {
      await pages.db.destroy();
      throw new Error('gone in the middle');
    });

    const response = await app.inject('/collapse');

    expect(response.statusCode).toBe(500);
    expect(response.body).toMatch(/^Something broke here\. This is our fault, not yours\./);
    expect(response.body).not.toMatch(/driver|destroyed|Kysely|middle/);
    await app.close();
  });

  test('a form of a kind nobody sends here is not understood, and says so', async () => {
    const response = await pages.app.inject({
      method: 'POST',
      url: '/plan',
      headers: { 'content-type': 'application/xml' },
      payload: '<plan/>',
    });

    expect(response.statusCode).toBe(422);
    expect(wordsOf(response.body)).toContain('That could not be read');
  });

  test('a file whose sending broke off is not understood, and says so', async () => {
    const form = await pages.visitor.open('/files');
    const csrf = /name="_csrf" value="([^"]+)"/.exec(form.body)?.[1] ?? '';
    const answer = await pages.app.inject({
      method: 'POST',
      url: '/files/lists',
      headers: { 'content-type': 'multipart/form-data; boundary=torn' },
      payload: `--torn\r\ncontent-disposition: form-data; name="_csrf"\r\n\r\n${csrf}\r\n--torn\r\ncontent-disp`,
    });

    expect(answer.statusCode).toBe(422);
    expect(wordsOf(answer.body)).toContain('Nothing was changed');
  });

  test('an address that asks without end is told to wait', async () => {
    await pages.app.close();
    const app = await buildApp({
      db: pages.db,
      reference: loadReferenceTables(),
      now: () => Date.UTC(2026, 7, 17),
      requestsPerMinute: 2,
    });
    const statuses = [];
    for (let request = 0; request < 3; request += 1)
      statuses.push((await app.inject('/robots.txt')).statusCode);

    expect(statuses).toEqual([200, 200, 429]);
    await app.close();
  });

  test('a file without a household leads to the beginning', async () => {
    const db = await openDatabase(':memory:');
    const app = await buildApp({ db, reference: loadReferenceTables(), now: () => 0 });

    const response = await app.inject('/');

    expect([response.statusCode, response.headers.location]).toEqual([302, '/start']);
    await app.close();
    await db.destroy();
  });
});

describe('every answer', () => {
  test('lets the browser run, style and load only what this server sends', async () => {
    const { headers } = await pages.app.inject('/');
    const policy = String(headers['content-security-policy']);

    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/unsafe|https?:|\*/);
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['cache-control']).toBe('no-store');
  });

  test('carries no inline style, script or handler', async () => {
    for (const path of ['/', '/year', '/year/plum-jam', '/buying', '/notices', '/attic']) {
      const { body } = await pages.visitor.open(path);

      expect(body, path).not.toMatch(/ style="| on[a-z]+="|<style|hx-on|js:|<script(?![^>]* src=)/);
    }
  });

  test('names its assets by their content, so that they may be kept forever', async () => {
    const { css } = pages.app.assets.urls;

    const response = await pages.app.inject({ url: css, headers: { 'accept-encoding': 'br' } });

    expect(css).toMatch(/^\/assets\/style\.[\w-]{12}\.css$/);
    expect(response.headers['cache-control']).toBe('public, max-age=31536000, immutable');
    expect(response.headers['content-encoding']).toBe('br');
    expect((await pages.app.inject('/assets/style.000000000000.css')).statusCode).toBe(404);
  });
});
