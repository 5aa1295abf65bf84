import type { DeclaredUseProps, WhatIfProps } from '../../../views/pages/targets/declared-use.tsx';
import { formatDate, formatNumber, fromReadersUnit } from '../../../views/words/format.ts';
import { plain } from '../../words/plain-number.ts';
import { unitsOf } from '../../words/shelf-units.ts';
import type { StateOfForm } from '../shared/answer-form.ts';
import { unitsTyped } from '../shared/produce/own-units.ts';
import { declaredWords } from './present-targets.ts';
import { type TargetPicture, useOf } from './target-picture.ts';

const periods: DeclaredUseProps['per'] = [
  { value: 'week', words: 'week' },
  { value: 'month', words: 'month' },
  { value: 'year', words: 'year' },
  { value: 'meal', words: 'meal' },
  { value: 'school-week', words: 'school week only' },
];

export function presentDeclared(
  picture: TargetPicture,
  state: StateOfForm,
  whatIf: WhatIfProps | null,
): DeclaredUseProps {
  const { item, reading } = picture;
  const said = useOf(picture)?.declared ?? null;
  const form = state('use', {
    amount:
      said === null
        ? ''
        : said.countedIn === 'servings'
          ? plain(said.amount)
          : unitsTyped(said.amount, item.unit, reading),
    countedIn: said?.countedIn ?? 'units',
    per: said?.per ?? 'week',
    people: said?.people == null ? '' : plain(said.people),
    mealsPerWeek: said?.mealsPerWeek == null ? '' : plain(said.mealsPerWeek),
    sinceOn: '',
    restartsFilter: false,
  });
  return {
    itemId: item.id,
    said:
      said === null
        ? 'Nothing has been said yet.'
        : `You said ${declaredWords(item, said, reading)}, since ${formatDate(said.sinceOn, reading)}.`,
    form,
    countedIn: [
      { value: 'units', words: unitsOf(item, reading) || 'pieces' },
      ...(item.servingsPerUnit === null
        ? []
        : [
            {
              value: 'servings',
              words: `servings (${formatNumber(item.servingsPerUnit * fromReadersUnit(1, item.unit, reading), reading)} in one)`,
            },
          ]),
    ],
    per: periods,
    whatIf,
  };
}
