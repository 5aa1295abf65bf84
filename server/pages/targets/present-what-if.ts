import { counted } from '../../../shared/counting.ts';
import type { WhatIfProps } from '../../../views/pages/targets/declared-use.tsx';
import { formatNumber } from '../../../views/words/format.ts';
import { needWords } from '../../words/year/year-walk.ts';
import { batchesFor } from './present-batches.ts';
import { periodOf, rateWords } from './present-targets.ts';
import { type TargetPicture, useOf } from './target-picture.ts';

/** The year with other words beside the year as it is. */
export function presentWhatIf(now: TargetPicture, instead: TargetPicture, saidThen: string): WhatIfProps {
  const { item, reading } = now;
  const rows = (picture: TargetPicture) => {
    const forecast = useOf(picture)?.forecast ?? null;
    return {
      perWeek:
        forecast === null
          ? 'none'
          : rateWords(item, forecast.perWeek, periodOf(useOf(picture)?.declared), reading),
      units: needWords(item, picture.walk, reading) ?? 'none',
      produce: batchesFor(picture, picture.walk?.need ?? 0),
    };
  };
  const [before, after] = [rows(now), rows(instead)];
  const produce = (after.produce.length > 0 ? after.produce : before.produce).flatMap((batch, at) => {
    const [b, a] = [before.produce[at], after.produce[at]];
    return [
      { what: `batches of ${batch.name}`, now: b?.batches ?? '0', instead: a?.batches ?? '0' },
      ...batch.crops.map((crop, place) => ({
        what: crop.name,
        now: b?.crops[place]?.amount ?? '0',
        instead: a?.crops[place]?.amount ?? '0',
      })),
    ];
  });
  const byHand = now.loaded.targetByItem.get(item.id)?.byHand ?? null;
  return {
    words: `With ${saidThen}${byHand === null ? ':' : ', though the target set by hand stands:'}`,
    rows: [
      { what: 'expected use', now: before.perWeek, instead: after.perWeek },
      { what: 'needed', now: before.units, instead: after.units },
      ...produce,
    ],
    why: whyLittleChanges(instead),
  };
}

/** Much evidence outweighs new words; only a change of habit starts anew. */
function whyLittleChanges(instead: TargetPicture): string | null {
  const use = useOf(instead);
  if (!use?.forecast || use.declared?.restartsFilter === true) return null;
  const { perWeek, evidence } = use.forecast;
  const isFollowed = Math.abs(perWeek - use.declaredPerWeek) <= 0.25 * use.declaredPerWeek;
  return isFollowed
    ? null
    : `${counted(formatNumber(evidence.weeksThatCounted, instead.reading, 0), 'week')} of records now count for more than this number. If something changed for good, tick the change of habit.`;
}
