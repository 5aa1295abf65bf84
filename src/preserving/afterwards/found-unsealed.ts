import type { Acidity } from '../../../shared/schemas/reference/process-time.ts';
import { type Citation, cite } from '../citation.ts';

export interface HandlingStep {
  readonly text: string;
  readonly source: Citation;
}

/** A jar that lost its seal, or looks wrong, on the shelf. */
export interface SuspectJar {
  readonly acidity: Acidity | 'unknown';
  /** Tomatoes are handled as low-acid whatever their acid. */
  readonly tomato: boolean;
  /** A lid that bulges but still holds; otherwise it is open, leaking or loose. */
  readonly stillSealed: boolean;
}

const step = (text: string): HandlingStep => ({ text, source: cite('USDA-SPOILED', 'whole text') });

/**
 * What to do with a jar found unsealed or spoiled later on the shelf: always discard without tasting, never reprocess.
 * Low-acid food, tomatoes and food of unknown acidity are treated as if they held botulism toxin: a jar still sealed goes
 * into a closed heavy bag; an open or leaking one is boiled 30 minutes first, and everything it touched is cleaned.
 *
 * Source: USDA Complete Guide to Home Canning, Guide 1, identifying and handling spoiled canned food.
 */
export const suspectJarHandling = (jar: SuspectJar): readonly HandlingStep[] => {
  const first = step('Do not taste it, do not reprocess it, and keep it away from children and animals.');
  if (jar.acidity !== 'low-acid' && jar.acidity !== 'unknown' && !jar.tomato) {
    return [first, step('Throw the food away where no person or animal can eat it, and wash the jar.')];
  }
  if (jar.stillSealed) {
    return [
      first,
      step('Leave it closed. Put it into a heavy bag, close the bag, and put it in the trash.'),
      step('Wash your hands.'),
    ];
  }
  return [
    first,
    step('Wear gloves. Lay the jar and its lid on their side in a pot that holds at least 8 quarts.'),
    step(
      'Cover them with water at least 1 inch above, without splashing. Put the lid on and boil 30 minutes.',
    ),
    step('Let it cool, then put jar, lid and food in the trash.'),
    step('Scrub everything the jar or food touched, and throw the cloths away.'),
  ];
};
