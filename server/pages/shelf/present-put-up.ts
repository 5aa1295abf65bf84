import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Place } from '../../../src/household/kitchen.ts';
import type { PutUpFormProps, PutUpValues } from '../../../views/pages/shelf/put-up-page.tsx';
import type { FieldProblems, FormKeys } from '../../../views/parts/form.tsx';
import { jarChoices } from '../../words/jar-choices.ts';

export const putUpFields = [
  'itemId',
  'origin',
  'units',
  'left',
  'jarKind',
  'madeOn',
  'readyFrom',
  'placeId',
  'bestQualityUntil',
  'paid',
] as const;

/** An empty form: today, put up here, for the item whose page led to it. */
export const blankPutUp = (item: Item | undefined, today: CalendarDate): PutUpValues => ({
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
  keys: FormKeys,
  values: PutUpValues,
  problems: FieldProblems,
): PutUpFormProps {
  const usual = [...new Set(kept.flatMap((item) => (item.usualJar === null ? [] : [item.usualJar])))];
  return {
    keys,
    items: [
      { value: '', words: 'Choose an item' },
      ...kept.map((item) => ({ value: item.id, words: item.name })),
    ],
    jarKinds: [{ value: '', words: 'its usual jar, or none' }, ...jarChoices(usual)],
    places: [{ value: '', words: 'not said' }, ...places.map(({ id, name }) => ({ value: id, words: name }))],
    values,
    problems,
  };
}
