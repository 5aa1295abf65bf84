import { type Citation, cite } from '../citation.ts';
import { type Refusal, refusal } from '../refusal.ts';

/** Something true of the food or the acid in front of the cook that forbids canning it. */
export const foodConditions = [
  'white-fleshed',
  'elderberry',
  'frost-killed-vine',
  'homemade-vinegar',
  'vinegar-under-5-percent',
  'fresh-lemon-juice',
  'thickener-added',
  'oil-added',
  'dairy-added',
  'pureed',
  'proportions-changed',
] as const;
export type FoodCondition = (typeof foodConditions)[number];

const conditionRules: Readonly<Record<FoodCondition, readonly [string, Citation, string]>> = {
  'white-fleshed': [
    'White-fleshed peaches and nectarines can be low-acid; no process or acid amount has been tested for them',
    cite('UW-WHITEPEACH', 'whole page'),
    'Freeze them.',
  ],
  elderberry: [
    'Elderberries are less acid than other berries; untreated they must not stand in for them',
    cite('UMAINE-ELDER', 'elderberries'),
    'Freeze them.',
  ],
  'frost-killed-vine': [
    'Tomatoes from dead or frost-killed vines can be too low in acid and must not be canned',
    cite('USDA-G3', 'p3-5'),
    'Freeze them, or cook and eat them now.',
  ],
  'homemade-vinegar': [
    'Vinegar must be of known acidity, at least 5 percent; homemade vinegar is of unknown strength',
    cite('USDA-G3', 'p3-19'),
    'Use bought vinegar marked 5 percent, or bottled lemon juice where the recipe allows it.',
  ],
  'vinegar-under-5-percent': [
    'Vinegar must be at least 5 percent acid',
    cite('USDA-G3', 'p3-19'),
    'Use bought vinegar marked 5 percent.',
  ],
  'fresh-lemon-juice': [
    'The acid doses are stated for bottled lemon juice; fresh juice varies in strength',
    cite('USDA-G3', 'p3-5'),
    'Use bottled lemon juice or citric acid.',
  ],
  'thickener-added': [
    'No flour, starch, pasta, rice or cream may be added beyond the printed exceptions',
    cite('USDA-G4', 'p4-18/19'),
    'Thicken the food when the jar is opened.',
  ],
  'oil-added': [
    'Oil beyond what the printed recipe names is not tested',
    cite('PSU-COLUMN', 'column of Sep 19, 2020'),
    'Leave it out, or freeze the food.',
  ],
  'dairy-added': [
    'Milk, cream, butter and cheese beyond what the printed recipe names are not tested',
    cite('PSU-COLUMN', 'column of Sep 19, 2020'),
    'Add them when the jar is opened.',
  ],
  pureed: [
    'A puree heats otherwise than pieces; a process for pieces does not cover it',
    cite('USDA-G1', 'p1-31'),
    'Can the pieces and puree them when the jar is opened, or freeze the puree.',
  ],
  'proportions-changed': [
    'Proportions of vegetables, acid and solids are part of what was tested',
    cite('USDA-G3', 'p3-19 to p3-21'),
    'Follow the printed amounts, or refrigerate or freeze what was made.',
  ],
};

export const conditionRefusal = (condition: FoodCondition): Refusal => {
  const [rule, source, instead] = conditionRules[condition];
  return refusal(`condition-${condition}`, 'conditions', rule, source, instead);
};
