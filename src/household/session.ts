import type { RecipeId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';

/** How a day is laid out: from a start or back from an end, with so many people and burners. */
export interface SessionSetting {
  readonly by: 'start' | 'end';
  /** `09:00`, where the household lives. */
  readonly time: string;
  readonly people: number;
  /** Their names, as many as were said; left out where none were. */
  readonly who?: readonly string[];
  readonly burners: number;
  /** Chosen printed row by recipe, where the table prints alternatives. */
  readonly rows: Readonly<Record<string, string>>;
}

export interface SessionWork {
  readonly recipeId: RecipeId;
  readonly batches: number;
}

/** A canning day that somebody began: what is worked on does not change under them any more. */
export interface CanningSession {
  readonly on: CalendarDate;
  readonly setting: SessionSetting;
  readonly work: readonly SessionWork[];
  readonly openedAt: number;
}
