import { setImmediate } from 'node:timers/promises';
import { LRUCache } from 'lru-cache';
import type { HouseholdId } from '../../shared/ids.ts';
import type { UseForecast } from '../../src/consumption/use-forecast.ts';
import type { AskOutlook } from '../../src/planning/make-plan.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';
import { outlookUnder, type ProjectItem, projectAnew } from '../../src/planning/year/item-outlook.ts';
import type { ShelfProjection } from '../../src/shelf/shelf-projection.ts';

/** Of so many households the pictures are kept, and what they were made from: at 2 to 3 MB each, well below 1 GB. */
export const mostHouseholdsRemembered = 200;

// A jar taken changes the outlook of one item out of forty; the others are asked for again with the very same figures.
interface Remembered {
  readonly ahead: string;
  readonly forecast: UseForecast;
  readonly projection: ShelfProjection;
}
// Those of a household go together: of one of them forgotten, all of its picture would soon have to be worked out again.
type Outlooks = Map<string, Remembered>;
const outlooksOf = new LRUCache<HouseholdId, Outlooks>({ max: mostHouseholdsRemembered });

/** The projection of an item, worked out again only when a figure of it changed; remembered for who looks at the household next. */
export const rememberedProjection: ProjectItem = (place, forecast, ahead) => {
  const outlooks: Outlooks = outlooksOf.get(place.household) ?? new Map();
  outlooksOf.set(place.household, outlooks);
  return projectionFrom(outlooks)(place, forecast, ahead);
};

const projectionFrom =
  (outlooks: Outlooks): ProjectItem =>
  (place, forecast, ahead) => {
    const own = `${place.item} ${place.isPlanned}`;
    const said = JSON.stringify(ahead);
    const last = outlooks.get(own);
    if (last?.ahead === said && isSameForecast(last.forecast, forecast)) return last.projection;
    const projection = projectAnew(place, forecast, ahead);
    outlooks.set(own, { ahead: said, forecast, projection });
    return projection;
  };

/** The very same one, or one of the same figures. */
const isSameForecast = (one: UseForecast, other: UseForecast): boolean =>
  one === other || figuresOf(one) === figuresOf(other);
const figuresOf = ({ belief, weeks }: UseForecast): string => JSON.stringify([belief, weeks]);

/**
 * How the core plans a household's year here: others are served between two items and two sampled years. Outlooks of a household that
 * somebody looks at are remembered for its pages; of ten thousand planned in a night they are not.
 */
export const servedBetween = (
  loaded: HouseholdYear,
): { readonly outlookOf: AskOutlook; readonly pause: () => Promise<unknown> } => {
  const outlooks: Outlooks = outlooksOf.get(loaded.facts.household.id) ?? new Map();
  return { outlookOf: outlookUnder(loaded, projectionFrom(outlooks), setImmediate), pause: setImmediate };
};
