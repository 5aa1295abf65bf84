import { isVoid, type SheetBasis, sheetStamp } from '../afterwards/process-evidence.ts';

/** What has changed under a printed sheet since. */
export type SheetChange = 'altitude' | 'canner' | 'gauge' | 'gauge-check' | 'schedule';

/**
 * Why a printed sheet is void: what it rested on that is no longer so, canner by canner; empty when it still stands. A
 * canner that is gone, or came to it, counts as a change of canner.
 */
export const sheetChanges = (
  printed: readonly SheetBasis[],
  today: readonly SheetBasis[],
): readonly SheetChange[] => {
  const changes = new Set<SheetChange>();
  if (printed.length !== today.length) changes.add('canner');
  for (const basis of printed) {
    const now = today.find(({ canner }) => canner === basis.canner);
    if (!now) changes.add('canner');
    else if (isVoid(sheetStamp(basis), now)) for (const change of changesOf(basis, now)) changes.add(change);
  }
  return [...changes];
};

const changesOf = (printed: SheetBasis, now: SheetBasis): readonly SheetChange[] => [
  ...(printed.altitudeFt === now.altitudeFt ? [] : ['altitude' as const]),
  ...(printed.gauge === now.gauge ? [] : ['gauge' as const]),
  ...(printed.gaugeCheckedOn === now.gaugeCheckedOn ? [] : ['gauge-check' as const]),
  ...(printed.rowKeys.toSorted().join('\n') === now.rowKeys.toSorted().join('\n')
    ? []
    : ['schedule' as const]),
];
