import type { HouseholdId } from '../../shared/ids.ts';
import type { MealKind } from '../../shared/meal-kinds.ts';
import type { CalendarDate } from '../../shared/week.ts';

export interface Household {
  readonly id: HouseholdId;
  readonly name: string;
  readonly people: number;
  /** A zone there is: UTC where another is stored. */
  readonly timeZone: string;
  /** As it is stored; no zone perhaps. */
  readonly storedTimeZone: string;
  readonly locale: string;
  /** ISO 4217 code of all its money. */
  readonly currency: string;
  readonly units: 'us' | 'metric';
  readonly weekStartsOn: 'monday' | 'sunday';
  readonly region: string | null;
  /** Null until the household has said it; nothing is processed before. */
  readonly altitudeFt: number | null;
  readonly storageTemperatureF: number | null;
  readonly crockQuarts: number;
  readonly freezerQuartsPerDay: number | null;
  readonly discardCeilingMonths: number;
  /** "We have recorded since …": from that day on eating counts, of all items; null where each item begins by itself. */
  readonly recordedSince: CalendarDate | null;
  /** For how many days it wants to be ready for an emergency; null while it has not said. */
  readonly emergencyDays: number | null;
  /** Water it keeps for that, gallons. */
  readonly waterGallons: number | null;
  /** When that was filled; null of what a store sold, or nobody said. */
  readonly waterFilledOn: CalendarDate | null;
  /** Servings it wants for each person and week; null where it has not said. */
  readonly servingsWanted: Readonly<Record<MealKind, number | null>>;
  /** Each take says which member took it. */
  readonly saysWhoTook: boolean;
  readonly isDemo: boolean;
}

/** A household as it is kept, with the number of its facts. */
export interface StoredHousehold extends Household {
  /** Counts the facts written; a plan made at a lower number is out of date. */
  readonly factsVersion: number;
}
