import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { getPriority, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, afterEach, expect, test } from 'vitest';
import { openDatabase } from '../../../server/database/database.ts';
import { openPlanJobElsewhere } from '../../../server/jobs/plan-job.ts';
import { newestPlan } from '../../../server/queries/year/plans.ts';
import { quinceYard, quinceYardHousehold } from '../../builders/quince-yard.ts';

// One program serves the pages of a file, another does its work, and each of the two is there once.

const root = resolve(import.meta.dirname, '../../..');
const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
const file = join(folder, 'quince-yard.sqlite');
const begun: ChildProcess[] = [];
afterEach(() => {
  for (const one of begun.splice(0)) one.kill('SIGKILL');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const typed = (args: readonly string[]) => ['--import', 'tsx', 'server/main.ts', ...args, '--database', file];

/** Begins one and waits until it says that it may be stopped. */
async function begin(
  ...args: string[]
): Promise<{ readonly said: string; readonly pid: number; stop(): Promise<unknown> }> {
  const child = spawn(process.execPath, typed(args), { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] });
  begun.push(child);
  let said = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  while (!said.includes('Stop with Ctrl-C')) await once(child.stdout, 'data');
  return {
    said,
    pid: child.pid ?? Number.NaN,
    stop: async () => {
      child.kill('SIGTERM');
      const [exit] = await once(child, 'exit');
      return exit;
    },
  };
}

const refusedIn = (...args: string[]): string => {
  const { status, stderr } = spawnSync(process.execPath, typed(args), { cwd: root, encoding: 'utf8' });
  expect(status).toBe(1);
  return stderr;
};

test('a plan asked for while pages are served without work is made by the program that works', async () => {
  const { db } = await quinceYardHousehold(file);
  await db.destroy();
  const serves = await begin('serve', '--without-work', '--port', '0');
  const address = /http:\/\/127\.0\.0\.1:\d+/.exec(serves.said)?.[0] ?? '';
  const asks = await openDatabase(file);
  const planning = openPlanJobElsewhere({ db: asks, now: Date.now });
  await planning.start(quinceYard);
  expect(await (await fetch(`${address}/plan/status`)).text()).toContain('plan-running');

  const works = await begin('work', '--lanes', 'now', '--solvers', '1');
  expect(works.said).toBe('Working: now, with 1 solver. Stop with Ctrl-C.\n');
  expect(getPriority(works.pid)).toBe(Math.min(19, getPriority(serves.pid) + 5));
  expect(refusedIn('work')).toContain('Another program of this machine does the background work');
  expect(refusedIn('serve', '--without-work', '--port', '0')).toContain('Another server of this machine');
  await planning.planned(quinceYard);

  // A machine that is too slow for a better one keeps the plan that needs no solver: it was made there all the same.
  expect(await newestPlan(asks, quinceYard)).not.toBeNull();
  expect(await (await fetch(`${address}/plan/status`)).text()).not.toContain('plan-running');
  await asks.destroy();
  expect(await works.stop()).toBe(0);
  expect(await serves.stop()).toBe(0);
});
