import { type Citation, cite, fromMemory } from './citation.ts';
import type { Schedule } from './schedule.ts';

export interface Caution {
  readonly code: string;
  readonly text: string;
  readonly source: Citation;
}

const always: readonly Caution[] = [
  {
    code: 'official-guide-first',
    text: 'The current official canning guide and your local extension service come before this sheet. Where they differ, follow them.',
    source: cite('USDA-G1', 'whole guide'),
  },
  {
    code: 'altitude',
    text: 'The time holds only for the altitude printed here. Higher places need more minutes or more pressure.',
    source: cite('USDA-G1', 'p1-17 to p1-20'),
  },
  {
    code: 'botulism-signs',
    text: 'Botulism can kill and may leave no sign in the jar. Leaks, bulging lids, spurting, gas, mould or an odd smell mean: do not use.',
    source: cite('USDA-SPOILED', 'whole text'),
  },
  {
    code: 'do-not-taste',
    text: 'Never taste food to find out whether it is still good.',
    source: cite('USDA-SPOILED', 'whole text'),
  },
  {
    code: 'gauge-check',
    text: 'A dial gauge is checked every year before the season and replaced when more than 2 psi off.',
    source: cite('USDA-G1', 'p1-20'),
  },
];

const restart: Readonly<Record<Schedule['method'], Caution>> = {
  'boiling-water': {
    code: 'restart-clock',
    text: 'If the water stops boiling, bring it back to a full boil and start the whole time again.',
    source: cite('USDA-G1', 'p1-18'),
  },
  'atmospheric-steam': {
    code: 'restart-clock',
    text: 'If the steam stops or the canner runs dry, start the whole time again. Do not open the canner while it runs.',
    source: cite('NCHFP-STEAM', 'fact sheet'),
  },
  pressure: {
    code: 'restart-clock',
    text: 'If the pressure falls below the one printed, bring it back and start the whole time again.',
    source: cite('USDA-G1', 'p1-22'),
  },
};

/**
 * The cautions that stand on every processing answer and canning-day sheet, the restart rule of the canner first, in our
 * own words; then those the schedule itself calls for.
 */
export const cautionsFor = (schedule: Schedule): readonly Caution[] => [
  restart[schedule.method],
  ...always,
  ...ofSchedule(schedule),
];

const ofSchedule = (schedule: Schedule): Caution[] => {
  const cautions: Caution[] = [];
  if (schedule.acid) {
    cautions.push({
      code: 'acid-per-jar',
      text: `Put the acid into each jar before closing it: the ${schedule.acid.per} dose, in any canner.`,
      source: schedule.acid.oneOf[0]?.source ?? cite('USDA-G3', 'p3-5'),
    });
  }
  if (schedule.sterileJars) {
    cautions.push({
      code: 'sterile-jars',
      text: 'Boil the empty jars 10 minutes first, one minute more for each 1,000 ft, and fill them hot.',
      source: cite('USDA-G1', 'p1-14/15'),
    });
  }
  if (schedule.acidity === 'low-acid') {
    cautions.push({
      code: 'boil-before-eating',
      text: 'Where anything about the processing is in doubt, do not eat the food; boiling does not make a badly processed jar good.',
      source: fromMemory('general extension advice'),
    });
  }
  if (schedule.foodKey === 'peaches') {
    cautions.push({
      code: 'yellow-flesh-only',
      text: 'Only yellow-fleshed peaches. White-fleshed ones can be low-acid and have no process.',
      source: cite('UW-WHITEPEACH', 'whole page'),
    });
  }
  if (schedule.foodKey.startsWith('tomato')) {
    cautions.push({
      code: 'no-frosted-vines',
      text: 'No tomatoes from dead or frost-killed vines.',
      source: cite('USDA-G3', 'p3-5'),
    });
  }
  return cautions;
};
