import { expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { publishedWindow } from '../../src/harvest/published-window.ts';

const { harvestWindows } = loadReferenceTables();
const inRegion = (region: string, crop: string) => publishedWindow(harvestWindows, region, crop)?.cropKey;

// Rows of the harvest table: New Jersey Department of Agriculture; web calendar of Oregon; MSU Extension; Georgia.
test('the season of a crop is that of its own row in the region', () => {
  expect(publishedWindow(harvestWindows, 'NJ', 'peach')).toMatchObject({
    beginsOn: '07-05',
    mostActiveFrom: '07-20',
    endsOn: '09-15',
  });
});

test('a household writes hyphens, the table underscores', () => {
  expect(inRegion('NJ', 'sweet-corn')).toBe('sweet_corn');
});

test('where a state does not tell cherries apart, the one row speaks for all; its own row comes first where there is one', () => {
  expect(inRegion('NJ', 'cherry-tart')).toBe('cherry');
  expect(inRegion('OR-NW', 'cherry-tart')).toBe('cherry_tart');
  expect(inRegion('MI', 'cherry')).toBe('cherry_sweet');
  expect(inRegion('GA', 'green-bean')).toBe('green_bean_pole');
});

test('a crop without a row has no season, and no neighbouring state lends one', () => {
  expect(inRegion('OH', 'tomato')).toBeUndefined();
  expect(inRegion('nowhere', 'peach')).toBeUndefined();
});
