import type { OccasionLine, OccasionsProps } from '../../../views/pages/targets/occasions.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatDate, formatYearlyDay } from '../../../views/words/format.ts';
import { figureOf } from '../../words/shelf-units.ts';
import type { StateOfForm } from '../shared/answer-form.ts';
import { targetUnit } from './present-targets.ts';
import type { TargetPicture } from './target-picture.ts';

const kindWords = { occasion: 'occasion', gift: 'gift', promised: 'promised' } as const;

/** Dated units on top of everyday use, and the form for one more. */
export function presentOccasions(
  { item, loaded, reading }: TargetPicture,
  keys: () => FormKeys,
  state: StateOfForm,
): OccasionsProps {
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
          units: figureOf(item, occasion.units, reading),
          note: occasion.note,
          repeats: occasion.isYearly ? 'every year' : 'once',
          removeKeys: keys(),
        }),
      ),
    form: state('occasion', { kind: '', onDate: '', units: '', note: '', yearly: true }),
  };
}
