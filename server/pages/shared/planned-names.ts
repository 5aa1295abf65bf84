import { measuresIn } from '../../../src/preserving/foods/trade-measures.ts';
import { readingOf } from '../../../views/words/reading.ts';
import type { PlannedNames } from '../../words/planned-words.ts';
import { oncePerPicture } from '../../year/year-of-request.ts';

/** The names a plan's ids stand for in the household that asks. */
export const plannedNames = oncePerPicture<PlannedNames>(({ loaded: { facts }, asOf }, { server }) => {
  const { household, items, recipes, sources, supplies, canners } = facts;
  return {
    items,
    recipes,
    sources,
    supplies,
    canners,
    reading: readingOf(household, asOf),
    measuresOf: measuresIn(server.reference),
  };
});
