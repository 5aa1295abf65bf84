import type { Database } from '../../server/database/database.ts';
import { canningSessionsOf } from '../../server/queries/canning/canning-sessions.ts';
import { householdFacts } from '../../server/year/household-facts.ts';
import { preparationsOf } from '../../server/year/preparations.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { type JarSize, nominalMl, sizeOf } from '../../shared/jar.ts';
import type { ProcessTimeRow } from '../../shared/schemas/reference/process-time.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { asDate } from '../../shared/week.ts';
import type { Canner } from '../../src/household/kitchen.ts';
import type { Recipe } from '../../src/household/recipe.ts';
import { planningYearOf } from '../../src/planning/year/household-year.ts';
import { sessionHere, usualSetting } from '../../src/preserving/day/session-here.ts';
import { rowKeyOf } from '../../src/preserving/lookup/process-lookup.ts';
import { testedRecipes } from '../../src/preserving/recipes/tested-recipes.ts';
import { dayOfAll } from './gate-files.ts';

/** What was shown as a time, and with which canner. */
interface ShownTime {
  readonly recipe: Recipe;
  readonly canner: Canner;
  readonly rowKey: string;
  readonly minutes: number;
  readonly psi: number | null;
}

const printedMethods: Readonly<Record<string, readonly string[]>> = {
  'boiling-water': ['boiling-water'],
  steam: ['boiling-water'],
  'pressure dial': ['pressure-dial'],
  'pressure weighted': ['pressure-weighted'],
};

/**
 * Whether a row may stand for a jar: its own size, or the next larger one printed for the food where its own is not. USDA
 * Complete Guide 1, p1-23: a jar that is not printed is processed as the next larger size that is.
 */
function isJarOf(row: ProcessTimeRow, jar: JarSize, { processTimes }: ReferenceTables): boolean {
  const printed = processTimes
    .filter(
      ({ foodKey, style, pack, method }) =>
        foodKey === row.foodKey && style === row.style && pack === row.pack && method === row.method,
    )
    .map((one) => nominalMl[one.jar]);
  return nominalMl[row.jar] === Math.min(...printed.filter((ml) => ml >= nominalMl[jar]));
}

/** Why a time is not one row of the food the recipe is based on, for its jar, canner and altitude; null when it is. */
function wrongTime(
  { recipe, canner, rowKey, minutes, psi }: ShownTime,
  altitudeFt: number | null,
  reference: ReferenceTables,
): string | null {
  const row = reference.processTimes.find((one) => rowKeyOf(one) === rowKey);
  if (row === undefined) return `${recipe.name}: no row ${rowKey}`;
  const own = testedRecipes(reference).find(({ key }) => key === recipe.basedOn);
  const foods = own === undefined ? [recipe.basedOn] : own.processes.map(({ foodKey }) => foodKey);
  if (!foods.includes(row.foodKey)) return `${recipe.name}: ${row.foodKey} for ${recipe.basedOn}`;
  if (
    recipe.process === null ||
    row.style !== recipe.process.style.toLowerCase() ||
    row.pack !== recipe.process.pack
  )
    return `${recipe.name}: ${row.style}, ${row.pack}`;
  if (!isJarOf(row, sizeOf(recipe.process.jarKind), reference)) return `${recipe.name}: jar ${row.jar}`;
  if (row.minutes !== minutes || row.psi !== psi) return `${recipe.name}: ${minutes} min, ${psi} psi`;
  const methods = printedMethods[canner.method === 'pressure' ? `pressure ${canner.gauge}` : canner.method];
  if (methods?.includes(row.method) !== true) return `${recipe.name}: ${row.method} in ${canner.method}`;
  if (
    altitudeFt === null ||
    altitudeFt <= row.altitudeFromFt - 1 ||
    (row.altitudeToFt !== null && altitudeFt > row.altitudeToFt)
  )
    return `${recipe.name}: a row for ${row.altitudeFromFt}–${row.altitudeToFt} ft at ${altitudeFt} ft`;
  return null;
}

/** Every time that plan, canning day and sheet would give for a household as it stands, and what is wrong with it. */
export async function walkTheGate(
  db: Database,
  householdId: HouseholdId,
  reference: ReferenceTables,
  now: number,
): Promise<{ readonly shown: number; readonly refused: number; readonly wrong: readonly string[] }> {
  const today = asDate('2026-08-17');
  const facts = await householdFacts(db, householdId, today);
  const { household, canners, recipes } = facts;
  const times: ShownTime[] = [];
  let refused = 0;

  const { recipes: here } = planningYearOf(facts, today, reference);
  refused += here.leftOut.length;
  for (const { id, processing } of here.planned) {
    const recipe = recipes.find((one) => one.id === id);
    const canner = canners.find((one) => one.id === processing?.cannerId);
    if (recipe === undefined || canner === undefined || processing === null) continue;
    times.push({
      recipe,
      canner,
      rowKey: processing.scheduleKey,
      minutes: processing.minutes,
      psi: processing.psi,
    });
  }

  const [session] = await canningSessionsOf(db, householdId);
  const day = sessionHere(
    session?.work ?? recipes.map(({ id }) => ({ recipeId: id, batches: 1 })),
    { ...facts, reference, preparations: await preparationsOf(db, householdId), now },
    asDate(dayOfAll),
    session?.setting ?? usualSetting(household, facts.hours),
  );
  for (const { recipe, canned, heldBack } of day.batches) {
    const shown = canned?.ok === true ? canned.value : heldBack;
    if (canned !== null && !canned.ok) refused += 1;
    if (shown === null) continue;
    const { canner, schedule } = shown;
    times.push({ recipe, canner, rowKey: schedule.rowKey, minutes: schedule.minutes, psi: schedule.psi });
  }
  const onSheet = new Set(day.basis.flatMap(({ rowKeys }) => rowKeys));
  const onDay = new Set(times.map(({ rowKey }) => rowKey));
  return {
    shown: times.length,
    refused,
    wrong: [
      ...times.flatMap((time) => wrongTime(time, household.altitudeFt, reference) ?? []),
      ...[...onSheet].filter((key) => !onDay.has(key)).map((key) => `the sheet rests on ${key}`),
    ],
  };
}
