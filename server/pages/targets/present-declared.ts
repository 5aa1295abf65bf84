import type {
  DeclaredUseProps,
  DeclaredUseValues,
  WhatIfProps,
} from '../../../views/pages/targets/declared-use.tsx';
import { type FormKeys, noProblems } from '../../../views/parts/form.tsx';
import { formatDate, formatNumber } from '../../../views/words/format.ts';
import { plain } from '../../words/plain-number.ts';
import { unitsOf } from '../../words/shelf-units.ts';
import { declaredWords } from './present-targets.ts';
import { type TargetPicture, type TargetSentBack, useOf } from './target-picture.ts';

const periods: DeclaredUseProps['per'] = [
  { value: 'week', words: 'week' },
  { value: 'month', words: 'month' },
  { value: 'year', words: 'year' },
  { value: 'meal', words: 'meal' },
  { value: 'school-week', words: 'school week only' },
];

export const declaredUseFields = [
  'amount',
  'countedIn',
  'per',
  'people',
  'mealsPerWeek',
  'sinceOn',
  'restartsFilter',
] as const;

export function presentDeclared(
  picture: TargetPicture,
  keys: FormKeys,
  sentBack: TargetSentBack | null,
  whatIf: WhatIfProps | null,
): DeclaredUseProps {
  const { item, reading } = picture;
  const said = useOf(picture)?.declared ?? null;
  const own = sentBack?.form === 'declared-use' ? sentBack : null;
  const values: DeclaredUseValues = {
    amount: said === null ? '' : plain(said.amount),
    countedIn: said?.countedIn ?? 'units',
    per: said?.per ?? 'week',
    people: said?.people == null ? '' : plain(said.people),
    mealsPerWeek: said?.mealsPerWeek == null ? '' : plain(said.mealsPerWeek),
    sinceOn: '',
    ...own?.values,
    restartsFilter: (own?.values.restartsFilter ?? '') !== '',
  };
  return {
    itemId: item.id,
    said:
      said === null
        ? 'Nothing has been said yet.'
        : `You said ${declaredWords(item, said, reading)}, since ${formatDate(said.sinceOn, reading)}.`,
    keys,
    values,
    problems: own?.problems ?? noProblems,
    countedIn: [
      { value: 'units', words: unitsOf(item, reading) || 'pieces' },
      ...(item.servingsPerUnit === null
        ? []
        : [
            {
              value: 'servings',
              words: `servings (${formatNumber(item.servingsPerUnit, reading)} in one)`,
            },
          ]),
    ],
    per: periods,
    whatIf,
  };
}
