import { describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { readTypedAltitude } from '../../shared/typed-altitude.ts';
import { decimalSignOf } from '../../shared/typed-number.ts';
import { altitudeBand, altitudeEcho, knownAltitude } from '../../src/preserving/altitude-echo.ts';

const { processTimes } = loadReferenceTables();

// What a person of that country means, said by hand beside each way of writing: feet, `ask` where it may be two heights or
// wants a look first, `no` where it is no height. The foot is 0.3048 m exactly.
type Meant = number | 'ask' | 'no';
const m = (metres: number): number => metres / 0.3048;
const everywhere = ['en-US', 'en-GB', 'de-DE'];

/** [unit chosen, as typed, meant, locales where that holds] */
const ways: readonly (readonly ['ft' | 'm', string, Meant, (readonly string[])?])[] = [
  ['m', '1240', m(1240)],
  ['m', ' 1240 ', m(1240)],
  ['m', '1 240', m(1240)],
  ['m', '1\u00a0240', m(1240)],
  ['m', '1\u202f240', m(1240)],
  ['m', '1\u2009240', m(1240)],
  ['m', "1'240", m(1240)],
  ['m', '1’240', m(1240)],
  ['m', '１２４０', m(1240)],
  ['m', '١٢٤٠', m(1240)],
  ['m', '۱۲۴۰', m(1240)],
  ['m', '१२४०', m(1240)],
  ['m', '1240 m', m(1240)],
  ['m', '1240m', m(1240)],
  ['m', '1240 metres', m(1240)],
  ['m', '1240 meters', m(1240)],
  ['m', '1240 M', m(1240)],
  ['m', '+1240', m(1240)],
  ['m', '01240', m(1240)],
  ['m', '1240.0', m(1240), ['en-US', 'en-GB']],
  ['m', '1240,0', m(1240), ['de-DE']],
  ['m', '1240.5', m(1240.5), ['en-US', 'en-GB']],
  ['m', '1240,5', m(1240.5), ['de-DE']],
  ['m', '1,240', m(1240), ['en-US', 'en-GB']],
  ['m', '1.240', m(1240), ['de-DE']],
  ['m', '1.240', 'ask', ['en-US', 'en-GB']],
  ['m', '1,240', 'ask', ['de-DE']],
  ['m', '1.240 m', 'ask', ['en-US', 'en-GB']],
  ['m', '1,240 m', m(1240), ['en-US', 'en-GB']],
  ['m', '1.24 km', 'ask', ['en-US', 'en-GB']],
  ['m', '1,24 km', 'ask', ['de-DE']],
  ['m', '1.240 km', 'ask'],
  ['m', '1240 ft', 'ask'],
  ['m', '4,068 feet', 'ask', ['en-US', 'en-GB']],
  ['ft', '4068', 4068],
  ['ft', '4,068', 4068, ['en-US', 'en-GB']],
  ['ft', '4.068', 4068, ['de-DE']],
  ['ft', '4.068', 'ask', ['en-US', 'en-GB']],
  ['ft', '4,068', 'ask', ['de-DE']],
  ['ft', '4 068', 4068],
  ['ft', '4068 ft', 4068],
  ['ft', '4068 ft.', 4068],
  ['ft', '4068 feet', 4068],
  ['ft', '4068 FEET', 4068],
  ['ft', "4068'", 4068],
  ['ft', '4068 Fuß', 4068],
  ['ft', '４０６８', 4068],
  ['ft', '٤٠٦٨', 4068],
  ['ft', '4068.25', 4068.25, ['en-US', 'en-GB']],
  ['ft', '4068,25', 4068.25, ['de-DE']],
  ['ft', '1240 m', 'ask'],
  ['ft', '1,240 m', 'ask'],
  ['ft', '1.24 km', 'ask'],
  ['ft', '0', 0],
  ['ft', '0 ft', 0],
  ['ft', '7', 7],
  ['ft', '999', 999],
  ['ft', '1000', 1000],
  ['ft', '1001', 1001],
  ['ft', '3000', 3000],
  ['ft', '3001', 3001],
  ['ft', '6000', 6000],
  ['ft', '6001', 6001],
  ['ft', '10000', 10000],
  ['ft', '10,000', 10000, ['en-US', 'en-GB']],
  ['ft', '10.000', 10000, ['de-DE']],
  ['ft', '10.000', 'ask', ['en-US', 'en-GB']],
  ['ft', '10,000.5', 10000.5, ['en-US', 'en-GB']],
  ['ft', '10.000,5', 10000.5, ['de-DE']],
  ['ft', '10.000,5', 'ask', ['en-US', 'en-GB']],
  ['ft', '10,000.5', 'ask', ['de-DE']],
  ['m', '304.8', 1000, ['en-US', 'en-GB']],
  ['m', '304,8', 1000, ['de-DE']],
  ['m', '304,8', 'ask', ['en-US', 'en-GB']],
  ['m', '304.8', 'ask', ['de-DE']],
  ['m', '914.4', 3000, ['en-US', 'en-GB']],
  ['m', '1828.8', 6000, ['en-US', 'en-GB']],
  ['m', '2', m(2)],
  ['m', '-3', m(-3)],
  ['m', '−3', m(-3)],
  ['ft', '-10', -10],
  ['ft', '1.24', 'ask'],
  ['m', '1.24', 'ask'],
  ['m', '1,24', 'ask'],
  ['ft', '0.5', 'ask'],
  ['m', '1240.125', m(1240.125), ['en-US', 'en-GB']],
  ['m', '0x3e8', 'no'],
  ['m', '1e3', 'no'],
  ['m', '1E3', 'no'],
  ['m', '1.24e3', 'no'],
  ['m', '0b101', 'no'],
  ['m', 'Infinity', 'no'],
  ['m', 'NaN', 'no'],
  ['m', '∞', 'no'],
  ['m', '', 'no'],
  ['m', ' ', 'no'],
  ['m', 'high', 'no'],
  ['m', 'm', 'no'],
  ['m', '12 40', 'no'],
  ['m', '1 2 4 0', 'no'],
  ['m', '1,2,4,0', 'no'],
  ['m', '12,40,0', 'no'],
  ['m', '1..240', 'no'],
  ['m', '1.240.', 'ask', ['en-US', 'en-GB']],
  ['m', '1,,240', 'no'],
  ['m', '--1240', 'no'],
  ['m', '1240-', 'no'],
  ['m', '1240-1300', 'no'],
  ['m', '1240/2', 'no'],
  ['m', '1/2', 'no'],
  ['m', '½', 'no'],
  ['m', '12½', 'no'],
  ['m', '1240 yards', 'no'],
  ['m', '1240 mi', 'no'],
  ['m', '1240 cm', 'no'],
  ['m', '12 km 40', 'no'],
  ['m', '1_240', 'no'],
  ['m', '1240n', 'no'],
  ['m', '1²40', 'no'],
  ['m', 'MCCXL', 'no'],
  ['m', 'Ⅻ', 'no'],
  ['m', '1240 m 2', 'no'],
  ['m', '1.2.4', 'no'],
  ['m', '1,240.5.5', 'no'],
  ['m', '1.240,500.1', 'no'],
  ['ft', '90000', 'no'],
  ['ft', '-9000', 'no'],
  ['m', '9999', 'no'],
  ['ft', '20000', 20000],
  ['ft', '20001', 'no'],
  ['ft', '99999999999999999999', 'no'],
  ['m', '1240 km', 'no'],
  ['ft', '$1240', 'no'],
  ['ft', '~4000', 'no'],
  ['ft', 'about 4000', 'no'],
  ['ft', '4000 or so', 'no'],
  ['ft', '4k', 'no'],
];

const answered = ways.flatMap(([unit, typed, meant, locales = everywhere]) =>
  locales.map((locale) => ({ unit, typed, meant, locale })),
);

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
    else expect(message).toMatch(/must be a height/);
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
