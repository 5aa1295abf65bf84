import { type Kysely, sql } from 'kysely';

// Days until the first good jar are counted from filling the jars; they held the days of standing and fermenting before it
// too, and those were counted again from the day of the canner. Each recipe of the book with such days: how many they
// were, and how many days it cures. A recipe taken over before its stages were known keeps the days it cures.
const daysBeforeFilling: readonly (readonly [basedOn: string, before: number, cures: number])[] = [
  ['spiced-crab-apples', 1, 0],
  ['chile-con-carne', 1, 0],
  ['sauerkraut', 42, 0],
  ['bread-and-butter-pickles', 1, 28],
  ['quick-dill-pickles', 1, 28],
  ['sweet-gherkin-pickles', 3, 28],
  ['pickle-relish', 1, 0],
  ['grape-jelly-powder', 1, 0],
  ['14-day-sweet-pickles', 13, 28],
  ['grape-juice-quarts', 2, 0],
  ['grape-juice-pints', 2, 0],
  ['beans-dried-quarts', 1, 0],
  ['beans-dried-pints', 1, 0],
  ['cucumbers-quarts', 42, 0],
  ['cucumbers-pints', 42, 0],
];

export async function up(db: Kysely<unknown>): Promise<void> {
  for (const [basedOn, before, cures] of daysBeforeFilling)
    await sql`UPDATE recipe SET ready_after_days = min(ready_after_days, max(ready_after_days - ${before}, ${cures}))
      WHERE lower(based_on) = ${basedOn} AND process_food IS NOT NULL`.execute(db);
}
