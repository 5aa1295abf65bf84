import type { Outcome } from '../../../shared/problems.ts';
import { inWords } from '../../../src/preserving/citation.ts';
import type { Schedule } from '../../../src/preserving/lookup/schedule.ts';
import type { ProcessLine } from '../../../views/pages/week/canning-day.tsx';
import { formatAltitude, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

const methodWords: Readonly<Record<Schedule['method'], string>> = {
  'boiling-water': 'in boiling water',
  'atmospheric-steam': 'in the steam canner',
  pressure: 'in the pressure canner',
};

/** One printed schedule with its source, or why there is none and what can be done instead. */
export const presentProcess = (ruling: Outcome<Schedule> | null, reading: Reading): ProcessLine => {
  if (ruling === null) return { kind: 'none-needed', words: 'Not canned: nothing to process.' };
  if (!ruling.ok) {
    const [first] = ruling.problems;
    return {
      kind: 'refused',
      words: first?.message ?? 'No tested process is named.',
      action: first === undefined ? null : actionFor(first.path[0]),
    };
  }
  const { minutes, psi, method, gauge, altitudeFt, source, food, style, acid } = ruling.value;
  const gaugeWords = gauge === null ? '' : `, ${gauge} gauge`;
  return {
    kind: 'schedule',
    minutes: `${minutes} min`,
    pressure: psi === null ? null : `${formatNumber(psi, reading)} psi${gaugeWords}`,
    how: `${methodWords[method]} at ${formatAltitude(altitudeFt, reading)}`,
    source: `${food}, ${style}. ${acid === null ? '' : 'Acid goes into each jar first. '}Source: ${inWords(source)}`,
  };
};

const actionFor = (field: string | number | undefined): { words: string; href: string } | null => {
  switch (field) {
    case 'altitudeFt':
      return { words: 'Enter the altitude', href: '/kitchen' };
    case 'gauge':
    case 'gaugeCheckedOn':
    case 'gaugeOffByPsi':
    case 'canner':
      return { words: 'See your canners', href: '/kitchen' };
    case 'choice':
      return { words: 'Choose one on the canning day', href: '/canning-day#processed' };
    default:
      return null;
  }
};
