import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import { type HouseholdYear, planningYearOf } from '../../src/planning/year/household-year.ts';
import type { Database } from '../database/database.ts';
import { vesselGuesses } from '../reference/first-year.ts';
import { withEqualParts } from './equal-parts.ts';
import { householdFacts } from './household-facts.ts';

/** Loads a household as it stands on a date; `before` is its year as it was read last, whose facts it has where they still say the same. */
export const loadPlanningYear = async (
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
  reference: ReferenceTables,
  before?: HouseholdYear,
): Promise<HouseholdYear> =>
  planningYearOf(
    withEqualParts(
      before?.facts,
      await householdFacts(db, householdId, asOf, before?.year.asOf === asOf ? before.facts : undefined),
    ),
    asOf,
    reference,
    vesselGuesses(),
  );
