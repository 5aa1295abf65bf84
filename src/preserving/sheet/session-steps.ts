import { counted } from '../../../shared/counting.ts';
import { cite } from '../citation.ts';
import { inInches, kitchenAmount } from '../lookup/display-units.ts';
import type { Schedule } from '../lookup/schedule.ts';
import { cannerSteps, waterSteps } from './canner-steps.ts';
import type { FoodSteps } from './food-steps.ts';
import { numbered, type SessionStep, step } from './session-step.ts';
import { afterSteps } from './steps-afterwards.ts';
import { needsSterileJars, sterilizingMinutes } from './sterile-jars.ts';

/**
 * The whole sheet of one load, in the order of the printed guide and in our own words: jars and lids, the food's own
 * preparing and boiling, acid per jar, filling, bubbles and headspace, closing, the canner, the clock and what starts it
 * again, cooling, rest, seals, and storing. Boiling of empty jars, acid per jar and venting block the clock. Minutes and
 * pressure are the schedule's, pressure rounded up to whole psi.
 *
 * Sources: USDA Complete Guide 1, p1-13 to p1-26; the food's own page; the schedule's own row for time and pressure.
 */
export const sessionSteps = (schedule: Schedule, food: FoodSteps): readonly SessionStep[] =>
  numbered([
    ...food.before,
    ...jarSteps(schedule),
    ...(schedule.method === 'pressure' ? [] : waterSteps(schedule)),
    ...food.cooking,
    ...acidStep(schedule),
    ...food.filling,
    ...closingSteps(schedule),
    ...(schedule.method === 'pressure' ? waterSteps(schedule) : []),
    ...cannerSteps(schedule),
    ...afterSteps(),
    ...food.curing,
  ]);

const jarSteps = (schedule: Schedule): SessionStep[] => [
  step(
    'jars',
    'Look over jars and rims for nicks, cracks and scratches. Wash them in hot water with detergent and rinse well.',
    cite('USDA-G1', 'p1-14'),
  ),
  step(
    'lids',
    'Take new lids, none old, dented or bent, one for each jar and some over. Get them ready as their maker says.',
    cite('USDA-G1', 'p1-15'),
  ),
  needsSterileJars(schedule)
    ? step(
        'sterilize',
        `Boil the empty jars ${counted(sterilizingMinutes(schedule.altitudeFt), 'minute')} (at ${inFeet(schedule.altitudeFt)}), an inch under water, and keep them hot until they are filled.`,
        cite('USDA-G1', 'p1-14 to p1-15'),
        true,
      )
    : step(
        'keep-hot',
        'Keep the jars hot until they are filled, in simmering water of 180 °F.',
        cite('USDA-G1', 'p1-14'),
      ),
];

/** `5,300 ft`; whole feet, rounded up. */
const inFeet = (feet: number): string =>
  `${String(Math.ceil(feet)).replace(/\B(?=(\d{3})+(?!\d))/g, ',')} ft`;

const acidStep = ({ acid }: Schedule): SessionStep[] =>
  acid
    ? [
        step(
          'acid-per-jar',
          `Put acid into every jar before closing it: ${acid.oneOf.map(acidInWords).join(', or ')}.`,
          acid.oneOf[0]?.source ?? cite('USDA-G3', 'p3-5'),
          true,
        ),
      ]
    : [];

const acidNames = {
  bottled_lemon_juice: 'bottled lemon juice',
  citric_acid: 'citric acid',
  vinegar_5pct: 'vinegar of 5 percent',
} as const;

const acidInWords = (amount: {
  readonly quantity: number;
  readonly unit: string;
  readonly acid: keyof typeof acidNames;
}): string => `${kitchenAmount(amount.quantity)} ${amount.unit} ${acidNames[amount.acid]}`;

const closingSteps = ({ headspaceIn, source }: Schedule): SessionStep[] => [
  step(
    'headspace',
    headspaceIn === null
      ? 'Leave the headspace that the page of the food asks for.'
      : `Leave ${inInches(headspaceIn)} free below the rim.`,
    source,
  ),
  step(
    'bubbles',
    'Free the air bubbles: move a flat spatula that is not metal up and down between food and glass, turning the jar.',
    cite('USDA-G1', 'p1-15'),
  ),
  step(
    'headspace-again',
    'Measure the headspace again and adjust it: add hot liquid or take some out.',
    cite('USDA-G1', 'p1-15'),
  ),
  step('rim', 'Wipe every rim with a damp clean paper towel.', cite('USDA-G1', 'p1-15 to p1-16')),
  step('lid', 'Set the lid on, its sealing side down on the glass.', cite('USDA-G1', 'p1-16')),
  step(
    'band',
    'Turn the band on finger-tight, as its maker says: neither loose nor forced.',
    cite('USDA-G1', 'p1-16'),
  ),
];
