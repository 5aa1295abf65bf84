import type {
  OccasionLine,
  OccasionsProps,
  OccasionValues,
} from '../../../views/pages/targets/occasions.tsx';
import { type FormKeys, noProblems } from '../../../views/parts/form.tsx';
import { formatDate, formatNumber, formatYearlyDay } from '../../../views/words/format.ts';
import { targetUnit } from './present-targets.ts';
import type { TargetPicture, TargetSentBack } from './target-picture.ts';

const kindWords = { occasion: 'occasion', gift: 'gift', promised: 'promised' } as const;

export const occasionFields = ['kind', 'onDate', 'units', 'note', 'yearly'] as const;

/** Dated units on top of everyday use, and the form for one more. */
export function presentOccasions(
  { item, loaded, reading }: TargetPicture,
  keys: () => FormKeys,
  sentBack: TargetSentBack | null,
): OccasionsProps {
  const own = sentBack?.form === 'occasions' ? sentBack : null;
  const values: OccasionValues = {
    kind: '',
    onDate: '',
    units: '',
    note: '',
    ...own?.values,
    yearly: own === null ? true : (own.values.yearly ?? '') !== '',
  };
  return {
    itemId: item.id,
    unit: targetUnit(item, reading),
    lines: loaded.facts.occasions
      .filter((occasion) => occasion.itemId === item.id)
      .map(
        (occasion): OccasionLine => ({
          id: occasion.id,
          on: occasion.isYearly ? formatYearlyDay(occasion.on, reading) : formatDate(occasion.on, reading),
          kind: kindWords[occasion.kind],
          units: formatNumber(occasion.units, reading),
          note: occasion.note,
          repeats: occasion.isYearly ? 'every year' : 'once',
          removeKeys: keys(),
        }),
      ),
    keys: keys(),
    values,
    problems: own?.problems ?? noProblems,
  };
}
