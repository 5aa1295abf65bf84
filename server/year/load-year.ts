import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { HouseholdFacts } from '../../src/household/facts.ts';
import { type HouseholdYear, planningYearOf } from '../../src/planning/year/household-year.ts';
import type { Database } from '../database/database.ts';
import { vesselGuesses } from '../reference/first-year.ts';
import { withEqualParts } from './equal-parts.ts';
import { householdFacts } from './household-facts.ts';

/** Loads a household as it stands on a date; `before` are its facts as they were read last, whose parts it has where they still say the same. */
export const loadPlanningYear = async (
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
  reference: ReferenceTables,
  before?: HouseholdFacts,
): Promise<HouseholdYear> =>
  planningYearOf(
    withEqualParts(before, await householdFacts(db, householdId, asOf)),
    asOf,
    reference,
    vesselGuesses(),
  );
