import { buildApp } from '../../server/app.ts';
import { openPlanJob } from '../../server/jobs/plan-job.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { planYear, solveInBackground } from '../../server/solver/plan-year.ts';
import { plannedQuinceYard } from './planned-quince-yard.ts';
import type { QuinceYardPages } from './quince-yard-pages.ts';
import { Visitor } from './visitor.ts';

const noon = Date.UTC(2026, 7, 17, 18);
const reference = loadReferenceTables();

/** Quince Yard with its year planned and a planner behind the pages that can be asked. */
export async function askingQuinceYard(): Promise<QuinceYardPages> {
  const pages = await plannedQuinceYard();
  const { db } = pages;
  // After every plan the builders make.
  const now = () => noon + 900_000;
  const quick: typeof planYear = (year, options) => planYear(year, { ...options, gap: 0.3 });
  const planJob = openPlanJob({ db, reference, now, planYear: quick, solve: solveInBackground });
  const app = await buildApp({ db, reference, now, planJob });
  return {
    ...pages,
    app,
    visitor: new Visitor(app),
    close: async () => {
      await planJob.close();
      await app.close();
      await pages.close();
    },
  };
}
