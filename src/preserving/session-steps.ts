import { type Citation, cite, fromMemory } from './citation.ts';
import { kitchenAmount, shownPressure } from './display-units.ts';
import { clockStarts } from './load-time.ts';
import type { Schedule } from './schedule.ts';

/** One line of the checklist for a load. */
export interface SessionStep {
  readonly key: string;
  readonly text: string;
  readonly source: Citation;
  /** The load may not start before this is ticked. */
  readonly blocksLoad: boolean;
}

const step = (key: string, text: string, source: Citation, blocksLoad = false): SessionStep => ({
  key,
  text,
  source,
  blocksLoad,
});

/**
 * The checklist of one load, in order: jars, filling, acid, closing, loading, the clock, taking out, rest and check, in
 * our own words. Acid per jar blocks the load. Minutes and pressure are the schedule's, pressure rounded up to whole psi.
 *
 * Sources: USDA Complete Guide 1, p1-13 to p1-26; the schedule's own row for time and pressure.
 */
export const sessionSteps = (schedule: Schedule): readonly SessionStep[] => [
  ...jarSteps(schedule),
  ...fillSteps(schedule),
  ...cannerSteps(schedule),
  step(
    'rest',
    'Lift the jars out upright onto a towel, an inch apart, and leave them alone for 12 to 24 hours. Do not tighten the bands.',
    cite('USDA-G1', 'p1-18, p1-25'),
  ),
  step(
    'check-seals',
    'After 12 to 24 hours take the bands off and check every seal. Wipe, label with food and date, and store clean, cool, dark and dry.',
    cite('USDA-G1', 'p1-25, p1-26'),
  ),
];

const jarSteps = (schedule: Schedule): SessionStep[] => [
  step(
    'check-jars',
    'Look over jars and rims for nicks and cracks; wash them. Have new lids ready, one for each jar and some over.',
    cite('USDA-G1', 'p1-13, p1-14'),
  ),
  schedule.sterileJars
    ? step(
        'sterilise-jars',
        'Boil the empty jars for 10 minutes, a minute more for each 1,000 ft of altitude, and keep them hot.',
        cite('USDA-G1', 'p1-14, p1-15'),
        true,
      )
    : step('warm-jars', 'Keep the clean jars hot until they are filled.', cite('USDA-G1', 'p1-14')),
];

const fillSteps = (schedule: Schedule): SessionStep[] => {
  const { acid, headspaceIn } = schedule;
  return [
    ...(acid
      ? [
          step(
            'acid-per-jar',
            `Put acid into every jar before closing it: ${acid.oneOf.map(acidInWords).join(', or ')}.`,
            acid.oneOf[0]?.source ?? cite('USDA-G3', 'p3-5'),
            true,
          ),
        ]
      : []),
    step(
      'fill',
      headspaceIn === null
        ? 'Fill the hot jars and free the air bubbles.'
        : `Fill the hot jars, leave ${kitchenAmount(headspaceIn)} inch below the rim, and free the air bubbles.`,
      schedule.source,
    ),
    step(
      'close',
      'Wipe the rims, set the lids and turn the bands finger-tight.',
      fromMemory('Guide 1, closing jars'),
    ),
  ];
};

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

const cannerSteps = (schedule: Schedule): SessionStep[] => {
  const clock = step(
    'process',
    `Process ${schedule.minutes} minutes${schedule.psi === null ? '' : ` at ${shownPressure(schedule.psi)} psi`}. The clock starts ${clockStarts[schedule.method]}; if that stops, bring it back and start the whole time again.`,
    schedule.source,
  );
  switch (schedule.method) {
    case 'boiling-water':
      return [
        step(
          'load',
          `Set the jars upright in the hot canner, at least ${schedule.waterAboveJarsIn ?? 1} inch under water, lid on, and bring it to a full boil.`,
          cite('USDA-G1', 'p1-18'),
        ),
        clock,
        step('heat-off', 'Turn the heat off, take the lid off and wait 5 minutes.', cite('USDA-G1', 'p1-18')),
      ];
    case 'atmospheric-steam':
      return [
        step(
          'load',
          'Set the hot jars on the rack, cover, and heat until a full column of steam comes from the vents.',
          cite('NCHFP-STEAM', 'fact sheet'),
        ),
        clock,
        step(
          'heat-off',
          'Turn the heat off and wait before lifting the lid away from you.',
          fromMemory('steam canner use'),
        ),
      ];
    case 'pressure':
      return [
        step(
          'load',
          schedule.foodKey === 'fish' && schedule.printedJar === 'quart'
            ? 'Set the jars on the rack with 3 quarts of water; heating and venting together take at least 30 minutes.'
            : 'Set the jars on the rack with 2 to 3 inches of hot water and fasten the lid.',
          schedule.foodKey === 'fish' ? cite('USDA-G5', 'p5-12') : cite('USDA-G1', 'p1-21'),
        ),
        step(
          'vent',
          'Let steam stream from the open vent for 10 minutes, then close it.',
          cite('USDA-G1', 'p1-20, p1-22'),
        ),
        clock,
        step(
          'depressurise',
          'Turn the heat off and let the pressure fall by itself; never cool the canner or open the vent.',
          cite('USDA-G1', 'p1-22'),
        ),
        step(
          'open',
          'When the pressure is gone take the weight off, wait 10 minutes, and lift the lid away from you.',
          cite('USDA-G1', 'p1-22'),
        ),
      ];
  }
};

/** Steps that must be ticked before the load may start and are not. An empty list: the load may start. */
export const stepsBlockingLoad = (
  steps: readonly SessionStep[],
  ticked: ReadonlySet<string>,
): readonly SessionStep[] => steps.filter((candidate) => candidate.blocksLoad && !ticked.has(candidate.key));
