import type { DaysToHarvestRow } from '../../shared/schemas/reference/days-to-harvest.ts';
import type { FreezeNormalRow } from '../../shared/schemas/reference/freeze-normal.ts';
import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import type { Climate, PlaceOnEarth } from './climate.ts';

export interface SeasonTables {
  readonly harvestWindows: readonly HarvestWindowRow[];
  readonly daysToHarvest: readonly DaysToHarvestRow[];
  readonly freezeNormals: readonly FreezeNormalRow[];
}

/** Where a household gardens and shops, as far as it is known. */
export interface Ground {
  /** Region of the season tables; null where its state has none or nothing is known. */
  readonly region: string | null;
  readonly spot: PlaceOnEarth | null;
  /** Null where neither a station nor dates of its own are known: then the region's own is taken. */
  readonly climate: Climate | null;
  /** Days its strawberries come after the date printed for its region (before: negative); null where nobody said. */
  readonly strawberriesLater: number | null;
}
