import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Place } from '../../../src/household/kitchen.ts';
import type { PutUpFormProps, PutUpState } from '../../../views/pages/shelf/put-up-page.tsx';
import { jarChoices } from '../../words/jar-choices.ts';

/** An empty form: today, put up here, for the item whose page led to it. */
export const blankPutUp = (item: Item | undefined, today: CalendarDate): PutUpState['values'] => ({
  itemId: item?.id ?? '',
  origin: item?.kind === 'staple' ? 'bought' : 'put-up',
  units: '',
  left: '',
  jarKind: '',
  madeOn: today,
  placeId: '',
  readyFrom: '',
  bestQualityUntil: '',
  paid: '',
});

export function presentPutUp(
  kept: readonly Item[],
  places: readonly Place[],
  form: PutUpState,
): PutUpFormProps {
  const usual = [...new Set(kept.flatMap((item) => (item.usualJar === null ? [] : [item.usualJar])))];
  return {
    form,
    items: [
      { value: '', words: 'Choose an item' },
      ...kept.map((item) => ({ value: item.id, words: item.name })),
    ],
    jarKinds: [{ value: '', words: 'its usual jar, or none' }, ...jarChoices(usual)],
    places: [{ value: '', words: 'not said' }, ...places.map(({ id, name }) => ({ value: id, words: name }))],
  };
}
