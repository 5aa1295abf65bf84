import { expect, test } from 'vitest';
import { faultWords, machineFault } from '../../server/faults.ts';
import { ShelfwardError } from '../../shared/problems.ts';

test.each([
  [Object.assign(new Error('terminating connection'), { code: '57P01' }), 'unreachable'],
  [new Error('Connection terminated unexpectedly'), 'unreachable'],
  [new Error('Client has encountered a connection error and is not queryable'), 'unreachable'],
  [Object.assign(new Error('no room'), { code: 'SQLITE_FULL' }), 'disk-full'],
  [new Error('cannot read properties of undefined'), null],
])('%s is told as %s, however deep it lies', (cause, fault) => {
  expect(machineFault(cause)).toBe(fault);
  expect(machineFault(new ShelfwardError('wrapped', 'said on the way', { cause }))).toBe(fault);
});

test('a database that is away is no fault of the program', () => {
  expect(faultWords(new Error('Connection terminated unexpectedly'), 'Our own fault.')).toMatch(
    /^The database does not answer/,
  );
});
