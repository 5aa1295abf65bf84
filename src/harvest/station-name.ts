import type { FreezeNormalRow } from '../../shared/schemas/reference/freeze-normal.ts';
import { stateNames } from '../../shared/us-states.ts';

/** Words of station names that are no words: kept as they are published. */
const asPublished = /^(\d.*|[NS]?[NSEW]?[EW]?|#.*)$/;

const wordAsRead = (word: string): string =>
  asPublished.test(word) ? word : word.replaceAll(/[A-Z]+/g, (part) => part[0] + part.slice(1).toLowerCase());

/** `FT COLLINS 4 E` of Colorado as "Ft Collins 4 E, Colorado". */
export const stationName = ({ name, state }: Pick<FreezeNormalRow, 'name' | 'state'>): string =>
  `${name.split(' ').map(wordAsRead).join(' ')}, ${stateNames[state] ?? state}`;
