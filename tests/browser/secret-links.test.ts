import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { invite } from '../../server/access/invitations.ts';
import { buildApp } from '../../server/app.ts';
import { openDatabase } from '../../server/database/database.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { furnish, member } from '../builders/furnished-household.ts';
import { medlarLane } from '../builders/two-households.ts';
import { launchBrowser } from './browser.ts';

// What a browser does with a link whose secret stands behind `#`.

let browser: Browser;
let app: Awaited<ReturnType<typeof buildApp>>;
let address: string;
const asked: string[] = [];
beforeAll(async () => {
  const db = await openDatabase(':memory:');
  await furnish(db, medlarLane, 'medlar', '2026-12-14');
  await member(db, medlarLane, { id: 'Ida', role: 'owner' }, Date.now());
  app = await buildApp({ db, reference: loadReferenceTables(), now: Date.now });
  app.addHook('onRequest', async ({ url, headers }) => void asked.push(`${url} ${headers.referer ?? ''}`));
  address = await app.listen({ port: 0, host: '127.0.0.1' });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await app.close();
  await app.db.destroy();
});

test('it opens by itself, the secret is gone from address and history, and no request names it', async () => {
  const secret = await invite(app.db, medlarLane, 'helper', Date.now());
  const page = await browser.newPage();

  await page.goto(`${address}/invitations#${secret}`);
  await page.getByRole('heading', { name: /^Join / }).waitFor();

  expect(page.url()).toBe(`${address}/invitations`);
  await page.getByLabel('Name').fill('Odo');
  await page.getByLabel('Passphrase').fill('wet boots by the back door');
  await page.getByRole('button', { name: 'Join' }).click();
  await page.waitForURL(`${address}/`);
  const asksBrowser = await page.context().newCDPSession(page);
  const { entries } = await asksBrowser.send('Page.getNavigationHistory');
  expect(entries.map(({ url }) => url)).toContain(`${address}/invitations`);
  expect(entries.filter(({ url }) => url.includes(secret))).toEqual([]);
  expect(asked.length).toBeGreaterThan(3);
  expect(asked.filter((line) => line.includes(secret))).toEqual([]);
  await page.close();
});

test('without script it is pasted, and opens the same', async () => {
  const secret = await invite(app.db, medlarLane, 'helper', Date.now());
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();

  await page.goto(`${address}/invitations#${secret}`);
  await page.getByLabel('Link').fill(`${address}/invitations#${secret}`);
  await page.getByRole('button', { name: 'Open the link' }).click();

  await page.getByRole('heading', { name: /^Join / }).waitFor();
  await context.close();
});
