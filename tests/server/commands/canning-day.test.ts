import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { run } from '../../../server/commands/canning-day.ts';
import { everyCaution } from '../../../src/preserving/sheet/cautions.ts';
import { addTomatoes } from '../../builders/canning-pages.ts';
import { keepPlanOf } from '../../builders/planned-week.ts';
import { quinceYard, quinceYardHousehold } from '../../builders/quince-yard.ts';

const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
const file = join(folder, 'quince-yard.sqlite');

beforeAll(async () => {
  const { db } = await quinceYardHousehold(file);
  await keepPlanOf(db, quinceYard, {
    '2026-W34': [
      { recipe: 'plum-jam-batch', batches: 2 },
      { recipe: 'green-beans-batch', batches: 1 },
    ],
    '2026-W35': [{ recipe: 'tomato-batch', batches: 1 }],
  });
  await addTomatoes({ db });
  await db
    .updateTable('recipe')
    .set({ canner_id: 'pressure-pot' })
    .where('id', '=', 'tomato-batch')
    .execute();
  await db.destroy();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function ran(...args: readonly string[]) {
  const out = vi.spyOn(console, 'log').mockImplementation(() => {});
  const complaint = vi.spyOn(console, 'error').mockImplementation(() => {});
  const printed = (spy: typeof out) => spy.mock.calls.map((line) => line.join(' ')).join('\n');
  try {
    const exit = await run([...args, '--database', file]);
    return { exit, out: printed(out), complaint: printed(complaint) };
  } finally {
    out.mockRestore();
    complaint.mockRestore();
  }
}

describe('the canning day on the command line', () => {
  // USDA Complete Guide 7, p7-7/8 (plum jam, 1,001 to 6,000 ft: 10 min); Guide 4, p4-9 (snap beans, weighted: 20 min at 15 psi).
  test('prints each batch’s row, what to fetch and set out, the times of the day, and the cautions', async () => {
    const { exit, out } = await ran('--week', '2026-W34');

    expect(exit).toBe(0);
    expect(out).toContain('Plum jam, 2 batches: 10 MINUTES in the boiling-water canner (Kettle), 2 loads');
    expect(out).toContain(
      'Green beans — snap and Italian beans, pieces, tested process, 1 batch: 20 MINUTES at 15 psi in the pressure canner, weighted gauge',
    );
    expect(out).toContain('By Thursday, August 20 pick and buy:');
    expect(out).toMatch(/Process green beans/);
    for (const { text } of everyCaution) expect(out).toContain(text);
  });

  test('prints every step of each batch in its own order, with what comes before the clock', async () => {
    const { out } = await ran('--week', '2026-W34');
    const { out: json } = await ran('--week', '2026-W34', '--json');

    const batches: { steps: { text: string }[] }[] = JSON.parse(json).days[0].batches;
    expect(batches).toHaveLength(2);
    for (const { steps } of batches) {
      expect(steps.length).toBeGreaterThan(30);
      let rest = out.slice(out.indexOf('Each load, step by step:'));
      for (const { text } of steps) {
        expect(rest).toContain(text);
        rest = rest.slice(rest.indexOf(text) + text.length);
      }
    }
    expect(out).toMatch(/Boil the empty jars \d+ minutes \(at [\d,]+ ft\).*Before the clock starts/);
    expect(out).toMatch(/Let steam stream from the open vent for 10 minutes\. Before the clock starts/);
  });

  test('answers as one JSON object', async () => {
    const { exit, out } = await ran('--week', '2026-W34', '--json');

    const { week, days } = JSON.parse(out);
    expect(exit).toBe(0);
    expect(week).toBe('2026-W34');
    expect(days).toHaveLength(1);
    expect(days[0]).toMatchObject({ on: '2026-08-22', pickAndBuyBy: '2026-08-20' });
    expect(
      days[0].batches.map(
        ({ recipe, schedule }: { recipe: string; schedule: { minutes: number; psi: number } }) => [
          recipe,
          schedule.minutes,
          schedule.psi,
        ],
      ),
    ).toEqual(
      expect.arrayContaining([
        ['plum-jam-batch', 10, null],
        ['green-beans-batch', 20, 15],
      ]),
    );
    for (const batch of days[0].batches) {
      const codes = batch.cautions.map(({ code }: { code: string }) => code);
      expect(codes).toEqual(expect.arrayContaining(everyCaution.map(({ code }) => code)));
    }
  });

  // USDA Complete Guide 3, p3-8: crushed tomatoes, pints, weighted gauge above 1,000 ft: two printed schedules.
  test('gives no time where one of several printed schedules is still to be chosen, and lists them', async () => {
    const { out } = await ran('--week', '2026-W35');
    const [batch] = JSON.parse((await ran('--week', '2026-W35', '--json')).out).days[0].batches;

    expect(out).toContain('Crushed tomatoes, 1 batch: CHOOSE one of the printed schedules');
    expect(out).not.toContain('MINUTES');
    for (const { text } of everyCaution) expect(out).toContain(text);
    expect(batch).toMatchObject({
      schedule: null,
      loads: [],
      choices: [
        { minutes: 20, psi: 10 },
        { minutes: 15, psi: 15 },
      ],
    });
  });

  test('says what is wrong with a week it cannot read, and when nothing is put up in one', async () => {
    const unreadable = await ran('--week', '2026-34');
    const quiet = await ran('--week', '2026-W40');

    expect(unreadable.exit).toBe(2);
    expect(unreadable.complaint).toContain('--week cannot be “2026-34”. Write a week like 2026-W34.');
    expect(quiet.exit).toBe(1);
    expect(quiet.complaint).toContain('The plan has nothing to put up in the week of Sep 27.');
  });
});
