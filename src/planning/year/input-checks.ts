import { counted } from '../../../shared/counting.ts';
import { mouthOf } from '../../../shared/jar.ts';
import type { Problem } from '../../../shared/problems.ts';
import type { PlanningYear } from '../planning-year.ts';

/**
 * Everything that stands in the way of planning a year, in words a person can act on; an empty list is a sound year.
 * Each rule is a small function of its own and lists every offending thing.
 */
export function checkPlanningYear(year: PlanningYear): Problem[] {
  return inputRules.flatMap((rule) => rule(year));
}

type InputRule = (year: PlanningYear) => Problem[];

const problem = (code: string, path: Problem['path'], message: string): Problem => ({ code, path, message });
const isAmount = (amount: number) => Number.isFinite(amount) && amount >= 0;

const weeksAreThere: InputRule = ({ weeks }) =>
  weeks.length > 0
    ? []
    : [
        problem(
          'no-weeks',
          ['weeks'],
          'A plan needs at least one week; none were given. Choose a date to plan from.',
        ),
      ];

/** Low-acid food is made safe by pressure alone; a boiling-water canner is never planned for it. */
const lowAcidGoesUnderPressure: InputRule = ({ recipes, canners }) =>
  recipes.flatMap(({ id, name, processing }, at) => {
    if (processing === null || !processing.lowAcid) return [];
    const canner = canners.find((one) => one.id === processing.cannerId);
    if (canner === undefined || canner.method === 'pressure') return [];
    return [
      problem(
        'low-acid-needs-pressure',
        ['recipes', at, 'processing'],
        `${name} (${id}) is low-acid food and must be processed in a pressure canner; ${canner.name} is a ${canner.method} canner. Choose a pressure canner, or freeze it.`,
      ),
    ];
  });

const scheduleIsWhole: InputRule = ({ recipes }) =>
  recipes.flatMap(({ id, name, processing }, at) =>
    processing === null ||
    (processing.scheduleKey !== '' &&
      processing.minutes > 0 &&
      processing.jarsPerLoad > 0 &&
      processing.loadMinutes > 0)
      ? []
      : [
          problem(
            'schedule-not-whole',
            ['recipes', at, 'processing'],
            `${name} (${id}) needs a tested schedule with minutes, jars in a load and minutes of a load above 0. Leave the recipe out until it has one.`,
          ),
        ],
  );

const listsCoverTheYear: InputRule = (year) => {
  const expected = year.weeks.length;
  const wrong = (path: Problem['path'], what: string, list: readonly unknown[]) =>
    list.length === expected
      ? []
      : [
          problem(
            'list-length',
            path,
            `${what} should have one entry for each of the ${counted(expected, 'week')}; it has ${list.length}.`,
          ),
        ];
  return [
    ...year.items.flatMap((item, at) => [
      ...wrong(['items', at, 'useByWeek'], `Use of ${item.name}`, item.useByWeek),
      ...item.packs.flatMap((pack) =>
        wrong(['items', at, 'packs'], `Prices of ${item.name}`, pack.priceByWeek),
      ),
    ]),
    ...year.sources.flatMap((source, at) => [
      ...wrong(['sources', at, 'lbByWeek'], `Pounds from ${source.name}`, source.lbByWeek),
      ...wrong(
        ['sources', at, 'priceCentsPerLbByWeek'],
        `Prices at ${source.name}`,
        source.priceCentsPerLbByWeek,
      ),
    ]),
    ...year.recipes.flatMap((recipe, at) =>
      recipe.allowedByWeek === null
        ? []
        : wrong(['recipes', at, 'allowedByWeek'], `Allowed weeks of ${recipe.name}`, recipe.allowedByWeek),
    ),
    ...wrong(['time', 'maxSessionsByWeek'], 'Sessions', year.time.maxSessionsByWeek),
    ...wrong(['time', 'hoursPerSessionByWeek'], 'Hours of a session', year.time.hoursPerSessionByWeek),
    ...(year.time.handsByWeek === undefined
      ? []
      : wrong(['time', 'handsByWeek'], 'Hands in the kitchen', year.time.handsByWeek)),
    ...wrong(['fund', 'setAsideByWeek'], 'Money set aside', year.fund.setAsideByWeek),
  ];
};

const amountsAreNotNegative: InputRule = (year) => [
  ...year.items.flatMap((item, at) =>
    [
      ...item.useByWeek,
      item.reserveUnits,
      item.yearEndUnits,
      ...item.openingLots.map(({ units }) => units),
    ].every(isAmount)
      ? []
      : [
          problem(
            'amount-below-zero',
            ['items', at],
            `Use, reserve and stock of ${item.name} must be 0 or more; correct its target or its count.`,
          ),
        ],
  ),
  ...year.sources.flatMap((source, at) =>
    [...source.lbByWeek, ...source.priceCentsPerLbByWeek].every(isAmount)
      ? []
      : [
          problem(
            'amount-below-zero',
            ['sources', at],
            `Pounds and prices of ${source.name} must be 0 or more; correct the source.`,
          ),
        ],
  ),
  ...(isAmount(year.fund.opening) && year.fund.setAsideByWeek.every(isAmount)
    ? []
    : [
        problem(
          'fund-below-zero',
          ['fund'],
          'The season fund and what is set aside each week must be 0 or more.',
        ),
      ]),
];

const batchesGiveSomething: InputRule = ({ recipes }) =>
  recipes.flatMap(({ name, yieldLowUnits, yieldHighJars, handsOnMinutes }, at) =>
    yieldLowUnits > 0 && isAmount(yieldHighJars) && isAmount(handsOnMinutes)
      ? []
      : [
          problem(
            'batch-gives-nothing',
            ['recipes', at],
            `A batch of ${name} must give more than 0 units and take 0 minutes or more; found ${counted(yieldLowUnits, 'unit')} and ${counted(handsOnMinutes, 'minute')}.`,
          ),
        ],
  );

const packsHoldSomething: InputRule = (year) => [
  ...year.items.flatMap((item, at) =>
    item.packs.every(({ units, priceByWeek }) => units > 0 && priceByWeek.every(isAmount))
      ? []
      : [
          problem(
            'empty-pack',
            ['items', at, 'packs'],
            `Every pack of ${item.name} must hold more than 0 and cost 0 or more.`,
          ),
        ],
  ),
  ...year.supplies.flatMap((supply, at) =>
    supply.packQuantity > 0
      ? []
      : [problem('empty-pack', ['supplies', at], `A pack of ${supply.name} must hold more than 0.`)],
  ),
  ...year.jars.flatMap(({ kind, pack }, at) =>
    pack > 0 ? [] : [problem('empty-pack', ['jars', at], `A pack of ${kind} jars must hold more than 0.`)],
  ),
  ...year.lids.flatMap(({ mouth, box }, at) =>
    box > 0
      ? []
      : [problem('empty-pack', ['lids', at], `A box of ${mouth}-mouth lids must hold more than 0.`)],
  ),
];

const namesAreKnown: InputRule = (year) => {
  const items = new Set(year.items.map(({ id }) => id));
  const supplies = new Set(year.supplies.map(({ id }) => id));
  const materials = new Set(year.materials.map(({ id }) => id));
  const recipes = new Set(year.recipes.map(({ id }) => id));
  return [
    ...year.recipes.flatMap((recipe, at) => [
      ...(items.has(recipe.itemId)
        ? []
        : [
            problem(
              'unknown-item',
              ['recipes', at, 'itemId'],
              `${recipe.name} makes ${recipe.itemId}, which is not an item. Add the item first.`,
            ),
          ]),
      ...recipe.supplies
        .filter(({ supplyId }) => !supplies.has(supplyId))
        .map(({ supplyId }) =>
          problem(
            'unknown-supply',
            ['recipes', at, 'supplies'],
            `${recipe.name} needs ${supplyId}, which is not a supply. Add the supply first.`,
          ),
        ),
      ...[...recipe.gives, ...recipe.uses]
        .filter(({ materialId }) => !materials.has(materialId))
        .map(({ materialId }) =>
          problem(
            'unknown-material',
            ['recipes', at],
            `${recipe.name} names ${materialId}, which is not a material. Add the material first.`,
          ),
        ),
    ]),
    ...year.groups.flatMap((group, at) =>
      group.members
        .filter(({ itemId }) => !items.has(itemId))
        .map(({ itemId }) =>
          problem(
            'unknown-item',
            ['groups', at],
            `Group ${group.name} holds ${itemId}, which is not an item.`,
          ),
        ),
    ),
    ...year.kept
      .filter(({ recipeId }) => !recipes.has(recipeId))
      .map(({ recipeId }) =>
        problem(
          'unknown-recipe',
          ['kept'],
          `${recipeId} is kept in the plan and is not a recipe. Take the decision back.`,
        ),
      ),
  ];
};

/** Jars and lids that nobody says anything about would be free and endless. */
const vesselsAreKnown: InputRule = ({ recipes, jars, lids }) =>
  recipes.flatMap(({ name, jarKind }, at) => {
    if (jarKind === null) return [];
    const path: Problem['path'] = ['recipes', at, 'jarKind'];
    return [
      ...(jars.some(({ kind }) => kind === jarKind)
        ? []
        : [
            problem(
              'unknown-jar',
              path,
              `${name} fills ${jarKind} jars; none were counted and no price of new ones is known. Say how many there are and what a pack costs.`,
            ),
          ]),
      ...(lids.some(({ mouth }) => mouth === mouthOf(jarKind))
        ? []
        : [
            problem(
              'unknown-lid',
              path,
              `${name} needs lids for ${mouthOf(jarKind)}-mouth jars; none were counted and no price of new ones is known. Say how many there are and what a box costs.`,
            ),
          ]),
    ];
  });

const stagesAreWhole: InputRule = ({ recipes, weeks, begun = [] }) => [
  ...recipes.flatMap(({ name, handsOnMinutes, stages }, at) => {
    if (stages === undefined) return [];
    const { handsOnByWeek, possibleByWeek } = stages;
    const minutes = handsOnByWeek.reduce((sum, inWeek) => sum + inWeek, 0);
    return Number.isInteger(stages.weeks) &&
      stages.weeks >= 0 &&
      handsOnByWeek.length === stages.weeks + 1 &&
      handsOnByWeek.every(isAmount) &&
      Math.abs(minutes - handsOnMinutes) < 0.5 &&
      (possibleByWeek === null || possibleByWeek.length === weeks.length)
      ? []
      : [
          problem(
            'stages-not-whole',
            ['recipes', at, 'stages'],
            `The stages of ${name} need minutes for each week from beginning a batch to its load, ${handsOnMinutes} together; found ${counted(handsOnByWeek.length, 'week')} and ${counted(minutes, 'minute')} over ${stages.weeks} stage weeks.`,
          ),
        ];
  }),
  ...begun.flatMap(({ id, batches, mayLoadByWeek }, at) =>
    Number.isInteger(batches) && batches > 0 && mayLoadByWeek.length === weeks.length
      ? []
      : [
          problem(
            'begun-batches-not-whole',
            ['begun', at],
            `Batches begun (${id}) must be 1 or more, whole, with one entry for each of the ${counted(weeks.length, 'week')}; found ${batches} and ${mayLoadByWeek.length}.`,
          ),
        ],
  ),
];

const inputRules: readonly InputRule[] = [
  weeksAreThere,
  lowAcidGoesUnderPressure,
  scheduleIsWhole,
  stagesAreWhole,
  listsCoverTheYear,
  amountsAreNotNegative,
  batchesGiveSomething,
  packsHoldSomething,
  namesAreKnown,
  vesselsAreKnown,
];
