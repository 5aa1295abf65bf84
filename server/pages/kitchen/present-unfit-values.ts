import type { CalendarDate } from '../../../shared/week.ts';
import type { UnfitValueProps } from '../../../views/pages/kitchen/unfit-values.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { pageNames } from '../../../views/words/page-names.ts';
import { type Mend, mendOf } from '../../columns/mends.ts';
import type { FittedName } from '../../queries/household/fitting.ts';
import type { UnfitValue } from '../../queries/household/unfit-values.ts';

const items = { href: '/items', words: pageNames.items };
const targets = { href: '/targets', words: pageNames.targets };
const harvest = { href: '/harvest', words: 'Harvest' };

/** The page on which a table's values are typed; what no page shows any more is mended in the saved file. */
const pageOf: Partial<Record<FittedName, { readonly href: string; readonly words: string }>> = {
  household: { href: '/kitchen#household', words: 'People, units and dates' },
  place: { href: '/kitchen#places', words: 'Places' },
  canner: { href: '/kitchen#canners', words: 'Canners' },
  kitchen_time: { href: '/kitchen#time', words: 'Time' },
  season_fund: { href: '/kitchen#fund', words: 'Money' },
  jar_holding: { href: '/kitchen#jars', words: 'Jars and lids' },
  lid_price: { href: '/kitchen#jars', words: 'Jars and lids' },
  item: items,
  supply: items,
  item_group: targets,
  declared_use: targets,
  hand_target: targets,
  jar_wish: targets,
  source: harvest,
  label_grid: { href: '/labels', words: 'Labels' },
  notice_lead: { href: '/notices/settings', words: 'Notices' },
};

const mendWords = (mend: Mend): string => {
  switch (mend.kind) {
    case 'clear':
      return 'Clear it';
    case 'usual':
      return 'Put the usual value in its place';
    case 'now':
      return 'Put the present moment in its place';
    case 'not canned':
      return 'Take its process away: it is not canned until you give it one';
    case 'take away':
      return 'Take this line away';
    case 'put':
      return `Put “${mend.value}” in its place${mend.retires ? ', and retire it until you have looked' : ''}`;
  }
};

export const presentUnfit = (
  values: readonly UnfitValue[],
  today: CalendarDate,
  newKeys: () => FormKeys,
): readonly UnfitValueProps[] =>
  values.map(({ table, rowId, title, row, columnName, column, values: own, expected, found }) => ({
    mend: mendProps(
      { table, row: rowId, column: columnName },
      mendOf(table, columnName, own, today),
      newKeys,
    ),
    words: `${title}${row === '' ? '' : ` (${row})`}: under “${column}”, “${found}” is stored; it should be ${expected}. It is not used until it is mended.`,
    where: pageOf[table] ?? {
      href: '/files',
      words: 'Save the household, mend the value in the file, and restore it',
    },
  }));

const mendProps = (
  place: { readonly table: string; readonly row: number; readonly column: string },
  mend: Mend | null,
  newKeys: () => FormKeys,
): UnfitValueProps['mend'] => (mend === null ? null : { ...place, words: mendWords(mend), keys: newKeys() });
