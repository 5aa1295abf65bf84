import { bounds } from '../../../shared/bounds.ts';
import { counted, isOrAre } from '../../../shared/counting.ts';
import type { Problem } from '../../../shared/problems.ts';
import type { LoadPhaseName } from './load-time.ts';

/** What the kitchen has on the day. Every canner stands on a burner of its own while it works. */
export interface DayKitchen {
  readonly people: number;
  readonly burners: number;
  readonly canners: readonly string[];
  /** The household's own minutes for putting one load into a canner and for taking one out. */
  readonly loadingMinutes: number;
  readonly unloadingMinutes: number;
}

/** One pot of a recipe: prepared, cooked, filled into jars and processed in one or more loads. */
export interface DayBatch {
  readonly id: string;
  readonly name: string;
  readonly canner: string;
  /** Pots cooked one after the other; a jam batch is a pot. */
  readonly pots: number;
  /** The household's own minutes for one pot; cook 0 for a raw pack. */
  readonly prepMinutes: number;
  readonly cookMinutes: number;
  /** Whether someone must stand by while it cooks. */
  readonly stirred: boolean;
  /** Minutes to fill the jars of one load. */
  readonly fillMinutes: number;
  readonly loadsPerPot: number;
  /** Phases of one load in whole minutes, at the high end of the published ranges. */
  readonly phases: readonly { readonly name: LoadPhaseName; readonly minutes: number }[];
  /** Acid goes into each jar, and must be ticked before a load may start. */
  readonly acidPerJar: boolean;
  /** The schedule of the loads; loads of different schedules never share a canner. */
  readonly rowKey: string;
}

export type TaskKind =
  | 'prepare'
  | 'cook'
  | 'keep-hot'
  | 'fill'
  | 'load'
  | LoadPhaseName
  | 'unload'
  | 'rest'
  | 'check-seals';

/** One thing on the day's timeline; minutes from its start, the last not included. */
export interface DayTask {
  readonly kind: TaskKind;
  readonly batch: string;
  readonly pot: number;
  readonly load: number | null;
  readonly fromMinute: number;
  readonly toMinute: number;
  /** Numbered from 0; `null` where nobody needs a hand on it. */
  readonly person: number | null;
  readonly burner: number | null;
  readonly canner: string | null;
  /** Set on a load: what must be ticked before it may start. */
  readonly tickFirst: 'acid-per-jar' | null;
}

/** What a kitchen lacks for these batches, in the household's words; an empty list when it can do them. */
export const kitchenProblems = (kitchen: DayKitchen, batches: readonly DayBatch[]): Problem[] => {
  const problems: Problem[] = [];
  const say = (code: string, field: string, message: string): void => {
    problems.push({ code, path: [field], message });
  };
  if (!(Number.isInteger(kitchen.people) && kitchen.people >= 1 && kitchen.people <= 20)) {
    say('nobody', 'people', `${kitchen.people} people at work is not 1 to 20. Write who helps.`);
  }
  const cooks = batches.some((batch) => batch.cookMinutes > 0);
  const needed = cooks ? 2 : 1;
  if (!(Number.isInteger(kitchen.burners) && kitchen.burners >= needed && kitchen.burners <= 20)) {
    say(
      'too-few-burners',
      'burners',
      `This takes ${counted(needed, 'burner')}, one for the canner${cooks ? ' and one for the pot' : ''}, and there ${isOrAre(kitchen.burners)} ${kitchen.burners}. Choose a raw pack, or cook and process on separate days.`,
    );
  }
  for (const batch of batches) {
    if (!kitchen.canners.includes(batch.canner)) {
      say(
        'canner-missing',
        'canners',
        `${batch.name} needs the canner ${batch.canner}; on the day there are ${kitchen.canners.join(', ') || 'none'}. Choose another canner.`,
      );
    }
    const minutes = [
      batch.prepMinutes,
      batch.cookMinutes,
      batch.fillMinutes,
      kitchen.loadingMinutes,
      kitchen.unloadingMinutes,
      ...batch.phases.map((phase) => phase.minutes),
    ];
    if (minutes.some((value) => !Number.isInteger(value) || value < 0)) {
      say(
        'minutes-not-whole',
        'minutes',
        `The minutes of ${batch.name} must be whole and 0 or more, not ${minutes.join(', ')}.`,
      );
    }
    if (
      ![batch.pots, batch.loadsPerPot].every((count) => Number.isInteger(count) && count >= 1 && count <= 100)
    ) {
      say(
        'counts-not-whole',
        'pots',
        `${batch.name} takes 1 to 100 pots and loads, not ${batch.pots} and ${batch.loadsPerPot}.`,
      );
    }
  }
  const loads = batches.reduce((sum, batch) => sum + batch.pots * batch.loadsPerPot, 0);
  if (loads > bounds.loadsOfDay.to)
    say(
      'too-many-loads',
      'batches',
      `One day takes ${bounds.loadsOfDay.to} canner loads at most; this one would have ${loads}. Move a batch to another day.`,
    );
  return problems;
};
