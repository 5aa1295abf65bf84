import type { UpkeepLine } from '../../../src/preserving/upkeep.ts';

const taskWords: Readonly<Record<Exclude<UpkeepLine['kind'], 'own'>, string>> = {
  gauge: 'Have the dial gauge checked',
  'look-over': 'Look it over before the season',
  water: 'Replace the water you filled yourself',
};

/** `Have the dial gauge checked` */
export const taskName = ({ kind, name }: Pick<UpkeepLine, 'kind' | 'name'>): string =>
  kind === 'own' ? (name ?? '') : taskWords[kind];
