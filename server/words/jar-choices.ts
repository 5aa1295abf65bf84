import { asJarKind, jarSizes, mouths } from '../../shared/jar.ts';
import type { Choice } from '../../views/parts/form.tsx';
import { formatJarKind } from '../../views/words/format.ts';

/** Every kind of jar, the household's usual ones first. */
export function jarChoices(usual: readonly string[]): readonly Choice[] {
  const all = jarSizes.flatMap((size) => mouths.map((mouth) => asJarKind(size, mouth)));
  const first = all.filter((kind) => usual.includes(kind));
  const rest = all.filter((kind) => !usual.includes(kind));
  return [...first, ...rest].map((kind) => ({ value: kind, words: formatJarKind(kind) }));
}
