import type { AddressInfo } from 'node:net';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { beginSignIn } from '../../server/access/sign-ins.ts';
import { openConflicts } from '../../server/queries/shelf/conflicts.ts';
import { ledgerOf } from '../../server/queries/shelf/ledger.ts';
import { keepPlanOf } from '../builders/planned-week.ts';
import { curedPickles, greenBeans, plumJam, quinceYard, shelve } from '../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../builders/quince-yard-pages.ts';
import { linkShown, Visitor } from '../builders/visitor.ts';
import { launchBrowser, patience } from './browser.ts';
import { type CellarLine, cellarLine } from './cellar-line.ts';

let pages: QuinceYardPages;
let browser: Browser;
let line: CellarLine;
/** A phone in the cellar. */
let phone: BrowserContext;
let page: Page;

beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

beforeEach(async () => {
  pages = await quinceYardPages();
  const jar = (id: string, itemId: typeof plumJam, units: number, jarKind?: string) =>
    shelve(pages.db, {
      id,
      itemId,
      units,
      madeOn: '2026-07-01',
      bestQualityUntil: '2027-07-01',
      ...(jarKind === undefined ? {} : { jarKind }),
    });
  await jar('jam', plumJam, 9);
  await jar('beans', greenBeans, 9, 'pint/regular');
  await jar('pickles', curedPickles, 1, 'quart/wide');
  await pages.app.listen({ host: '127.0.0.1', port: 0 });
  line = await cellarLine((pages.app.server.address() as AddressInfo).port);
  phone = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  page = await phone.newPage();
  await page.goto(`${line.address}/shelf`);
  await page.evaluate('navigator.serviceWorker.ready');
  await page.waitForFunction('navigator.serviceWorker.controller !== null');
  await page.waitForFunction(`caches.open('shelf').then((kept) => kept.match('/shelf')).then(Boolean)`);
  return async () => {
    await phone.close();
    await line.close();
    await pages.close();
  };
});

const tookOne = (name: string) => page.getByRole('button', { name: `Took one: ${name}` });
const waiting = () => page.locator('#waiting li');
const taken = async () =>
  (await ledgerOf(pages.db, quinceYard)).filter(({ kind }) => kind === 'taken').map(({ itemId }) => itemId);

/** How many takes stand on this device's disk. */
const countWrittenDown = `new Promise((counted) => {
  const opening = indexedDB.open('waiting-takes', 1);
  opening.onsuccess = () => {
    const counting = opening.result.transaction('takes').objectStore('takes').count();
    counting.onsuccess = () => { opening.result.close(); counted(counting.result); };
  };
})`;

/** Ida and Joan may both use the phone of Quince Yard; answers the way to have one of them signed in on it. */
async function twoWhoShareThePhone(): Promise<(name: string) => Promise<void>> {
  const passphrase = 'nine jars of plum jam';
  const ida = pages.visitor;
  await ida.submitOn('/people/owner', { form: '/people/owner', fill: { name: 'Ida', passphrase } });
  const invitation = await ida.submitOn('/people', {
    form: '/people/invitations',
    fill: { role: 'helper' },
  });
  const joan = new Visitor(pages.app);
  await joan.submit(await joan.openLink(linkShown(invitation)), {
    form: '/invitations/acceptance',
    fill: { name: 'Joan', passphrase },
  });
  return async (name) => {
    const person = await pages.db
      .selectFrom('person')
      .select('id')
      .where('name', '=', name)
      .executeTakeFirstOrThrow();
    const token = await beginSignIn(pages.db, person.id, pages.app.now(), { device: 'phone' });
    await phone.addCookies([
      { name: 'sign-in', value: token, url: line.address },
      { name: 'own-device', value: 'yes', url: line.address },
    ]);
  };
}

const opensShelfAs = async (name: string) => {
  await page.goto(`${line.address}/shelf`);
  await page.waitForFunction(
    `caches.open('shelf').then((kept) => kept.match('/shelf')).then((shelf) => shelf?.text()).then((text) => text?.includes('Quince Yard, ${name}'))`,
  );
};

describe('a phone in the cellar', () => {
  it('takes a jar with one touch from the page it opened', async () => {
    await tookOne('Plum jam').tap();
    await page.getByText('Took one').first().waitFor();
    await expect.poll(taken).toEqual([plumJam]);
  });

  it('without signal keeps three jars, survives a reload, and sends them once and in order', async () => {
    line.cut();

    await tookOne('Plum jam').tap();
    await expect.poll(() => waiting().count()).toBe(1);
    await tookOne('Plum jam').tap();
    await expect.poll(() => waiting().count()).toBe(2);
    await page.reload();
    await tookOne('Green beans').tap();
    await expect.poll(() => waiting().count()).toBe(3);
    expect(await page.locator('#waiting').textContent()).toContain('3 wait on this device');
    expect(await taken()).toEqual([]);

    line.mend();
    await page.reload();

    await expect.poll(taken, { timeout: patience }).toEqual([plumJam, plumJam, greenBeans]);
    await expect.poll(() => waiting().count()).toBe(0);
    await page.reload();
    expect(await taken()).toEqual([plumJam, plumJam, greenBeans]);
  });

  it('without signal ticks two lines of the list, and sends them once and in order', async () => {
    await keepPlanOf(pages.db, quinceYard, { '2026-W34': [], '2026-W35': [] });
    await page.goto(`${line.address}/buying`);
    await page.waitForFunction(
      `caches.open('shelf').then((kept) => kept.match('/buying')).then((list) => list?.text()).then((text) => text?.includes('Bought: '))`,
    );
    const bought = async () =>
      (
        await pages.db
          .selectFrom('bought')
          .select(['week', 'quantity'])
          .orderBy('rowid' as never)
          .execute()
      ).map(({ week, quantity }) => `${week} ${quantity}`);
    line.cut();
    await page.reload();

    const lines = page.getByRole('button', { name: /^Bought: / });
    await lines.nth(0).tap();
    await expect.poll(() => waiting().count()).toBe(1);
    // The week after is one row on a phone until it is opened.
    await page.locator('summary:visible', { hasText: 'to fetch' }).tap();
    await lines.nth(1).tap();
    await expect.poll(() => waiting().count()).toBe(2);
    await page.reload();
    await expect.poll(() => waiting().count()).toBe(2);
    expect(await bought()).toEqual([]);
    line.mend();
    await page.reload();

    await expect.poll(bought, { timeout: patience }).toEqual(['2026-W34 10', '2026-W35 10']);
    await expect.poll(() => waiting().count()).toBe(0);
    await page.reload();
    expect(await bought()).toEqual(['2026-W34 10', '2026-W35 10']);
  });

  it('keeps its place and what is being typed when what waited has been sent', async () => {
    line.cut();
    await tookOne('Plum jam').tap();
    await expect.poll(() => waiting().count()).toBe(1);
    await page.evaluate(`window.isStillHere = true`);

    line.mend();
    await page.evaluate(`navigator.serviceWorker.controller.postMessage({ type: 'deliver' })`);

    await expect.poll(taken, { timeout: patience }).toEqual([plumJam]);
    await page.locator(`#item-${plumJam}`).getByText('8').first().waitFor();
    await expect.poll(() => page.locator('#waiting').count()).toBe(0);
    expect(await page.evaluate(`window.isStillHere`)).toBe(true);
  });

  it('loses nothing when the browser ends while a jar is on its way', async () => {
    const devtools = await phone.newCDPSession(page);
    await devtools.send('ServiceWorker.enable');
    line.hold();
    await tookOne('Plum jam').tap();
    await expect.poll(() => page.evaluate(countWrittenDown)).toBe(1);
    await devtools.send('ServiceWorker.stopAllWorkers');
    await page.close();

    line.mend();
    page = await phone.newPage();
    await page.goto(`${line.address}/shelf`);

    await expect.poll(taken, { timeout: patience }).toEqual([plumJam]);
    await expect.poll(() => page.evaluate(countWrittenDown)).toBe(0);
    await page.reload();
    expect(await taken()).toEqual([plumJam]);
  });

  it('takes back what has not been sent', async () => {
    line.cut();
    await tookOne('Plum jam').tap();
    await expect.poll(() => waiting().count()).toBe(1);

    await page.getByRole('button', { name: 'Take it back' }).tap();

    await expect.poll(() => waiting().count()).toBe(0);
    line.mend();
    await page.reload();
    expect(await taken()).toEqual([]);
  });

  it('shows as a conflict what another device took first', async () => {
    line.cut();
    await tookOne('Cured pickles').tap();
    await expect.poll(() => waiting().count()).toBe(1);
    await pages.visitor.submitOn('/shelf', {
      form: `/shelf/${curedPickles}/takes`,
      fill: { outcome: 'took-one' },
    });

    line.mend();
    await page.reload();

    await expect
      .poll(async () => (await openConflicts(pages.db, quinceYard)).map(({ itemId }) => itemId), {
        timeout: patience,
      })
      .toEqual([curedPickles]);
    await page.goto(`${line.address}/shelf`);
    expect(await page.locator('#conflicts').textContent()).toContain('Cured pickles');
  });

  it('keeps what was taken on the shelf of one household while another is open here, and sends it when it is back', async () => {
    await pages.db
      .insertInto('household')
      .values({ id: 'plum-court', name: 'Plum Court', time_zone: 'America/Denver', created_at: 0 })
      .execute();
    await pages.db
      .insertInto('item')
      .values({
        household_id: 'plum-court',
        id: plumJam,
        name: 'Plum jam',
        kind: 'preserve',
        keeping: 'canned',
        family: 'stone-fruit',
        unit: 'jar',
        usual_jar: 'half-pint/regular',
        best_quality_days: 365,
      })
      .execute();
    const lookAt = (household: string) =>
      phone.addCookies([{ name: 'household', value: household, url: line.address }]);
    line.cut();
    await tookOne('Plum jam').tap();
    await tookOne('Green beans').tap();
    await expect.poll(() => waiting().count()).toBe(2);

    await lookAt('plum-court');
    line.mend();
    await page.reload();
    await page.getByText('2 wait on this device for Quince Yard').waitFor();
    await page.evaluate(
      `navigator.serviceWorker.ready.then(({ active }) => active.postMessage({ type: 'deliver' }))`,
    );
    await page.getByText('None on the shelf.').waitFor();
    expect(await waiting().count()).toBe(0);
    expect(await taken()).toEqual([]);
    expect(await openConflicts(pages.db, 'plum-court' as typeof quinceYard)).toEqual([]);

    await lookAt(quinceYard);
    await page.reload();
    await expect.poll(taken, { timeout: patience }).toEqual([plumJam, greenBeans]);
    await expect.poll(() => page.locator('#waiting').count()).toBe(0);
  });

  it('keeps what one person took while another is signed in here, and writes it down under the right name', async () => {
    const signedIn = await twoWhoShareThePhone();
    await signedIn('Ida');
    await opensShelfAs('Ida');
    line.cut();
    await tookOne('Plum jam').tap();
    await expect.poll(() => waiting().count()).toBe(1);

    await signedIn('Joan');
    line.mend();
    await page.reload();
    await page.getByText('1 waits on this device for Quince Yard, Ida').waitFor();
    await tookOne('Green beans').tap();
    await expect.poll(taken).toEqual([greenBeans]);
    expect(await page.locator('#waiting').textContent()).not.toContain('Plum jam');

    await signedIn('Ida');
    await page.reload();
    await expect.poll(taken, { timeout: patience }).toEqual([greenBeans, plumJam]);
    const events = (await ledgerOf(pages.db, quinceYard)).filter(({ kind }) => kind === 'taken');
    expect(events.map(({ recordedBy }) => recordedBy)).toEqual(['Joan', 'Ida']);
  });

  it('says who took what waited, the other person two taps away', async () => {
    const signedIn = await twoWhoShareThePhone();
    await pages.db.updateTable('household').set({ says_who_took: 1 }).where('id', '=', quinceYard).execute();
    await signedIn('Ida');
    await opensShelfAs('Ida');
    line.cut();
    await tookOne('Plum jam').tap();
    await expect.poll(() => waiting().count()).toBe(1);
    const beans = page.locator('#item-green-beans');
    await beans.locator('summary').tap();
    await beans.getByRole('button', { name: 'Joan took it' }).tap();
    await expect.poll(() => waiting().count()).toBe(2);

    line.mend();
    await page.reload();
    await expect.poll(taken, { timeout: patience }).toEqual([plumJam, greenBeans]);
    const events = (await ledgerOf(pages.db, quinceYard)).filter(({ kind }) => kind === 'taken');
    expect(events.map(({ takenBy }) => takenBy)).toEqual(['Ida', 'Joan']);
  });

  it('keeps what one person took when another signs out, and the page kept for that other goes', async () => {
    const signedIn = await twoWhoShareThePhone();
    await signedIn('Ida');
    await opensShelfAs('Ida');
    line.cut();
    await tookOne('Plum jam').tap();
    await tookOne('Green beans').tap();
    await expect.poll(() => waiting().count()).toBe(2);
    await signedIn('Joan');
    line.mend();

    await page.goto(`${line.address}/people/self`);
    await page.getByText('2 wait on this device for Quince Yard, Ida').waitFor();
    await page.getByRole('button', { name: 'Sign out', exact: true }).tap();
    await page.waitForURL(/sign-in/);
    await expect
      .poll(() => page.evaluate(`caches.open('shelf').then((kept) => kept.match('/shelf')).then(Boolean)`))
      .toBe(false);
    expect(await page.evaluate(countWrittenDown)).toBe(2);

    await signedIn('Ida');
    await page.goto(`${line.address}/shelf`);
    await expect.poll(taken, { timeout: patience }).toEqual([plumJam, greenBeans]);
  });

  it('says before somebody signs out what of theirs could not be sent, and sends it first where there is a signal', async () => {
    const signedIn = await twoWhoShareThePhone();
    await signedIn('Ida');
    const account = await phone.newPage();
    await account.goto(`${line.address}/people/self`);
    await opensShelfAs('Ida');
    line.cut();
    await tookOne('Plum jam').tap();
    await expect.poll(() => waiting().count()).toBe(1);
    const signOut = account.getByRole('button', { name: 'Sign out', exact: true });

    await signOut.tap();
    await account.getByText('1 thing you wrote down has not been sent yet').waitFor();
    expect(await account.evaluate(countWrittenDown)).toBe(1);

    line.mend();
    await account.reload();
    await signOut.tap();
    await account.waitForURL(/sign-in/);
    expect(await taken()).toEqual([plumJam]);
    expect(await account.evaluate(countWrittenDown)).toBe(0);
  });

  it('a take made after the sign-in has ended waits for its person', async () => {
    const signedIn = await twoWhoShareThePhone();
    await signedIn('Ida');
    await opensShelfAs('Ida');
    await pages.db.deleteFrom('sign_in').execute();

    await tookOne('Plum jam').tap();
    await page.waitForURL(/sign-in/);
    expect(await taken()).toEqual([]);

    await signedIn('Ida');
    await page.goto(`${line.address}/shelf`);
    await expect.poll(taken, { timeout: patience }).toEqual([plumJam]);
  });

  it('keeps the shelf of somebody who signs in only once the device is said to be their own', async () => {
    const isKept = () =>
      page.evaluate(`caches.open('shelf').then((kept) => kept.match('/shelf')).then(Boolean)`);
    const signedIn = await twoWhoShareThePhone();
    await signedIn('Ida');
    await phone.clearCookies({ name: 'own-device' });
    await page.goto(`${line.address}/shelf`);
    await expect.poll(isKept).toBe(false);

    await page.getByRole('link', { name: 'Keep the shelf on it' }).tap();
    await page.getByRole('button', { name: 'Keep the shelf on this device' }).tap();
    await page.getByText('This device keeps the shelf from the next time').waitFor();
    await opensShelfAs('Ida');
    expect(await isKept()).toBe(true);

    await page.goto(`${line.address}/people/self`);
    await page.getByRole('button', { name: 'Keep nothing on this device' }).tap();
    await page.getByText('This device keeps nothing of the shelf.').waitFor();
    await expect.poll(isKept).toBe(false);
  });

  it('can be installed: manifest, icon and start page are there', async () => {
    const manifest = (await page.evaluate(
      `fetch(document.querySelector('link[rel=manifest]').href).then((answer) => answer.json())`,
    )) as { start_url: string; display: string; icons: { src: string }[] };

    expect(manifest).toMatchObject({ start_url: '/shelf', display: 'standalone' });
    const icon = await fetch(`${line.address}${manifest.icons[0]?.src}`);
    expect(icon.headers.get('content-type')).toContain('image/svg+xml');
  });
});
