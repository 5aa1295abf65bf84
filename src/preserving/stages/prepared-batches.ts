import { counted } from '../../../shared/counting.ts';
import type { FilledOn, LocalDateTime, PreparedBatches } from '../../household/begun.ts';
import { fromMemory } from '../citation.ts';
import { forbidden, type Ruling, refusal } from '../refusal.ts';
import type { RecipeStage } from './recipe-stages.ts';
import { type ReadyForCanner, stagesRuling } from './stages-done.ts';

const begunOn = ({ begun }: PreparedBatches): string => begun[0]?.begunAt.slice(0, 10) ?? '';

/**
 * What still stands of the batches begun: what was filled on a day is taken from those begun by then, the oldest first.
 * Filled without anything begun before it takes nothing.
 */
export const stillStanding = (
  prepared: readonly PreparedBatches[],
  filled: readonly FilledOn[],
): readonly PreparedBatches[] => {
  const left = new Map(prepared.map((group) => [group.id, group.batches]));
  const oldestFirst = [...prepared].sort((one, other) =>
    `${one.begun[0]?.begunAt} ${one.id}` < `${other.begun[0]?.begunAt} ${other.id}` ? -1 : 1,
  );
  for (const { on, batches } of [...filled].sort((one, other) => (one.on < other.on ? -1 : 1))) {
    let toTake = batches;
    for (const group of oldestFirst) {
      if (begunOn(group) > on) continue;
      const taken = Math.min(toTake, left.get(group.id) ?? 0);
      left.set(group.id, (left.get(group.id) ?? 0) - taken);
      toTake -= taken;
    }
  }
  return oldestFirst.flatMap((group) => {
    const batches = left.get(group.id) ?? 0;
    return batches > 0 ? [{ ...group, batches }] : [];
  });
};

/** How a recipe's batches stand before the canner. */
export interface Preparation {
  readonly stages: readonly RecipeStage[];
  /** Still standing on the day, other days' jars taken off. */
  readonly prepared: readonly PreparedBatches[];
  readonly timeZone: string;
}

/**
 * Whether the n-th batch of a day may go into the canner at a time: as many batches as that must have been begun long
 * enough before and not too long. Otherwise the refusal of the batch that comes nearest.
 */
export const batchRuling = (
  { stages, prepared, timeZone }: Preparation,
  nth: number,
  at: LocalDateTime,
): Ruling<ReadyForCanner> => {
  if (stages.length === 0) return { ok: true, value: { since: null } };
  const rulings = prepared.map((group) => ({
    group,
    ruling: stagesRuling(stages, group.begun, at, timeZone),
  }));
  let ready = 0;
  for (const { group, ruling } of rulings) {
    if (!ruling.ok) continue;
    ready += group.batches;
    if (ready >= nth) return ruling;
  }
  const waiting = rulings.flatMap(({ ruling }) => (ruling.ok ? [] : [ruling]));
  const [nearest] = waiting.toSorted(
    (one, other) => rank(one.problems[0]?.code) - rank(other.problems[0]?.code),
  );
  if (nearest !== undefined) return nearest;
  const none = stagesRuling(stages, [], at, timeZone);
  if (ready === 0) return none;
  return forbidden(
    refusal(
      'stage-not-begun',
      'stages',
      `${counted(ready, 'batch was', 'batches were')} begun long enough before, and this is number ${nth}`,
      stages[0]?.source ?? fromMemory('the stages of this recipe'),
      'Begin another and write down when, or make fewer today.',
    ),
  );
};

const rank = (code: string | undefined): number =>
  code === 'stage-too-short' ? 0 : code === 'stage-not-begun' ? 1 : 2;
