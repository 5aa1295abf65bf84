import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Asker } from '../../builders/asker.ts';
import { filled, type TwoHouseholds, twoHouseholds } from '../../builders/two-households.ts';
import { cookieSet } from '../../builders/visitor.ts';

// What every answer carries, whatever it is about; the numbers are those of OWASP ASVS 5.0.0.

interface Answered {
  readonly url: string;
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly body: string;
}

let both: TwoHouseholds;
let asker: Asker;
const answers: Answered[] = [];
beforeAll(async () => {
  both = await twoHouseholds();
  asker = new Asker(both.app, (who) => both.tokenOf.get(who) ?? '');
  for (const { method, url } of both.app.servedRoutes) {
    if (method !== 'GET') continue;
    const asset = [...both.app.assets.byUrl.keys()].find((name) => name.endsWith('.css')) ?? '';
    const asked = url.startsWith('/assets/') ? asset : filled(url, (kind) => both.medlar[kind] ?? '1');
    const answer = await asker.ask('medlar-owner', { method, url: asked });
    answers.push({ url, status: answer.statusCode, headers: answer.headers, body: answer.body });
  }
});
afterAll(() => both.close());

const typeOf = ({ headers }: Answered): string => String(headers['content-type'] ?? '');
const without = (missing: (answer: Answered) => boolean): readonly string[] =>
  answers.filter((answer) => answer.body !== '' && missing(answer)).map(({ url }) => url);

describe('every answer', () => {
  // V4.1.1
  test('says its type, and text says its characters', () => {
    expect(without((answer) => typeOf(answer) === '')).toEqual([]);
    expect(
      without((answer) => typeOf(answer).startsWith('text/') && !/charset=utf-8/i.test(typeOf(answer))),
    ).toEqual([]);
  });

  // V3.4.3 to V3.4.6, V3.4.2
  test('forbids sniffing, framing, foreign content and telling others where it was, and lets no other origin in', () => {
    expect(without(({ headers }) => headers['x-content-type-options'] !== 'nosniff')).toEqual([]);
    expect(without(({ headers }) => headers['referrer-policy'] !== 'same-origin')).toEqual([]);
    expect(without(({ headers }) => headers['access-control-allow-origin'] !== undefined)).toEqual([]);
    for (const part of [
      "default-src 'none'",
      "object-src 'none'",
      "base-uri 'none'",
      "frame-ancestors 'none'",
    ])
      expect(without(({ headers }) => !String(headers['content-security-policy']).includes(part))).toEqual(
        [],
      );
    expect(without(({ headers }) => /unsafe/.test(String(headers['content-security-policy'])))).toEqual([]);
  });

  // V14.2.2 and V14.3.2
  test('is kept by nobody, but for what is the same for everybody, and the calendar by whom its secret was given to', () => {
    expect(without(({ headers }) => headers['cache-control'] !== 'no-store').toSorted()).toEqual([
      '/api/v1/openapi.json',
      '/assets/:name',
      '/calendar/:token.ics',
      '/manifest.webmanifest',
      '/offline.js',
      '/robots.txt',
      '/service-worker.js',
    ]);
  });

  // V13.4.2 and V16.5.1
  test('names no program, version or path of the server', () => {
    expect(
      without(({ headers }) => headers.server !== undefined || headers['x-powered-by'] !== undefined),
    ).toEqual([]);
    expect(without(({ body }) => /node_modules|\/server\/|SQLITE_/.test(body))).toEqual([]);
  });
});

// V7.4.4
test('every page of somebody signed in shows the way out at its foot', () => {
  const pages = answers.filter(
    (answer) => answer.status === 200 && answer.body.startsWith('<!doctype html>'),
  );
  const ownDocuments = new Set(['/labels/print', '/labels/sheet', '/shelf/sheet']);

  expect(pages.length).toBeGreaterThan(35);
  expect(
    pages
      .filter(({ url, body }) => !ownDocuments.has(url) && !body.includes('href="/people/self"'))
      .map(({ url }) => url),
  ).toEqual([]);
});

// V14.3.1
test('signing out tells the browser to forget what it keeps, but for takes of others that wait there', async () => {
  const out = await asker.ask('medlar-reader', { method: 'POST', url: '/sign-out' });

  expect(out.headers['clear-site-data']).toBe('"cache"');
  expect(cookieSet(out, 'sign-in')).toBe('');
});

// V13.4.4
test.each(['TRACE', 'PUT', 'PATCH', 'DELETE'] as const)('%s is answered nowhere', async (method) => {
  for (const url of ['/', '/shelf', '/sign-in', '/people'])
    expect((await both.app.inject({ method: method as 'PUT', url })).statusCode).toSatisfy(
      // Without the token of a form even an address that leads nowhere is not looked at.
      (status: number) => status === 404 || status === 403,
    );
});
