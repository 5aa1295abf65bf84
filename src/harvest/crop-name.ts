import { whileTheSame } from '../../shared/remembering.ts';
import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';

/** The published tables write keys with underscores, households with hyphens. */
const namesIn = whileTheSame(
  'published',
  ({ published }: { readonly published: readonly HarvestWindowRow[] }) => {
    const names = new Map<string, string>();
    for (const { cropKey, crop } of published) {
      const key = cropKey.replaceAll('_', '-');
      if (!names.has(key)) names.set(key, crop);
    }
    return names;
  },
);

/** The crop's name as published, otherwise its key in words. */
export function cropName(published: readonly HarvestWindowRow[], crop: string): string {
  const known = namesIn({ published }).get(crop);
  if (known !== undefined) return known;
  const words = cropInWords(crop);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Words that stand behind the crop in a key and before it in a sentence. */
const kinds = [
  'early',
  'fall',
  'hot',
  'late',
  'pickling',
  'pole',
  'south',
  'spring',
  'summer',
  'sweet',
  'tart',
];

/** A crop's key as one says it, in the singular. Example: `raspberry-fall` is "fall raspberry", `sweet-corn` "sweet corn". */
export function cropInWords(crop: string): string {
  const words = crop.split(/[-_]/);
  const kind = words.slice(1).filter((word) => kinds.includes(word));
  const noun = words.filter((word, place) => place === 0 || !(kinds.includes(word) || word === 'all'));
  return [...kind, ...noun].join(' ');
}
