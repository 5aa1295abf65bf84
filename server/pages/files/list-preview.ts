import { counted } from '../../../shared/counting.ts';
import { families } from '../../../shared/family.ts';
import { jarKinds } from '../../../shared/jar.ts';
import type { Item } from '../../../src/household/item.ts';
import type { ListPageProps } from '../../../views/pages/files/list-page.tsx';
import { familyWords, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { faultsOf, type ListProblem, linesInWords, type UnknownName } from '../../files/list-import.ts';
import { fieldsOfNew, guessOfNew, mostNewNames, waysOfKeeping } from '../../files/new-list-items.ts';
import { fieldsFrom, type SentBack } from '../shared/answer-form.ts';

/** Faults shown one by one; of the rest the lines are named, and all stand in the list to take along. */
const faultsShown = 100;

export function presentFaults(problems: readonly ListProblem[]): ListPageProps['faults'] {
  const faults = faultsOf(problems);
  return {
    shown: faults.slice(0, faultsShown).map(({ lines, column, message }) => ({
      lines: linesInWords(lines),
      column,
      message,
    })),
    others: linesInWords(faults.slice(faultsShown).flatMap(({ lines }) => lines)),
  };
}

export function presentNewNames(
  unknown: readonly UnknownName[],
  kept: readonly Item[],
  sentBack: SentBack | null,
  reading: Reading,
): ListPageProps['newNames'] {
  const asked = unknown.slice(0, mostNewNames);
  const names = asked.map((one, at) => {
    const fields = fieldsOfNew(at);
    const guess = guessOfNew(one);
    return {
      name: one.name,
      where: `${counted(formatNumber(one.lines.length, reading), 'row, line', 'rows, lines')} ${linesInWords(one.lines)}`,
      fields,
      form: fieldsFrom(sentBack)('list', {
        [fields.as]: guess.as,
        [fields.family]: guess.family,
        [fields.jar]: guess.jar,
        [fields.days]: guess.days,
      }),
    };
  });
  return {
    names,
    ways: [
      { value: '', words: 'Say what it is' },
      ...Object.entries(waysOfKeeping).map(([value, { words }]) => ({ value, words: `new: ${words}` })),
      ...kept.map(({ id, name }) => ({ value: `item ${id}`, words: `the same as ${name}` })),
    ],
    families: families.map((value) => ({ value, words: familyWords[value] })),
    jars: jarKinds.map((value) => ({ value, words: value.replace('/', ', ').concat(' mouth') })),
    tooMany:
      unknown.length > mostNewNames
        ? `${counted(formatNumber(unknown.length, reading), 'name is', 'names are')} not kept yet, and ${mostNewNames} at once is the most. Is the column for the item the right one? Otherwise send the list in parts.`
        : null,
  };
}
