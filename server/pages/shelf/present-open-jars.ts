import type { OpenJarsHere } from '../../../src/shelf/open-jars-here.ts';
import type { OpenJarsLine } from '../../../views/pages/shelf/open-jars.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatDay, formatJars } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

export const presentOpenJars = (
  open: readonly OpenJarsHere[],
  keys: () => FormKeys,
  reading: Reading,
): readonly OpenJarsLine[] =>
  open.map((line) => ({
    lotId: line.lotId,
    openedOn: line.openedOn,
    words: `${formatJars(line.jars, line.jarKind, reading)} of ${line.itemName}, opened ${formatDay(line.openedOn, reading)}.`,
    limit: limitWords(line, reading),
    isPast: line.isPast,
    jars: line.jars,
    keys: keys(),
  }));

function limitWords({ eatBy, isPast, limitIsKnown }: OpenJarsHere, reading: Reading): string {
  if (isPast) return `Past its fridge limit, ${formatDay(eatBy, reading)}: throw out what’s left.`;
  const unknown = limitIsKnown ? '' : ' How long it keeps open is not written down; this is to be safe.';
  return `Keep cold, eat by ${formatDay(eatBy, reading)}.${unknown}`;
}
