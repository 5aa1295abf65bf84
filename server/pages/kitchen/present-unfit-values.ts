import type { UnfitValueProps } from '../../../views/pages/kitchen/unfit-values.tsx';
import type { FittedName } from '../../queries/household/fitting.ts';
import type { UnfitValue } from '../../queries/household/unfit-values.ts';

const items = { href: '/items', words: 'What you keep' };
const targets = { href: '/targets', words: 'Targets' };
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

export const presentUnfit = (values: readonly UnfitValue[]): readonly UnfitValueProps[] =>
  values.map(({ table, title, row, column, expected, found }) => ({
    words: `${title}${row === '' ? '' : ` (${row})`}: Expected ${expected} under “${column}”; “${found}” is stored. It is not used until it is mended.`,
    where: pageOf[table] ?? {
      href: '/files',
      words: 'Save the household, mend the value in the file, and restore it',
    },
  }));
