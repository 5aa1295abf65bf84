import type { FastifyInstance } from 'fastify';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { buildApp } from '../../../../server/app.ts';
import type { PlanJobState } from '../../../../server/queries/year/plan-job-state.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { type Cast, quinceYardHousehold } from '../../../builders/quince-yard.ts';
import { Visitor, wordsOf } from '../../../builders/visitor.ts';

/** A planner whose state a test sets, and that counts how often it was asked. */
class StagedPlanner {
  now: PlanJobState = { state: 'idle' };
  asked = 0;
  async state(): Promise<PlanJobState> {
    return this.now;
  }
  async start(): Promise<void> {
    this.asked += 1;
    this.now = { state: 'running', startedAt: noon, best: null, bound: null, gap: null };
  }
  async cancel(): Promise<void> {
    this.now = { state: 'idle' };
  }
  settled(): Promise<void> {
    return Promise.resolve();
  }
  ask(): Promise<never> {
    return Promise.reject(new Error('expected no question'));
  }
}

const noon = Date.UTC(2026, 7, 17, 18);
const reference = loadReferenceTables();

let cast: Cast;
let planner: StagedPlanner;
let visitor: Visitor;
let app: FastifyInstance;
beforeEach(async () => {
  cast = await quinceYardHousehold();
  planner = new StagedPlanner();
  app = await buildApp({ db: cast.db, reference, now: () => noon + 4000, planJob: planner });
  visitor = new Visitor(app);
});
afterEach(async () => {
  await app.close();
  await cast.db.destroy();
});

describe('plan again', () => {
  test('starts a plan and comes back to the page it was asked from', async () => {
    const answer = await visitor.submitOn('/year', { form: '/plan' });

    expect([answer.status, answer.location, planner.asked]).toEqual([303, '/year', 1]);
  });

  test('with script answers with the part alone, which asks again every second', async () => {
    const answer = await visitor.submitOn('/', { form: '/plan', asPart: true });

    expect(answer.status).toBe(200);
    expect(answer.body).toMatch(/^<div id="plan-status"/);
    expect(answer.body).toContain('hx-trigger="every 1s"');
    expect(wordsOf(answer.body)).toContain('Planning the year. 4 s so far; no plan yet.');
  });

  test('comes back only to a page of ours', async () => {
    const answer = await visitor.submitOn('/', {
      form: '/plan',
      fill: { back: 'https://elsewhere.example/' },
    });

    expect(answer.location).toBe('/');
  });

  test('without a token changes nothing', async () => {
    const answer = await visitor.submitOn('/', { form: '/plan', fill: { _csrf: 'made up' } });

    expect([answer.status, planner.asked]).toEqual([403, 0]);
    expect(wordsOf(answer.body)).toContain('That form was too old');
  });
});

describe('while it runs', () => {
  test('can be stopped, with script and without; the plan before it stays', async () => {
    planner.start();
    const withScript = await visitor.submitOn('/year', { form: '/plan/stop', asPart: true });
    const afterwards = planner.now;
    planner.start();
    const without = await visitor.submitOn('/year', { form: '/plan/stop' });

    expect(wordsOf(withScript.body)).toContain('There is no plan yet.');
    expect(afterwards).toEqual({ state: 'idle' });
    expect([without.status, without.location, planner.now.state]).toEqual([303, '/year', 'idle']);
  });

  test('how near the best plan yet is to the bound stands as a measure once there is a plan', async () => {
    planner.now = { state: 'running', startedAt: noon, best: 120_000, bound: 114_000, gap: 0.05 };
    const some = (await visitor.open('/')).body;
    planner.now = { state: 'running', startedAt: noon, best: null, bound: null, gap: null };
    const none = (await visitor.open('/')).body;

    expect(some).toMatch(/<progress[^>]*value="0\.950" max="1"/);
    expect(none).not.toContain('<progress');
  });

  test('says how far it is in plain words, and how to look again without script', async () => {
    planner.now = { state: 'running', startedAt: noon, best: 120_000, bound: 114_000, gap: 0.05 };

    const words = wordsOf((await visitor.open('/')).body);

    expect(words).toContain('4 s so far. There is a plan; at most 5% could still be gained.');
    expect(words).toContain('See whether it is done');
  });

  test('says what is being tried and what the best plan so far comes to, and never what the planner reckons with', async () => {
    const soFar = { foods: 38, lasting: 31, jars: 212, minutes: 96 * 60, cents: 58_800 };
    const running = {
      state: 'running',
      startedAt: noon,
      best: 1_542_300,
      bound: 185_800,
      gap: 0.88,
    } as const;
    const shown = async (more: Partial<typeof soFar>) => {
      planner.now = { ...running, soFar: { ...soFar, ...more } };
      const page = await visitor.open('/');
      return wordsOf(page.body.slice(page.body.indexOf('id="plan-status"'))).split('Stop planning')[0];
    };

    const words = await shown({});
    expect(words).toContain(
      '4 s so far. In the best plan so far 31 of your 38 foods last until more comes: 212 jars, 96 hours in the kitchen, $588. It is trying other weeks and amounts for the 7 that do not.',
    );
    expect(words).not.toMatch(/15,?423|1,?858|88\s?%/);
    expect(await shown({ lasting: 37 })).toContain('for the one that does not.');
    expect(await shown({ lasting: 38 })).toContain(
      'The best plan so far makes all of your 38 foods last until more comes: 212 jars, 96 hours in the kitchen, $588. It is trying other weeks and amounts for less work and less money.',
    );
  });

  test('the status asked for again has the page drawn anew in its place once it is done', async () => {
    const asked = async (shown = 'http://localhost/year?of=jam') =>
      app.inject({ url: '/plan/status?back=%2Fyear', headers: { 'hx-current-url': shown } });
    planner.now = { state: 'running', startedAt: noon, best: null, bound: null, gap: null };
    expect((await asked()).headers['hx-location']).toBeUndefined();
    planner.now = { state: 'failed', words: 'No plan was found in the time allowed. Plan again.' };

    const answer = await asked();

    expect(wordsOf(answer.body)).toContain('No plan was found in the time allowed.');
    expect(answer.headers['hx-refresh']).toBeUndefined();
    expect(JSON.parse(String(answer.headers['hx-location']))).toMatchObject({
      path: '/year?of=jam',
      target: '#main',
      swap: 'outerMorph',
    });
    for (const elsewhere of ['http://localhost/kitchen?x=1', '//example.org/year', 'not an address'])
      expect(JSON.parse(String((await asked(elsewhere)).headers['hx-location'])).path).toBe('/year');
  });
});
