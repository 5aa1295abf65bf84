import { describe, expect, test } from 'vitest';
import {
  altitudeBand,
  altitudeEcho,
  confirmedAltitude,
  knownAltitude,
  lookUpLimits,
  seenAltitude,
} from '../../../src/preserving/lookup/altitude-echo.ts';
import { tables } from '../tables.ts';

const rows = tables.processTimes;
const messageOf = (typed: string, unit: 'ft' | 'm' = 'ft', more = {}) => {
  const known = knownAltitude(rows, typed, unit, more);
  return known.ok ? known.value : known.problems[0]?.message;
};

describe('a height that a form shows back', () => {
  test('is seen in both units with its band, and marked by its feet', () => {
    expect(seenAltitude(rows, '1240', 'm', '.')).toEqual({
      echo: '1,240 m is 4,068 ft: the band 3,001 to 6,000 ft',
      mark: expect.stringMatching(/^4068\.2/),
    });
    expect(seenAltitude(rows, '', 'm', '.')).toEqual({ echo: null, mark: '' });
    expect(seenAltitude(rows, 'high', 'ft', '.')).toEqual({ echo: null, mark: '' });
  });

  test('is kept once it is sent again with the mark of what was seen, and no other', () => {
    const confirmed = (typed: string, mark: string, unit: 'ft' | 'm' = 'ft') =>
      confirmedAltitude(rows, typed, unit, { decimalSign: '.', mark });
    expect(confirmed('5300', '5300')).toMatchObject({ ok: true, value: { altitudeFt: 5300 } });
    for (const mark of ['', '5299', '1000'])
      expect(confirmed('5300', mark)).toEqual({
        ok: false,
        problems: [
          {
            code: 'altitude-unconfirmed',
            path: ['altitude'],
            message:
              '5,300 ft is 1,615 m: the band 3,001 to 6,000 ft. Is that your kitchen? Send the form again to keep it, or correct it.',
          },
        ],
      });
    expect(confirmed('', '')).toMatchObject({
      problems: [{ message: 'Write how high the kitchen lies, in feet or meters.' }],
    });
    const { mark } = seenAltitude(rows, '1240', 'm', '.');
    expect(confirmed('1240', mark, 'm')).toMatchObject({ ok: true, value: { altitudeFt: Number(mark) } });
    expect(confirmed('1240', mark, 'ft').ok).toBe(false);
  });
});

describe('a height that is none', () => {
  test('is asked for in words', () => {
    expect(messageOf('   ')).toBe('Write how high the kitchen lies, in feet or meters.');
    expect(messageOf('uphill')).toBe(
      '“uphill” is no height. Write how high the kitchen lies, in feet or meters, in digits like 1240.',
    );
    const long = 'x'.repeat(60);
    expect(messageOf(long)).toContain(`“${long.slice(0, 40)}” is no height`);
  });

  test('of a kitchen lies beyond what one has; a look-up reaches further', () => {
    expect(messageOf('-1500')).toMatchObject({ altitudeFt: -1500 });
    expect(messageOf('-1501')).toBe(
      '“-1501” is no height a kitchen has: -1,501 ft is -458 m: below the sea, where no band is printed. Write one from -1,500 to 20,000 ft.',
    );
    expect(messageOf('20000')).toMatchObject({ altitudeFt: 20_000 });
    expect(messageOf('20001')).toContain('is no height a kitchen has');
    expect(messageOf('20001', 'ft', { limits: lookUpLimits })).toMatchObject({ altitudeFt: 20_001 });
  });
});

describe('the band of a height', () => {
  test('is the narrowest printed, and none below the sea', () => {
    expect(altitudeBand(rows, 500)).toEqual({ fromFt: 0, toFt: 1000 });
    expect(altitudeBand(rows, -1)).toBeNull();
    expect(altitudeBand([], 500)).toBeNull();
    expect(altitudeEcho(rows, -10, 'ft')).toBe('-10 ft is -3.05 m: below the sea, where no band is printed');
  });

  test('is of boiling water alone, and of equal ones the higher', () => {
    const row = (altitudeFromFt: number, altitudeToFt: number | null, method = 'boiling-water') =>
      ({ altitudeFromFt, altitudeToFt, method }) as never;
    expect(altitudeBand([row(0, 6000), row(0, 1000), row(0, null)], 800)).toEqual({ fromFt: 0, toFt: 1000 });
    expect(altitudeBand([row(0, 1000), row(500, 1500)], 800)).toEqual({ fromFt: 500, toFt: 1500 });
    expect(altitudeBand([row(0, 6000), row(0, 900, 'pressure-dial')], 800)).toEqual({
      fromFt: 0,
      toFt: 6000,
    });
  });

  test('says small numbers with their hundredths', () => {
    expect(altitudeEcho(rows, 3.25, 'm')).toContain('3.25 m is 11 ft');
    expect(altitudeEcho(rows, 10.25, 'm')).toContain('10 m is 34 ft');
  });
});
