import type { FastifyInstance } from 'fastify';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { openPlanJob, type PlanJob } from '../../server/jobs/plan-job.ts';
import { newestPlan } from '../../server/queries/year/plans.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { planYear, solveInBackground } from '../../server/solver/plan-year.ts';
import { households } from '../builders/all-households.ts';
import { launchBrowser, patience } from './browser.ts';
import { axeFindings } from './page-checks.ts';

// From an empty file to a first plan, as a newcomer with a phone and no help would go. One interaction is one field
// changed or one button or link pressed; what is filled in already costs nothing.

const mostInteractions = 15;
const phone = { width: 360, height: 780 };

let db: Database;
let app: FastifyInstance;
let planJob: PlanJob;
let address: string;
let browser: Browser;
beforeAll(async () => {
  db = await openDatabase(':memory:');
  const reference = loadReferenceTables();
  const now = () => Date.parse('2026-04-15T15:00:00Z');
  planJob = openPlanJob({ db, reference, now, planYear, solve: solveInBackground });
  app = await buildApp({ db, reference, now, planJob });
  address = await app.listen({ host: '127.0.0.1', port: 0 });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await planJob?.close();
  await app?.close();
  await db?.destroy();
});

/** A newcomer whose every change of a field and press of a button is counted. */
class Newcomer {
  readonly page: Page;
  interactions = 0;

  constructor(page: Page) {
    this.page = page;
  }

  async choose(label: string, value: string): Promise<void> {
    this.interactions += 1;
    await this.page.getByLabel(label, { exact: true }).selectOption(value);
  }

  async write(label: string, text: string): Promise<void> {
    this.interactions += 1;
    await this.page.getByLabel(label, { exact: true }).fill(text);
  }

  async press(name: string): Promise<void> {
    this.interactions += 1;
    await this.page.getByRole('button', { name }).click();
  }
}

const householdCalled = async (name: string) => {
  const own = (await households(db)).find((household) => household.name === name);
  if (!own) throw new Error(`expected a household called ${name}`);
  return own;
};

/** Jars the plan of a year puts up, and the recipes it makes. */
const planOf = async (name: string) => {
  const { id } = await householdCalled(name);
  await planJob.settled(id);
  const plan = await newestPlan(db, id);
  const sessions = plan?.plan.weeks.flatMap((week) => week.sessions) ?? [];
  return {
    isMade: plan !== null,
    jars: sessions.flatMap(({ jars }) => jars).reduce((sum, { count }) => sum + count, 0),
    recipes: new Set(sessions.map(({ recipe }) => recipe)),
  };
};

describe('the first hour', () => {
  it('leads from an empty file to a first plan of 60 to 150 jars in at most 15 interactions, on a phone', async () => {
    const context = await browser.newContext({ viewport: phone });
    const newcomer = new Newcomer(await context.newPage());
    const { page } = newcomer;
    const broken: string[] = [];
    page.on('pageerror', (error) => broken.push(error.message));

    await page.goto(address);
    await newcomer.write('Nearest town, with its state', 'New Jersey');
    await newcomer.write('Altitude of your kitchen', '640');
    await newcomer.press('Set up and plan the year');
    // The altitude is shown in both units; pressed again it is kept.
    await page.getByText('Is that your kitchen?').waitFor();
    await newcomer.press('Set up and plan the year');
    await page.getByText('Your household is set up').waitFor();
    await page.getByText('Nothing has changed since.').waitFor({ timeout: patience });

    const plan = await planOf('Our household');
    expect(plan.jars).toBeGreaterThanOrEqual(60);
    expect(plan.jars).toBeLessThanOrEqual(150);
    expect(plan.recipes.size).toBeGreaterThanOrEqual(6);
    expect(newcomer.interactions).toBeLessThanOrEqual(mostInteractions);
    // Region, altitude, and a press before and after the altitude was shown in both units.
    expect(newcomer.interactions).toBe(4);
    expect(broken).toEqual([]);

    await page.goto(`${address}/year`);
    // biome-ignore lint/performance/useDomNodeTextContent: what a person sees, not what stands in the document
    expect(await page.locator('main').innerText()).toContain('Strawberry jam');
    await context.close();
  });

  it('with script switched off and half of it changed still stays within 15', async () => {
    const context = await browser.newContext({ viewport: phone, javaScriptEnabled: false });
    const newcomer = new Newcomer(await context.newPage());
    const { page } = newcomer;

    await page.goto(`${address}/start`);
    await newcomer.write('Nearest town, with its state', 'State College, PA');
    await newcomer.write('Altitude of your kitchen', '380');
    await page.getByText('meters').click();
    newcomer.interactions += 1;
    await page.getByLabel('Pressure canner').first().check();
    newcomer.interactions += 1;
    await page.getByText('Gauge of the pressure canner').click();
    newcomer.interactions += 1;
    await page.getByText('weighted', { exact: true }).click();
    newcomer.interactions += 1;
    await newcomer.write('Quart jars', '14');
    await page.locator('select[name="eats-beans-snap-pints"]').selectOption('month:2');
    newcomer.interactions += 1;
    await newcomer.write('Name', 'Larch End');
    await newcomer.write('People', '5');
    await newcomer.press('Set up and plan the year');
    // The altitude is shown in both units; pressed again it is kept.
    await page.getByText('Is that your kitchen?').waitFor();
    await newcomer.press('Set up and plan the year');

    expect(await page.locator('.site-household').textContent()).toBe('Larch End');
    expect(newcomer.interactions).toBeLessThanOrEqual(mostInteractions);
    const plan = await planOf('Larch End');
    expect(plan.isMade).toBe(true);
    expect(plan.recipes).toContain('green-beans');
    expect((await householdCalled('Larch End')).altitudeFt).toBeCloseTo(1246.72, 2);
    await context.close();
  });

  it('with the altitude left open there is a plan that cans nothing, and the page says what is missing', async () => {
    const context = await browser.newContext({ viewport: phone });
    const newcomer = new Newcomer(await context.newPage());
    const { page } = newcomer;

    await page.goto(`${address}/start`);
    await newcomer.write('Nearest town, with its state', 'New Jersey');
    await newcomer.write('Name', 'Open Height');
    await newcomer.press('Set up and plan the year');
    await page.getByText('Nothing has changed since.').waitFor({ timeout: patience });

    const plan = await planOf('Open Height');
    expect(plan.isMade).toBe(true);
    expect(plan.jars).toBe(0);
    await page.goto(`${address}/items/strawberry-jam`);
    await page.getByText('The altitude of the kitchen is not known').waitFor();
    await context.close();
  });
});

describe('pages of a household whose shelf is still empty', () => {
  it('say what to do first, and have nothing that axe objects to', async () => {
    const context = await browser.newContext({ viewport: phone, reducedMotion: 'reduce' });
    const page = await context.newPage();
    await page.goto(`${address}/start`);
    await page.getByLabel('Name', { exact: true }).fill('Bare Boards');
    for (const eaten of await page.locator('select[name^="eats-"]').all()) await eaten.selectOption('');
    await page.locator('select[name^="eats-"]').first().selectOption('year:3');
    await page.getByRole('button', { name: 'Set up and plan the year' }).click();
    await page.getByText('Your household is set up').waitFor();
    await page.goto(`${address}/items/strawberry-jam`);
    await page.getByRole('button', { name: 'Stop keeping Strawberry jam' }).click();
    await page.getByText('No longer kept').first().waitFor();

    for (const path of [
      '/',
      '/year',
      '/year/sheet',
      '/shelf',
      '/targets',
      '/harvest',
      '/buying',
      '/notices',
      '/look-back',
    ]) {
      await page.goto(`${address}${path}`);
      for (const [width, colorScheme] of [
        [360, 'light'],
        [1440, 'dark'],
      ] as const) {
        await page.setViewportSize({ width, height: 800 });
        await page.emulateMedia({ colorScheme });

        expect(await axeFindings(page), `${path} ${width} ${colorScheme}`).toEqual([]);
      }
    }
    await page.goto(`${address}/year`);
    expect(await page.locator('main').textContent()).toContain('Choose something from the recipe book');
    await context.close();
  });
});
