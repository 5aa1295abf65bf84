import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { commands } from '../../../server/commands/command-line.ts';
import { planLines } from '../../../server/commands/plan.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { makeDemoHousehold } from '../../../server/demo/make-demo.ts';
import { lettersDue } from '../../../server/mail/letters-due.ts';
import { householdById } from '../../../server/queries/household/household.ts';
import { newestPlan } from '../../../server/queries/year/plans.ts';
import { setMailWish } from '../../../server/records/notices/notice-settings.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { batchDaysBy } from '../../../server/year/batch-days-by.ts';
import { loadPlanningYear } from '../../../server/year/load-year.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import { asDate, weekdayOf, weekOf } from '../../../shared/week.ts';
import { dayLines } from '../../../src/planning/days/day-lines.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';
import { confirmWithoutLetter } from '../../builders/confirmed-address.ts';
import { keepPlanOfEverything } from '../../builders/full-plan.ts';
import { worked } from '../../builders/outcomes.ts';
import { wrongIn } from '../../builders/plain-words.ts';
import { keepPlanOfNothing } from '../../builders/plan-of-nothing.ts';
import { plansNothing } from '../../builders/plans-nothing.ts';
import { typedCommand } from '../../builders/typed-command.ts';
import { Visitor, wordsOf } from '../../builders/visitor.ts';

// The demo household at four dates of the year, each read in US and in metric units, with a plan that has something of everything:
// whatever page, letter, sheet or command a person reads speaks plain American English, and metric to a metric household. No day as a machine writes it, no part of a jar in a sentence, no “1 jars”, no key, no British spelling.
// Three things stay: how a field is typed that takes a day or a week in digits, the inches of a table looked up for no household, and a rate in the figure its household gave (`0.6 a month`).

const reference = loadReferenceTables();

const year = ['2026-02-10', '2026-05-21', '2026-08-12', '2026-11-26'].flatMap((asOf) => [
  { asOf, units: 'us' as const },
  { asOf, units: 'metric' as const },
]);

/** How long a year is looked for at most, with everything else of a busy machine. */
const patience = 600_000;

/** Each command of the list as it is typed, and as it is typed amiss; `serve` prints the first lines of a plan and no words of its own. */
const typed = (
  folder: string,
  asOf: string,
  { plansTheYear }: { readonly plansTheYear: boolean },
): readonly (readonly string[])[] => {
  const copy = join(folder, 'copy.sqlite');
  const of: Readonly<Record<string, readonly (readonly string[])[]>> = {
    plan: [...(plansTheYear ? [['--as-of', asOf]] : []), ['--minutes', '0'], ['--as-of', 'soon']],
    glut: [
      ['plums', '40', 'lb', '--as-of', asOf],
      ['peaches', '1', 'bushel', '--as-of', asOf],
      ['peaches', 'many', 'lb'],
      [],
    ],
    notices: [
      ['--as-of', asOf],
      ['--as-of', 'never'],
    ],
    shelf: [[], ['--as-of', asOf]],
    take: [['peach-jam'], ['peach-jam', '--units', '1'], ['peach-jam', '--units', '400'], ['nothing'], []],
    'canning-day': [
      ['--as-of', asOf],
      ['--week', 'this'],
    ],
    'process-time': [
      [
        ...['--food', 'peaches', '--style', 'halved or sliced', '--pack', 'hot', '--jar', 'quart'],
        ...['--method', 'boiling-water', '--altitude-ft', '1240'],
      ],
      ['--food', 'peaches', '--style', 'halved or sliced', '--pack', 'hot', '--jar', 'bucket'],
      [],
    ],
    backup: [[copy], [copy], []],
    restore: [[copy], [join(folder, 'nowhere.sqlite')], []],
    move: [
      ['--from', copy, '--to', join(folder, 'moved.sqlite')],
      ['--from', copy, '--to', copy],
      ['--from', join(folder, 'nowhere.sqlite'), '--to', join(folder, 'another.sqlite')],
      [],
    ],
    'row-rules': [['Nobody'], []],
    migrate: [[], ['--by', 'tomorrow']],
    work: [
      ['--lanes', 'later'],
      ['--solvers', 'many'],
    ],
    'passphrase-reset': [['Nobody'], []],
    'allow-household': [['Nobody'], []],
    'rotate-key': [[]],
    'verify-table': [['process-times', join(folder, 'nowhere.csv')], []],
  };
  return Object.entries(of).flatMap(([command, ways]) => ways.map((way) => [command, ...way]));
};

test('each command of the list but serve says here how it is typed', () => {
  const walked = new Set(typed('', '', { plansTheYear: false }).map(([command]) => command));
  expect([...walked, 'serve'].toSorted()).toEqual(Object.keys(commands).toSorted());
});

const standing = async (db: Database, household: HouseholdId): Promise<StoredPlan> => {
  const plan = await newestPlan(db, household);
  if (plan === null) throw new Error('expected a plan of everything');
  return plan;
};

describe.each(year.map((one, part) => ({ ...one, part })))(
  'on $asOf, in $units units',
  ({ asOf, units, part }) => {
    let folder: string;
    const wrong: string[] = [];
    beforeAll(async () => {
      folder = await mkdtemp(join(tmpdir(), 'plain-words-'));
      const file = join(folder, 'pantry.sqlite');
      const db = await openDatabase(file);
      const day = asDate(asOf);
      const household = await makeDemoHousehold(db, day);
      await db.updateTable('household').set({ units }).execute();
      worked(
        await setMailWish({ db, householdId: household, key: 'letters-are-wanted', at: 1, today: day }, {
          address: 'pantry@example.org',
          weekly: true,
          weekday: String(weekdayOf(day)),
          urgent: true,
        } as unknown as Parameters<typeof setMailWish>[1]),
      );
      await confirmWithoutLetter(db);
      await keepPlanOfEverything(db, household, day);
      let ticks = 0;
      const now = () => {
        ticks += 1;
        return Date.parse(`${asOf}T20:00:00Z`) + ticks;
      };
      const app = await buildApp({ db, reference, now, planJob: plansNothing });
      await app.ready();
      const visitor = new Visitor(app);
      const items = await db.selectFrom('item').select('id').execute();
      const lots = await db.selectFrom('lot').select('id').limit(2).execute();
      const processed = await db.selectFrom('processing_evidence').select('lot_id').limit(2).execute();
      const sources = await db.selectFrom('source').select('id').execute();
      const week = weekOf(day);
      const urls = [
        ...app.servedRoutes.flatMap(({ method, url }) =>
          method === 'GET' && !/[:*]|\.\w+$/.test(url) ? [url] : [],
        ),
        ...items
          .filter((_, at) => at % year.length === part)
          .flatMap(({ id }) => [`/year/${id}`, `/shelf/${id}`, `/targets/${id}`, `/items/${id}`]),
        ...lots.map(({ id }) => `/shelf/lots/${id}`),
        ...processed.map(({ lot_id: id }) => `/batches/${id}`),
        ...sources.slice(0, 2).map(({ id }) => `/harvest/${id}`),
        `/canning-day/${week}`,
        `/canning-day/${week}/sheet`,
        '/search?q=jam',
        `/labels/sheet?${lots.map(({ id }) => `lot-${id}=2`).join('&')}`,
        '/glut?crop=peaches&amount=40&unit=lb',
        '/process-times?food=peaches&style=halved+or+sliced&pack=hot&jar=quart&method=boiling-water&altitude=1240&unit=ft',
        '/power-cut?appliance=freezer-full&startedAt=2026-02-09+22:00&endedAt=2026-02-10+04:00&seen=ice',
      ];
      for (const url of urls) {
        const { status, body } = await visitor.open(url);
        if (status === 200 && /^\s*<!doctype/i.test(body))
          wrong.push(...wrongIn(wordsOf(body), units).map((words) => `${url}: ${words}`));
      }
      const letters = await lettersDue({
        db,
        reference,
        household: await householdById(db, household),
        at: Date.parse(`${asOf}T20:00:00Z`),
        address: 'https://pantry.example.org',
      });
      expect(letters.length).toBeGreaterThan(0);
      for (const { subject, plain } of letters)
        wrong.push(
          ...[subject, plain].flatMap((told) => wrongIn(told, units)).map((words) => `letter: ${words}`),
        );
      const { plan, paths } = await standing(db, household);
      const loaded = await loadPlanningYear(db, household, day, reference);
      const here = await householdById(db, household);
      const lines = dayLines(await batchDaysBy(plan, db, here, day, reference));
      for (const line of planLines({ plan, paths, isProven: true }, loaded, { lines, reference }))
        wrong.push(...wrongIn(line, units).map((words) => `plan of everything: ${words}`));

      await keepPlanOfNothing(db, household, day, {}, {}, { id: 'with-room' });
      const peaches = await visitor.open('/glut?crop=peaches&amount=40&unit=lb');
      const isOffered = peaches.body.includes('action="/glut/use"');
      if (asOf === '2026-08-12') expect(isOffered).toBe(true);
      if (isOffered) {
        const used = await visitor.submit(peaches, { form: '/glut/use' });
        expect(used.location).toBe('/glut#glut-plan');
      }
      for (const url of ['/glut', '/', '/year', '/buying']) {
        const { body } = await visitor.open(url);
        wrong.push(...wrongIn(wordsOf(body), units).map((words) => `${url} with a glut: ${words}`));
      }
      for (const command of typed(folder, asOf, { plansTheYear: part === 0 || part === 5 })) {
        const { printed, complaint } = await typedCommand(file)(...command);
        expect(printed + complaint).not.toBe('');
        const words = (printed + complaint).replaceAll(folder, 'here');
        const read = command[0] === 'process-time' ? 'us' : units;
        wrong.push(...wrongIn(words, read).map((found) => `${command.join(' ')}: ${found}`));
      }
      await app.close();
      await db.destroy();
    }, patience);
    afterAll(() => rm(folder, { recursive: true, force: true }));

    test('every page and command speaks plain words', () => {
      expect(wrong).toEqual([]);
    });
  },
);
