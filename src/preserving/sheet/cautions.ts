import { counted } from '../../../shared/counting.ts';
import { type Citation, cite } from '../citation.ts';
import type { Schedule } from '../lookup/schedule.ts';
import { needsSterileJars, sterilizingMinutes } from './sterile-jars.ts';

export interface Caution {
  readonly code: string;
  readonly text: string;
  readonly source: Citation;
}

/** Cautions that hold whatever is processed, and when nothing can be. */
export const everyCaution: readonly Caution[] = [
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
    text: 'Botulism can kill and may leave no sign in the jar. Leaks, bulging lids, spurting, gas, mold or an odd smell mean: do not use.',
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
  ...everyCaution,
  ...ofSchedule(schedule),
];

const noFrostedVines: Caution = {
  code: 'no-frosted-vines',
  text: 'No tomatoes from dead or frost-killed vines.',
  source: cite('USDA-G3', 'p3-5'),
};
const yellowFleshOnly: Caution = {
  code: 'yellow-flesh-only',
  text: 'Only yellow-fleshed fruit. White-fleshed peaches and nectarines can be low-acid and have no process.',
  source: cite('UW-WHITEPEACH', 'whole page'),
};
const noElderberries: Caution = {
  code: 'no-elderberries',
  text: 'Not elderberries: they are less acid than other berries.',
  source: cite('UMAINE-ELDER', 'elderberries'),
};
const noThickener: Caution = {
  code: 'no-thickener',
  text: 'No noodles, pasta, rice, flour, cream or other thickener; solids fill half the jar, liquid the rest.',
  source: cite('USDA-G4', 'p4-18/19'),
};
const proportionsFixed: Caution = {
  code: 'proportions-fixed',
  text: 'Keep the printed proportions of vegetables and acid.',
  source: cite('USDA-G3', 'p3-19 to p3-21'),
};

const ofFood: Readonly<Record<string, readonly Caution[]>> = {
  peaches: [yellowFleshOnly],
  'peach-pie-filling': [yellowFleshOnly],
  'peach-jam': [yellowFleshOnly],
  'peach-salsa': [yellowFleshOnly, proportionsFixed],
  'peach-apple-salsa': [yellowFleshOnly, noFrostedVines, proportionsFixed],
  'peach-pineapple-spread': [yellowFleshOnly],
  'mixed-fruit-cocktail': [yellowFleshOnly],
  'berries-whole': [noElderberries],
  'berry-syrup': [noElderberries],
  'berry-jam': [noElderberries],
  'fruit-puree': [
    {
      code: 'puree-fruits',
      text: 'Not for banana, fig, Asian pear, tomato, melon, papaya, ripe mango or coconut.',
      source: cite('USDA-G2', 'p2-14'),
    },
    noElderberries,
  ],
  'tomato-juice': [noFrostedVines],
  'tomatoes-crushed': [noFrostedVines],
  'tomato-sauce': [noFrostedVines],
  'tomatoes-whole-water': [noFrostedVines],
  'tomatoes-whole-no-liquid': [noFrostedVines],
  'tomatoes-okra-zucchini': [noFrostedVines],
  'tomato-ketchup': [noFrostedVines],
  'mexican-tomato-sauce': [noFrostedVines],
  'chile-con-carne': [noFrostedVines],
  'mixed-vegetables': [noFrostedVines],
  'chile-salsa': [noFrostedVines, proportionsFixed],
  'chile-salsa-ii': [noFrostedVines, proportionsFixed],
  'tomato-salsa-slicing': [noFrostedVines, proportionsFixed],
  'tomato-green-chile-salsa': [noFrostedVines, proportionsFixed],
  'tomato-paste-salsa': [noFrostedVines, proportionsFixed],
  'tomatillo-green-salsa': [proportionsFixed],
  'mango-salsa': [proportionsFixed],
  'spicy-cranberry-salsa': [proportionsFixed],
  'choice-salsa': [noFrostedVines, proportionsFixed],
  'tomato-salsa-paste': [noFrostedVines, proportionsFixed],
  'tomato-taco-sauce': [noFrostedVines, proportionsFixed],
  'spaghetti-sauce-no-meat': [
    noFrostedVines,
    {
      code: 'vegetables-capped',
      text: 'Do not increase the onions, peppers or mushrooms.',
      source: cite('USDA-G3', 'p3-13'),
    },
  ],
  'spaghetti-sauce-meat': [
    noFrostedVines,
    {
      code: 'vegetables-capped',
      text: 'Do not increase the onions, peppers or mushrooms.',
      source: cite('USDA-G3', 'p3-13'),
    },
  ],
  soup: [noThickener],
  'winter-squash': [
    {
      code: 'cubes-only',
      text: 'Cubes only, never mashed or pureed.',
      source: cite('USDA-G4', 'p4-18'),
    },
  ],
  'sweet-potatoes': [
    {
      code: 'pieces-in-liquid',
      text: 'Pieces in liquid only, never mashed and never packed dry.',
      source: cite('USDA-G4', 'p4-16'),
    },
  ],
  mushrooms: [
    {
      code: 'no-wild-mushrooms',
      text: 'Bought domestic mushrooms only, no wild ones.',
      source: cite('USDA-G4', 'p4-13'),
    },
  ],
};

const ofSchedule = (schedule: Schedule): Caution[] => {
  const cautions: Caution[] = [];
  if (schedule.acid) {
    cautions.push({
      code: 'acid-per-jar',
      text: `Put the acid into each jar before closing it: the ${schedule.acid.per} dose, in any canner.`,
      source: schedule.acid.oneOf[0]?.source ?? cite('USDA-G3', 'p3-5'),
    });
  }
  if (needsSterileJars(schedule)) {
    cautions.push({
      code: 'sterile-jars',
      text: `Boil the empty jars ${counted(sterilizingMinutes(schedule.altitudeFt), 'minute')} first, at this altitude, and fill them hot.`,
      source: cite('USDA-G1', 'p1-14/15'),
    });
  }
  if (schedule.acidity === 'low-acid') {
    cautions.push({
      code: 'pressure-only',
      text: 'This food is low-acid: it is canned in a pressure canner only, never in boiling water.',
      source: cite('USDA-G1', 'p1-8, p1-17'),
    });
  }
  cautions.push(...(Object.hasOwn(ofFood, schedule.foodKey) ? (ofFood[schedule.foodKey] ?? []) : []));
  return cautions;
};
