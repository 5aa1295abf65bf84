import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../server/app.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { keepPlanOf, type PlannedWork } from './planned-week.ts';
import { type Cast, quinceYard, quinceYardHousehold } from './quince-yard.ts';
import { Visitor } from './visitor.ts';

export const reference = loadReferenceTables();

/** Week and day on which Quince Yard cans in these tests: Saturday, 22 August 2026. */
const canningWeek = '2026-W34';
export const canningDay = '2026-08-22';
export const dayPath = `/canning-day/${canningWeek}/${canningDay}`;

const hourMs = 3_600_000;

export interface CanningPages extends Cast {
  readonly app: FastifyInstance;
  readonly visitor: Visitor;
  /** The instant the pages think it is; begins at 9:00 on the canning day where Quince Yard lies. */
  readonly clock: { at: number; steadyMs?: number };
  /** Begins the canning day. */
  begin(): Promise<void>;
  close(): Promise<void>;
}

const usualWork: readonly PlannedWork[] = [
  { recipe: 'plum-jam-batch', batches: 1 },
  { recipe: 'green-beans-batch', batches: 1 },
];

/** Quince Yard with plum jam and green beans planned for its canning day, and a clock that stands until it is moved. */
export async function canningPages(
  work: readonly PlannedWork[] = usualWork,
  file = ':memory:',
): Promise<CanningPages> {
  const cast = await quinceYardHousehold(file);
  await keepPlanOf(cast.db, quinceYard, { [canningWeek]: work });
  const clock: CanningPages['clock'] = { at: Date.UTC(2026, 7, 22, 15) };
  const app = await buildApp({
    db: cast.db,
    reference,
    now: () => clock.at,
    // Goes with the clock of the wall until it is told otherwise.
    steady: () => ({ run: 'first', ms: clock.steadyMs ?? clock.at }),
  });
  await app.ready();
  const visitor = new Visitor(app);
  return {
    ...cast,
    app,
    visitor,
    clock,
    begin: async () => {
      await visitor.submitOn('/canning-day', { form: dayPath, fill: { ask: 'begin' } });
    },
    close: async () => {
      await app.close();
      await cast.db.destroy();
    },
  };
}

export const minutes = (count: number): number => count * 60_000;
export const hours = (count: number): number => count * hourMs;

/** Crushed tomatoes in pints, in the kettle: acid goes into each jar. */
export async function addTomatoes({ db }: Pick<Cast, 'db'>): Promise<void> {
  const own = { household_id: quinceYard };
  await db
    .insertInto('item')
    .values({
      ...own,
      id: 'tomatoes',
      name: 'Crushed tomatoes',
      kind: 'preserve',
      keeping: 'canned',
      family: 'tomatoes',
      unit: 'jar',
      usual_jar: 'pint/regular',
      best_quality_days: 365,
    })
    .execute();
  await db
    .insertInto('recipe')
    .values({
      ...own,
      id: 'tomato-batch',
      item_id: 'tomatoes',
      name: 'Crushed tomatoes',
      based_on: 'tomatoes-crushed',
      process_food: 'tomatoes-crushed',
      process_style: 'crushed; no added liquid',
      process_pack: 'hot',
      canner_id: 'kettle',
      jar_kind: 'pint/regular',
      yield_low: 9,
      yield_high: 9,
      hands_on_minutes: 90,
    })
    .execute();
}
