import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';

/** The published tables write keys with underscores, households with hyphens. */
const isCrop = (row: HarvestWindowRow, crop: string): boolean => row.cropKey.replaceAll('_', '-') === crop;

/** The crop's name as published, otherwise its key in words. */
export function cropName(published: readonly HarvestWindowRow[], crop: string): string {
  const row = published.find((known) => isCrop(known, crop));
  if (row) return row.crop;
  const words = crop.replaceAll(/[-_]/g, ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
