import { describe, expect, test } from 'vitest';
import type { SheetBasis } from '../../../src/preserving/afterwards/process-evidence.ts';
import { sheetChanges } from '../../../src/preserving/sheet/sheet-changes.ts';

const kettle: SheetBasis = {
  altitudeFt: 1200,
  canner: 'kettle',
  gauge: null,
  gaugeCheckedOn: null,
  rowKeys: ['plum-jam', 'peaches'],
};
const pot: SheetBasis = {
  altitudeFt: 1200,
  canner: 'pot',
  gauge: 'dial',
  gaugeCheckedOn: '2026-06-01',
  rowKeys: ['beans'],
};

describe('what makes a printed sheet void', () => {
  test('nothing, while all is as it was, in whatever order', () => {
    expect(sheetChanges([kettle, pot], [pot, { ...kettle, rowKeys: ['peaches', 'plum-jam'] }])).toEqual([]);
  });

  test.each([
    ['altitude', { altitudeFt: 1201 }],
    ['gauge', { gauge: 'weighted' }],
    ['gauge-check', { gaugeCheckedOn: '2026-08-01' }],
    ['schedule', { rowKeys: ['beans', 'corn'] }],
  ])('another %s', (change, changed) => {
    expect(sheetChanges([kettle, pot], [kettle, { ...pot, ...changed }])).toEqual([change]);
  });

  test('a canner that is gone, or came to it', () => {
    expect(sheetChanges([kettle, pot], [kettle])).toEqual(['canner']);
    expect(sheetChanges([kettle], [kettle, pot])).toEqual(['canner']);
  });

  test('a sheet with nothing on it stands only beside nothing', () => {
    expect(sheetChanges([], [])).toEqual([]);
  });
});
