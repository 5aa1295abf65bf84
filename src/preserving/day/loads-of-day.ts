import { loadPlaceOf } from './load-key.ts';
import type { ClockEvent } from './process-clock.ts';

/** What happened to each load of a day. */
export interface LoadsOfDay {
  readonly tickedByLoad: ReadonlyMap<string, ReadonlySet<string>>;
  readonly clockByLoad: ReadonlyMap<string, readonly ClockEvent[]>;
}

/** Recipes of which a load was ticked or timed. */
export const recipesOnTheStove = ({ tickedByLoad, clockByLoad }: LoadsOfDay): ReadonlySet<string> =>
  new Set(
    [...tickedByLoad]
      .flatMap(([key, steps]) => (steps.size > 0 ? [key] : []))
      .concat([...clockByLoad.keys()])
      .flatMap((key) => loadPlaceOf(key)?.recipe ?? []),
  );
