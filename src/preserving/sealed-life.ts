import { ShelfwardError } from '../../shared/problems.ts';
import type { ShelfLifeRow } from '../../shared/schemas/reference/shelf-life.ts';
import { type Citation, citationOf } from './citation.ts';

/** Days of best quality of a sealed or frozen unit; a quality date, never a safety claim. */
export interface SealedLife {
  readonly days: number;
  readonly itemKey: string;
  readonly source: Citation;
}

const frozenHomeKeys = ['frozen_fruit_veg'];
const cannedHomeKeys = ['hc_general'];

/**
 * How long an unopened home-canned jar or home-frozen bag is at best quality. Canned: 12 months at 50–70 °F, the rule all
 * sources share. Frozen: the shorter end of 8–12 months for home-frozen fruit and vegetables, which wins over the 61 days
 * that the open data set gives for frozen tomatoes.
 */
export const sealedLife = (keeping: 'canned' | 'frozen', shelfLives: readonly ShelfLifeRow[]): SealedLife => {
  const keys = keeping === 'canned' ? cannedHomeKeys : frozenHomeKeys;
  const row = shelfLives.find(
    (candidate) => candidate.state === 'unopened' && keys.includes(candidate.itemKey),
  );
  if (!row) throw new ShelfwardError('sealed-life-missing', `sealedLife: no figure for ${keeping} food`);
  return { days: row.minDays, itemKey: row.itemKey, source: citationOf(row) };
};
