import { describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { readTypedAltitude } from '../../../shared/typed-altitude.ts';
import { decimalSignOf } from '../../../shared/typed-number.ts';
import { altitudeBand, altitudeEcho, knownAltitude } from '../../../src/preserving/lookup/altitude-echo.ts';

import { altitudesTyped as answered } from './altitude-ways.ts';

const { processTimes } = loadReferenceTables();

const bandOf = (feet: number): string =>
  feet < 0 ? 'below' : feet <= 1000 ? '0' : feet <= 3000 ? '1001' : feet <= 6000 ? '3001' : '6001';

describe('an altitude as people type it', () => {
  it('is tried in at least two hundred ways', () => {
    expect(answered.length).toBeGreaterThanOrEqual(200);
  });

  it.each(answered)('$typed beside $unit, $locale', ({ unit, typed, meant, locale }) => {
    const known = knownAltitude(processTimes, typed, unit, { decimalSign: decimalSignOf(locale) });
    if (typeof meant === 'number') {
      expect(known.ok ? known.value.altitudeFt : known.problems[0]?.message).toBeCloseTo(meant, 5);
      return;
    }
    expect(known.ok).toBe(false);
    const message = known.ok ? '' : (known.problems[0]?.message ?? '');
    if (meant === 'ask') expect(message).toMatch(/ is [\d,.−-]+ (ft|m): the band/);
    else expect(message).toMatch(/how high the kitchen lies|no height a kitchen has/);
  });

  it('what a message tells to write is read at once', () => {
    for (const { unit, typed, meant, locale } of answered) {
      if (meant !== 'ask') continue;
      const sign = decimalSignOf(locale);
      const known = knownAltitude(processTimes, typed, unit, { decimalSign: sign });
      const message = known.ok ? '' : (known.problems[0]?.message ?? '');
      const read = readTypedAltitude(typed, unit, sign);
      if (read.kind === 'none') throw new Error(typed);
      const advised = [...message.matchAll(/(?:Write|write|,) (-?\d+(?:\.\d+)?)(?= (?:for|and))/g)].map(
        ([, told]) => told ?? '',
      );
      expect(advised.length, message).toBeGreaterThan(0);
      for (const told of advised)
        expect(
          knownAltitude(processTimes, told, read.unit, { decimalSign: '.' }).ok,
          `${typed}: ${message}`,
        ).toBe(true);
    }
  });
});

describe('the echo', () => {
  it('says both units and the band', () => {
    expect(altitudeEcho(processTimes, 1240, 'm')).toBe('1,240 m is 4,068 ft: the band 3,001 to 6,000 ft');
    expect(altitudeEcho(processTimes, 4068, 'ft')).toBe('4,068 ft is 1,240 m: the band 3,001 to 6,000 ft');
    expect(altitudeEcho(processTimes, 7000, 'ft')).toBe('7,000 ft is 2,134 m: the band above 6,000 ft');
  });

  // Bands as printed for fruit and tomatoes in boiling water: USDA Complete Guide 2 and 3, every table.
  it.each([0, 1, 999.9, 1000, 1000.7, 1001, 2000, 3000, 3000.5, 3001, 5999, 6000, 6001, 12_000])(
    '%d ft stands in the printed band',
    (feet) => {
      expect(String(altitudeBand(processTimes, feet)?.fromFt)).toBe(
        bandOf(feet === 1000.7 ? 1001 : feet === 3000.5 ? 3001 : feet),
      );
    },
  );
});
