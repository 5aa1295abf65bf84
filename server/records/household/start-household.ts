import type { HouseholdId } from '../../../shared/ids.ts';
import { type JarKind, mouths, sizeOf } from '../../../shared/jar.ts';
import { asCents, type Cents } from '../../../shared/money.ts';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import type { Appetite } from '../../../shared/schemas/first-hour.ts';
import type { GroundRequest } from '../../../shared/schemas/ground.ts';
import type { SourceRequest } from '../../../shared/schemas/harvest.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { type CalendarDate, yearOf } from '../../../shared/week.ts';
import { guessedSeason } from '../../../src/harvest/known-ground.ts';
import { seasonIn } from '../../../src/harvest/season.ts';
import { inJars } from '../../../src/household/item.ts';
import { entry } from '../../../src/planning/lookup.ts';
import { type CannerSize, cannerSizes } from '../../../src/preserving/canner-sizes.ts';
import { handsOnGuess } from '../../../src/preserving/recipes/hands-on-guess.ts';
import type { TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import { recipeFamily } from '../../../src/preserving/recipes/recipe-family.ts';
import { recipeLife } from '../../../src/preserving/recipes/recipe-life.ts';
import { canningPlace, recipeToKeep } from '../../../src/preserving/recipes/recipe-to-keep.ts';
import { testedRecipes } from '../../../src/preserving/recipes/tested-recipes.ts';
import { ofHousehold } from '../../database/apart/whose-rows.ts';
import type { Database } from '../../database/database.ts';
import { householdById } from '../../queries/household/household.ts';
import { cannersOf } from '../../queries/household/kitchen.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { cropGuessFor, firstYear, lidBox, supplyGuessFor } from '../../reference/first-year.ts';
import { guessedLbPerWeek } from '../../reference/guessed-harvest.ts';
import { householdGround } from '../../year/ground.ts';
import { type Recording, record } from '../record.ts';
import { noteGuess } from '../year/guesses.ts';
import { saveHarvestWindow, saveSource } from '../year/harvest.ts';
import { saveGround } from '../year/seasons.ts';
import { createHousehold, type Founder, type NewHousehold, type SetUp } from './create-household.ts';
import { addPreserve } from './items.ts';
import { setJarHolding } from './jars.ts';
import { saveCanner, setAltitude, setKitchenTime, setLids, setSeasonFund } from './kitchen.ts';

/** What a household said in its first hour. */
export interface FirstHour {
  readonly household: NewHousehold;
  readonly altitudeFt: number | null;
  /** Where it gardens; left out where nothing was said. */
  readonly ground?: GroundRequest;
  /** Null without a pot; its size by key, the first of the list where it is empty. */
  readonly boilingWater: { readonly size: string } | null;
  /** Null without a pressure canner; its gauge may be unknown yet. */
  readonly pressure: {
    readonly size: string;
    readonly gauge: 'dial' | 'weighted' | null;
    readonly checkedOn: CalendarDate | null;
    /** How far off the dial was at that check; left out where nobody was asked. */
    readonly off?: Readonly<Record<'at5' | 'at10' | 'at15', number | null>>;
  } | null;
  readonly jars: readonly { readonly kind: JarKind; readonly onHand: number }[];
  readonly lids: number;
  readonly preserves: readonly { readonly recipeKey: string; readonly appetite: Appetite }[];
  readonly sourceKind: SourceRequest['kind'];
  readonly time: { readonly sessionsPerWeek: number; readonly hoursPerSession: number };
  readonly fund: { readonly now: Cents; readonly weekly: Cents };
}

export interface FirstHourSetting {
  readonly db: Database;
  readonly reference: ReferenceTables;
  readonly key: string;
  readonly at: number;
  readonly today: CalendarDate;
  readonly founder?: Founder;
  /** Whether a form sent again goes on with the household its first sending made; only for whom it belongs to. */
  readonly mayGoOn?: (householdId: HouseholdId) => Promise<boolean>;
}

/** How sure a beginner wants to be that something lasts until it can be made again. */
const firstChanceWanted = 0.8;

/**
 * Sets a household up from its first hour: each value goes the same way as when it is changed later. Every step has a key
 * made from the form's, so that a form sent twice, or again after a break, sets up one household once.
 */
export async function startHousehold(setting: FirstHourSetting, hour: FirstHour): Promise<Outcome<SetUp>> {
  const { db, reference, key, at, founder = null, mayGoOn = async () => true } = setting;
  const chosen = chosenRecipes(hour, reference);
  if (!chosen.ok) return chosen;
  const made = await createHousehold(db, { key, at, founder }, hour.household);
  if (!made.ok) return made;
  const { householdId, repeated } = made.value;
  if (repeated && !(await mayGoOn(householdId))) return made;
  const furnished = await ofHousehold(db, householdId, () =>
    furnish(householdId, setting, hour, chosen.value),
  );
  return furnished.ok ? made : furnished;
}

/** What a household has after its first hour. */
async function furnish(
  householdId: HouseholdId,
  setting: FirstHourSetting,
  hour: FirstHour,
  chosen: readonly ChosenRecipe[],
): Promise<Outcome<unknown>> {
  const { db, reference, key, at, today } = setting;
  const step = (name: string): Recording => ({ db, householdId, at, today, key: `${key} ${name}` });
  const kitchen = await setUpKitchen(step, hour, reference);
  if (!kitchen.ok) return kitchen;
  const ground =
    hour.ground === undefined ? kitchen : await saveGround(step('ground'), hour.ground, reference);
  if (!ground.ok) return ground;
  for (const { recipe, name, jarKind, appetite } of chosen) {
    const place = canningPlace(await householdById(db, householdId), await cannersOf(db, householdId), today);
    const kept = recipeToKeep(
      recipe,
      { name, jarKind, handsOnMinutes: handsOnGuess[recipe.kind], minutesGuessed: true, lbByCrop: new Map() },
      place,
      reference,
      supplyGuessFor,
    );
    if (!kept.ok) return kept;
    const life = recipeLife(recipe, reference.shelfLives);
    const added = await addPreserve(step(`preserve ${recipe.key}`), {
      ...inJars,
      name,
      family: recipeFamily(recipe),
      jarKind,
      shelfLifeKey: life.shelfLifeKey,
      bestQualityDays: life.bestQualityDays,
      keepColdDays: life.opened.days,
      chanceWanted: firstChanceWanted,
      use: appetite,
      recipe: kept.value,
    });
    if (!added.ok) return added;
  }
  return addSources(step, hour, setting);
}

interface ChosenRecipe {
  readonly recipe: TestedRecipe;
  readonly name: string;
  readonly jarKind: JarKind;
  readonly appetite: Appetite;
}

function chosenRecipes(hour: FirstHour, reference: ReferenceTables): Outcome<readonly ChosenRecipe[]> {
  const book = testedRecipes(reference);
  const unknown: Problem[] = [];
  const chosen = hour.preserves.flatMap(({ recipeKey, appetite }): ChosenRecipe[] => {
    const recipe = book.find((one) => one.key === recipeKey);
    const common = firstYear().preserves.find((one) => one.recipeKey === recipeKey);
    if (recipe && common) return [{ recipe, name: common.name, jarKind: common.jarKind, appetite }];
    unknown.push({
      code: 'preserve-unknown',
      path: [`eats-${recipeKey}`],
      message: 'Choose a preserve of the list.',
    });
    return [];
  });
  return unknown.length > 0 ? refused(...unknown) : found(chosen);
}

type Step = (name: string) => Recording;

async function setUpKitchen(
  step: Step,
  hour: FirstHour,
  { cannerFacts }: ReferenceTables,
): Promise<Outcome<true>> {
  const unsaid = { gaugeOffAt5: null, gaugeOffAt10: null, gaugeOffAt15: null, volumeQuarts: null };
  const sized = (method: CannerSize['method'], key: string) => {
    const sizes = cannerSizes(cannerFacts).filter((size) => size.method === method);
    const { holds } = sizes.find((size) => size.key === key) ?? entry(sizes, 0, 'sizes');
    return {
      cannerId: null,
      quartJars: holds.quarts,
      pintJars: holds.pints,
      halfPintJars: holds.halfPints,
      ...unsaid,
    };
  };
  const writes: (() => Promise<Outcome<unknown>>)[] = [];
  const { altitudeFt, boilingWater, pressure } = hour;
  if (altitudeFt !== null) writes.push(() => setAltitude(step('altitude'), { altitudeFt }));
  if (boilingWater !== null)
    writes.push(() =>
      saveCanner(step('boiling water'), {
        ...sized('boiling-water', boilingWater.size),
        name: 'Boiling-water canner',
        method: 'boiling-water',
        gauge: null,
        gaugeCheckedOn: null,
      }),
    );
  if (pressure !== null)
    writes.push(() =>
      saveCanner(step('pressure'), {
        ...sized('pressure', pressure.size),
        name: 'Pressure canner',
        method: 'pressure',
        gauge: pressure.gauge,
        gaugeCheckedOn: pressure.checkedOn,
        ...(pressure.gauge !== 'dial' || pressure.off === undefined
          ? {}
          : {
              gaugeOffAt5: pressure.off.at5,
              gaugeOffAt10: pressure.off.at10,
              gaugeOffAt15: pressure.off.at15,
            }),
      }),
    );
  for (const jar of firstYear().jars) {
    const onHand = hour.jars.find(({ kind }) => sizeOf(kind) === sizeOf(jar.kind))?.onHand ?? 0;
    writes.push(() =>
      setJarHolding(step(`jars ${jar.kind}`), {
        jarKind: jar.kind,
        empty: onHand,
        price: jar.price,
        pack: jar.pack,
      }),
    );
  }
  for (const mouth of mouths)
    writes.push(() =>
      setLids(step(`lids ${mouth}`), { ...lidBox, mouth, onHand: mouth === 'regular' ? hour.lids : 0 }),
    );
  writes.push(() =>
    setKitchenTime(step('time'), {
      ...hour.time,
      setUpMinutes: 45,
      stoveBurners: 4,
      sessionWeekday: 6,
      who: '',
    }),
  );
  writes.push(() => setSeasonFund(step('fund'), { balance: hour.fund.now, weekly: hour.fund.weekly }));
  for (const write of writes) {
    const outcome = await write();
    if (!outcome.ok) return outcome;
  }
  return found(true);
}

const placeWords: Readonly<Record<SourceRequest['kind'], string>> = {
  market: 'at the market',
  'pick-your-own': 'to pick yourself',
  garden: 'from the garden',
};

/** One source for each crop the recipes wait for, with the season guessed for where the household gardens. */
async function addSources(
  step: Step,
  hour: FirstHour,
  { reference, today }: FirstHourSetting,
): Promise<Outcome<true>> {
  const { db, householdId } = step('read');
  const recipes = await recipesOf(db, householdId);
  const ground = await householdGround(db, householdId, reference);
  const crops = [...new Set(recipes.flatMap((recipe) => recipe.produce.map(({ crop }) => crop)))];
  for (const crop of crops) {
    const guess = cropGuessFor(crop);
    const saved = await saveSource(step(`source ${crop}`), {
      sourceId: null,
      crop,
      name: `${guess.plural.charAt(0).toUpperCase()}${guess.plural.slice(1)} ${placeWords[hour.sourceKind]}`,
      kind: hour.sourceKind,
      pricePerLb:
        hour.sourceKind === 'garden'
          ? asCents(0)
          : hour.sourceKind === 'market'
            ? guess.marketPerLb
            : guess.pickingPerLb,
      plants: null,
      lbPerPlant: null,
      useByDays: guess.useByDays,
      poorYearChance: 0,
      poorYearShare: 0.3,
      fallBack: 'buy',
    });
    if (!saved.ok) return saved;
    const { sourceId } = saved.value;
    await record(step(`guess ${crop}`), 'note guess', { sourceId }, async (recorder) => {
      await noteGuess(recorder, 'source', sourceId);
      return found(true);
    });
    const answer = guessedSeason({ crop, kind: hour.sourceKind }, ground, reference);
    if (answer.kind !== 'window') continue;
    const season = seasonIn(answer.local.window, yearOf(today));
    const isActive = season.plannedOn === 'most-active';
    const window = await saveHarvestWindow(
      step(`window ${crop}`),
      {
        sourceId,
        beginsOn: season.beginsOn,
        lastOn: season.endsOn,
        mostActiveFrom: isActive ? season.plannedFrom : null,
        mostActiveLastOn: isActive ? season.plannedTo : null,
        lbPerWeek: guessedLbPerWeek(crop, hour.sourceKind, recipes),
      },
      { datesGuessed: true },
    );
    if (!window.ok) return window;
  }
  return found(true);
}
