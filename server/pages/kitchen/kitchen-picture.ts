import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { BatchDecision } from '../../../src/household/decision.ts';
import type { Household } from '../../../src/household/household.ts';
import type {
  Canner,
  DaysOff,
  KitchenHours,
  Place,
  SeasonFundSetting,
} from '../../../src/household/kitchen.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { JarStock, LidStock } from '../../../src/household/supplies.ts';
import type { LeftOutRecipe } from '../../../src/planning/year/planned-recipes.ts';
import type { UpkeepLine } from '../../../src/preserving/upkeep.ts';
import type { Choice } from '../../../views/parts/form.tsx';
import type { Reading } from '../../../views/words/reading.ts';
import type { UnfitValue } from '../../queries/household/unfit-values.ts';

/** The kitchen as it stands. */
export interface KitchenPicture {
  readonly household: Household;
  readonly processTimes: ReferenceTables['processTimes'];
  readonly canners: readonly Canner[];
  readonly hours: KitchenHours;
  readonly daysOff: DaysOff;
  readonly fund: SeasonFundSetting | null;
  readonly jars: readonly JarStock[];
  readonly lids: readonly LidStock[];
  readonly places: readonly Place[];
  /** Regions whose harvest seasons are published. */
  readonly regions: readonly Choice[];
  readonly kept: readonly BatchDecision[];
  readonly recipes: readonly Recipe[];
  /** Recipes that cannot be planned here, with the rules in their way. */
  readonly leftOut: readonly LeftOutRecipe[];
  /** Stored values that no form takes. */
  readonly unfit: readonly UnfitValue[];
  readonly upkeep: readonly UpkeepLine[];
  readonly cannerFacts: ReferenceTables['cannerFacts'];
  readonly today: CalendarDate;
  readonly reading: Reading;
}
