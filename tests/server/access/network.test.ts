import { expect, test } from 'vitest';
import { countedAs } from '../../../server/access/network.ts';

test.each([
  ['203.0.113.7', '203.0.113.7'],
  ['::ffff:203.0.113.7', '203.0.113.7'],
  ['2001:db8:1:2:3:4:5:6', '2001:db8:1:2::/64'],
  ['2001:db8:1:2::ff', '2001:db8:1:2::/64'],
  ['2001:db8:1:3::ff', '2001:db8:1:3::/64'],
  ['three thousand letters', 'unknown'],
  ['', 'unknown'],
])('an address like %s is counted as %s', (from, counted) => {
  expect(countedAs(from)).toBe(counted);
});
