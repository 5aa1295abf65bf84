import type { YearlyTarget } from '../../../src/consumption/yearly-target.ts';
import { chanceWords } from '../../../src/shelf/run-out-words.ts';
import type { NeedPart, YearNeedProps } from '../../../views/pages/targets/year-need.tsx';
import { type FormKeys, noProblems } from '../../../views/parts/form.tsx';
import { formatDate, formatNumber } from '../../../views/words/format.ts';
import { plain } from '../../words/plain-number.ts';
import { produceLines } from './present-batches.ts';
import { rateWords, targetUnit } from './present-targets.ts';
import type { TargetPicture, TargetSentBack } from './target-picture.ts';

/** What the yearly target is made of, in produce too, and by hand. */
export function presentNeed(
  picture: TargetPicture,
  keys: () => FormKeys,
  sentBack: TargetSentBack | null,
): YearNeedProps {
  const { item, loaded, reading } = picture;
  const target = loaded.targetByItem.get(item.id) ?? null;
  const own = sentBack?.form === 'hand-target' ? sentBack : null;
  const set = loaded.facts.handTargets.get(item.id) ?? null;
  const comparison = target?.byHand ?? null;
  return {
    itemId: item.id,
    target: target === null ? '0' : formatNumber(target.units, reading),
    unit: targetUnit(item, reading),
    parts: target === null ? [] : needParts(picture, target),
    waste: target === null ? null : wasteWords(picture, target),
    produce: target === null ? [] : produceLines(picture, target.units),
    byHand: {
      keys: keys(),
      releaseKeys: keys(),
      standing:
        set === null
          ? null
          : `Set by hand on ${formatDate(set.setOn, reading)}.${
              comparison === null
                ? ''
                : ` The forecast comes to ${formatNumber(comparison.units - comparison.difference, reading, 0)}; what you set covers the year in ${chanceWords(Math.min(1, Math.max(0, comparison.chanceOfCovering)))}.`
            }`,
      units: own?.values.units ?? (set === null ? '' : plain(set.units)),
      problems: own?.problems ?? noProblems,
    },
  };
}

function needParts({ item, loaded, reading }: TargetPicture, target: YearlyTarget): readonly NeedPart[] {
  const { parts } = target;
  const forecast = loaded.useByItem.get(item.id)?.forecast;
  const perWeek = forecast?.perWeek ?? 0;
  const weeks = perWeek > 0 ? parts.use / perWeek : 0;
  const all: readonly (NeedPart & { readonly amount: number })[] = [
    {
      what: 'everyday use',
      why: `${formatNumber(weeks, reading, 0)} ordinary weeks at ${rateWords(perWeek, 'week', reading)}`,
      amount: parts.use,
      units: '',
    },
    { what: 'occasions', why: 'dated, at our table', amount: parts.occasions, units: '' },
    { what: 'gifts', why: 'dated, given away', amount: parts.gifts, units: '' },
    { what: 'promised', why: 'kept back until their day', amount: parts.promised, units: '' },
    {
      what: 'reserve for a hungry year',
      why: `so that it lasts ${chanceWords(item.chanceWanted)}`,
      amount: parts.hungryYear,
      units: '',
    },
    {
      what: 'reserve for a failed crop',
      why: 'by the odds of its source',
      amount: parts.failedCrop,
      units: '',
    },
  ];
  const shown = all
    .filter((part, at) => at === 0 || part.amount >= 0.05)
    .map(({ what, why, amount }) => ({ what, why, units: formatNumber(amount, reading) }));
  return [
    ...shown,
    {
      what: 'together',
      why: 'rounded up to whole units',
      units: formatNumber(Math.ceil(target.fromForecast - 1e-9), reading),
    },
  ];
}

/** What the wish to last costs where jars have an end; null where it is less than half a unit. */
const wasteWords = (picture: TargetPicture, { expectedWaste, byHand }: YearlyTarget): string | null =>
  byHand !== null || expectedWaste < 0.5
    ? null
    : `In an ordinary year about ${formatNumber(expectedWaste, picture.reading, 0)} of these would not be eaten before your own limit for throwing away: what it costs to last ${chanceWords(picture.item.chanceWanted)}.`;
