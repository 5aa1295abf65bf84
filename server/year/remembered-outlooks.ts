import { setImmediate } from 'node:timers/promises';
import type { UseForecast } from '../../src/consumption/use-forecast.ts';
import type { AskOutlook } from '../../src/planning/make-plan.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';
import { outlookUnder, type ProjectItem, projectAnew } from '../../src/planning/year/item-outlook.ts';
import type { ShelfProjection } from '../../src/shelf/shelf-projection.ts';

// A jar taken changes the outlook of one item out of forty; the others are asked for again with the very same figures.
interface Remembered {
  readonly ahead: string;
  readonly forecast: UseForecast;
  readonly projection: ShelfProjection;
}
const outlooks = new Map<string, Remembered>();
const mostRemembered = 2000;

/** The projection of an item, worked out again only when a figure of it changed. */
export const rememberedProjection: ProjectItem = (place, forecast, ahead) => {
  const said = JSON.stringify(ahead);
  const last = outlooks.get(place);
  if (last?.ahead === said && isSameForecast(last.forecast, forecast)) return last.projection;
  const projection = projectAnew(place, forecast, ahead);
  if (outlooks.size >= mostRemembered) outlooks.clear();
  outlooks.set(place, { ahead: said, forecast, projection });
  return projection;
};

/** The very same one, or one of the same figures. */
const isSameForecast = (one: UseForecast, other: UseForecast): boolean =>
  one === other || figuresOf(one) === figuresOf(other);
const figuresOf = ({ belief, weeks }: UseForecast): string => JSON.stringify([belief, weeks]);

/** How the core plans a household's year here: others are served between two items and two sampled years. */
export const servedBetween = (
  loaded: HouseholdYear,
): { readonly outlookOf: AskOutlook; readonly pause: () => Promise<unknown> } => ({
  outlookOf: outlookUnder(loaded, rememberedProjection, setImmediate),
  pause: setImmediate,
});
