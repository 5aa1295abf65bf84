import { counted, wordFor } from '../../../shared/counting.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { lookUpConditions } from '../canner.ts';
import { factNumber, inWords } from '../citation.ts';
import { type RecipeStage, stagesOfFood, stagesOfWay, waysOf } from '../stages/recipe-stages.ts';
import { kitchenAmount } from './display-units.ts';
import type { ProcessMethod, Schedule } from './schedule.ts';

type ConditionTables = Pick<
  ReferenceTables,
  'processTimes' | 'cannerFacts' | 'recipeStages' | 'recipeProcesses'
>;

/**
 * Everything that must be so for a printed row to hold, in sentences, each read from the tables: the form of the food
 * (peeled, sliced, in water), a pack that is the only one printed, the altitudes printed, acid, what is soaked, salted or
 * left to stand before, and the canner. Said beside the time; none of them changes it.
 *
 * Sources: the row's own; those of acid and stages are named in their sentence.
 */
export const rowConditions = (tables: ConditionTables, schedule: Schedule): readonly string[] => [
  `The food is prepared as this row is printed: ${schedule.style}.`,
  ...onlyPack(tables, schedule),
  altitudes(tables, schedule),
  ...acid(schedule),
  ...stagesBefore(tables, schedule.foodKey),
  ...steamLimit(tables, schedule),
  ...lookUpConditions({ ...schedule, gauge: schedule.gauge ?? undefined }, tables.cannerFacts),
];

const rowsBeside = ({ processTimes }: ConditionTables, { foodKey, style, method, gauge }: Schedule) =>
  processTimes.filter(
    (row) =>
      row.basis === 'read' &&
      row.foodKey === foodKey &&
      row.style === style &&
      row.method === printedMethod(method, gauge),
  );

const printedMethod = (method: ProcessMethod, gauge: Schedule['gauge']) =>
  method === 'pressure' ? (gauge === 'dial' ? 'pressure-dial' : 'pressure-weighted') : 'boiling-water';

const onlyPack = (tables: ConditionTables, schedule: Schedule): readonly string[] => {
  const { pack } = schedule;
  const isOnlyOne = rowsBeside(tables, schedule).every((row) => row.pack === pack);
  if (pack === 'none' || !isOnlyOne) return [];
  return [`${pack === 'hot' ? 'Hot' : 'Raw'} pack only: no other is printed for it in this canner.`];
};

const feet = (ft: number): string => ft.toLocaleString('en-US');

const altitudes = (tables: ConditionTables, schedule: Schedule): string => {
  const { bandFromFt, bandToFt, pack, printedJar } = schedule;
  const ends = rowsBeside(tables, schedule)
    .filter((row) => row.pack === pack && row.jar === printedJar)
    .map(({ altitudeToFt }) => altitudeToFt ?? Number.POSITIVE_INFINITY);
  const highest = Math.max(...ends);
  const here =
    bandToFt === null ? `${feet(bandFromFt)} ft or above` : `${feet(bandFromFt)} to ${feet(bandToFt)} ft`;
  return Number.isFinite(highest)
    ? `The kitchen is at ${here}; above ${feet(highest)} ft nothing is printed.`
    : `The kitchen is at ${here}.`;
};

const acid = ({ acid: dose, acidity, source }: Schedule): readonly string[] => {
  if (dose !== null) {
    const amounts = dose.oneOf.map(
      ({ quantity, unit, acid: name }) =>
        `${kitchenAmount(quantity)} ${unit} ${name.replaceAll('_', ' ').replace('5pct', '5%')}`,
    );
    const [first] = dose.oneOf;
    return [
      `Acidified: each jar gets ${amounts.join(', or ')}${first === undefined ? '' : ` (${inWords(first.source)})`}.`,
    ];
  }
  if (acidity !== 'acidified') return [];
  return [`Acidified: all the acid of the printed recipe goes in, in its proportions (${inWords(source)}).`];
};

const stagesBefore = (tables: ConditionTables, foodKey: string): readonly string[] => {
  const stages = stagesOfFood(tables, foodKey);
  if (stages.length === 0) return [];
  return waysOf(stages).map((way, index) => {
    const waits = stagesOfWay(stages, way).filter(({ leastHours }) => leastHours > 0);
    const words = waits.map((stage) => `${stage.what} (${waitInWords(stage)})`).join('; then ');
    const source = waits[0]?.source;
    return `${index === 0 ? 'Before it' : 'Or before it'}${way === null ? '' : `, ${way}`}: ${words}${source === undefined ? '' : `. Source: ${inWords(source)}`}.`;
  });
};

const waitInWords = ({ leastHours, mostHours }: RecipeStage): string => {
  const isInDays = leastHours >= 48 && leastHours % 24 === 0 && (mostHours ?? 0) % 24 === 0;
  const [least, most] = isInDays ? [leastHours / 24, mostHours && mostHours / 24] : [leastHours, mostHours];
  const unit = wordFor(most ?? least, isInDays ? 'day' : 'hour');
  if (most === null) return `at least ${least} ${unit}`;
  return least === most ? `${least} ${unit}` : `${least} to ${most} ${unit}`;
};

const steamLimit = ({ cannerFacts }: ConditionTables, { method }: Schedule): readonly string[] =>
  method === 'atmospheric-steam'
    ? [
        `The whole process takes at most ${counted(factNumber(cannerFacts, 'steam_canner.max_process_time_incl_altitude'), 'minute')}, the altitude included.`,
      ]
    : [];
