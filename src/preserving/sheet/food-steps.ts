import type { FoodStepRow } from '../../../shared/schemas/reference/food-step.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { citationOf } from '../citation.ts';
import type { Schedule } from '../lookup/schedule.ts';
import { type SessionStep, step } from './session-step.ts';

/** What a food's own page asks for, in its order. */
export interface FoodSteps {
  /** Done before the jars are got ready: up to the last stage that needs hours or days. */
  readonly before: readonly SessionStep[];
  /** From the preparing of the food to its cooking. */
  readonly cooking: readonly SessionStep[];
  /** Into the jar: salt, the food, its liquid. */
  readonly filling: readonly SessionStep[];
  /** How long sealed jars stand before they are eaten. */
  readonly curing: readonly SessionStep[];
}

const fillingKinds = ['salt', 'fill', 'liquid'];

/**
 * The food's own steps for a schedule, by food, style and pack. A food whose page was not taken down step by step gives
 * one line that sends to that page, so that nothing of it is passed over.
 */
export const foodStepsFor = (
  { foodSteps }: Pick<ReferenceTables, 'foodSteps'>,
  schedule: Pick<Schedule, 'foodKey' | 'style' | 'pack' | 'source' | 'food'>,
): FoodSteps => {
  const rows = foodSteps
    .filter(
      (row) =>
        row.foodKey === schedule.foodKey &&
        row.pack === schedule.pack &&
        (row.style === null || row.style === schedule.style),
    )
    .toSorted((one, other) => one.position - other.position);
  const lastStage = rows.findLastIndex(({ kind }) => kind === 'stage');
  const early = rows.slice(0, lastStage + 1);
  const late = rows.slice(lastStage + 1);
  const cooking = late.filter(({ kind }) => !fillingKinds.includes(kind) && kind !== 'cure');
  const filling = late.filter(({ kind }) => fillingKinds.includes(kind));
  return {
    before: early.map(stepOf),
    cooking: [
      ...(rows.some(({ kind }) => kind === 'prepare') ? [] : [asItsPageSays(schedule)]),
      ...cooking.map(stepOf),
    ],
    filling: filling.some(({ kind }) => kind === 'fill')
      ? filling.map(stepOf)
      : [fillOf(schedule), ...filling.map(stepOf)],
    curing: late.filter(({ kind }) => kind === 'cure').map(stepOf),
  };
};

const stepOf = (row: FoodStepRow): SessionStep => step(row.kind, `${row.what}.`, citationOf(row));

const asItsPageSays = ({ source }: Pick<Schedule, 'source'>): SessionStep =>
  step(
    'prepare',
    'Wash the food, sort out what is not sound, and prepare it wholly as its page in the guide says.',
    source,
  );

const fillOf = ({ pack, source }: Pick<Schedule, 'pack' | 'source'>): SessionStep =>
  step(
    'fill',
    pack === 'hot'
      ? 'Fill the hot jars with the hot food and its hot liquid.'
      : 'Fill the hot jars with the food and cover it with its hot liquid, where its page asks for one.',
    source,
  );
