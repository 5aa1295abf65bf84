import { chanceWords } from '../../../src/shelf/run-out-words.ts';
import type { YearNeedProps } from '../../../views/pages/targets/year-need.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatDate } from '../../../views/words/format.ts';
import { amountOf, figureOf } from '../../words/shelf-units.ts';
import { walkLines } from '../../words/year/year-walk.ts';
import type { StateOfForm } from '../shared/answer-form.ts';
import { unitsTyped } from '../shared/produce/own-units.ts';
import { produceLines } from './present-batches.ts';
import { targetUnit } from './present-targets.ts';
import type { TargetPicture } from './target-picture.ts';

/** What the yearly target is made of, in produce too, and by hand. */
export function presentNeed(picture: TargetPicture, keys: () => FormKeys, state: StateOfForm): YearNeedProps {
  const { item, loaded, reading, walk, hasPlan } = picture;
  const target = loaded.targetByItem.get(item.id) ?? null;
  const perWeek = loaded.useByItem.get(item.id)?.forecast?.perWeek ?? 0;
  const set = loaded.facts.handTargets.get(item.id) ?? null;
  const comparison = target?.byHand ?? null;
  return {
    itemId: item.id,
    target: figureOf(item, walk?.need ?? 0, reading),
    unit: targetUnit(item, reading),
    parts:
      walk === null
        ? []
        : walkLines(item, walk, reading, {
            hasPlan,
            perWeek,
            useWeeks: perWeek > 0 ? (target?.parts.use ?? 0) / perWeek : 0,
            isBought: loaded.supplyByItem.get(item.id)?.by === 'bought',
          }),
    waste: wasteWords(picture),
    produce: produceLines(picture, walk?.need ?? 0),
    byHand: {
      form: state('hand', { units: set === null ? '' : unitsTyped(set.units, item.unit, reading) }),
      releaseKeys: keys(),
      standing:
        set === null
          ? null
          : `Set by hand on ${formatDate(set.setOn, reading)}.${
              comparison === null
                ? ''
                : ` The forecast comes to ${figureOf(item, walk?.needByUse ?? 0, reading)}; what you set covers the year in ${chanceWords(Math.min(1, Math.max(0, comparison.chanceOfCovering)))}.`
            }`,
    },
  };
}

/** What the wish to last costs where jars have an end; null where it is not one unit. */
const wasteWords = ({ item, walk, reading }: TargetPicture): string | null =>
  walk === null || walk.waste < 1
    ? null
    : `In an ordinary year about ${amountOf(item, walk.waste, reading)} of these would get too old to eat: that is what it costs to last ${chanceWords(item.chanceWanted)}.`;
