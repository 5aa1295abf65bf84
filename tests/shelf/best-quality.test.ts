import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays, asDate, daysBetween } from '../../shared/week.ts';
import {
  bestQualityOf,
  discardOn,
  type Keeping,
  publishedHomeCannedDays,
  type WarmthRule,
  warmthFactor,
} from '../../src/shelf/best-quality.ts';

const putUpOn = asDate('2026-08-17');
const kept = (facts: Partial<Keeping> = {}): Keeping => ({
  putUpOn,
  publishedDays: publishedHomeCannedDays,
  warmthRule: 'canned',
  storageF: 60,
  ...facts,
});

// One year at 50-70 °F: University of California ANR, Canning, and National Center for Home Food Preservation, Storing
// Home-Canned Jams and Jellies; both read.
describe('a jar kept as published', () => {
  test.each([32, 50, 60, 70])('is at its best for a year at %d °F', (storageF) => {
    expect(bestQualityOf(kept({ storageF }))).toEqual({
      until: asDate('2027-08-17'),
      daysLostToWarmth: 0,
      flag: null,
      because: 'Published best quality: 365 days.',
    });
  });

  test('keeps the published life when nobody knows how warm the place is', () => {
    expect(bestQualityOf(kept({ storageF: null }))).toEqual({
      until: asDate('2027-08-17'),
      daysLostToWarmth: 0,
      flag: null,
      because: 'Published best quality: 365 days.',
    });
  });
});

// Utah State University Extension, Food storage: canned apples and apricots 24 months at 70 °F, 12 at 90 °F. University of
// Georgia, Drying Fruits and Vegetables: home-dried fruit 12 months at 60 °F, 6 at 80 °F. Both read.
describe('a warmer place shortens', () => {
  test('canned food to half at 90 °F and dried fruit to half at 80 °F', () => {
    expect(warmthFactor('canned', 90)).toBeCloseTo(12 / 24, 12);
    expect(warmthFactor('dried', 80)).toBeCloseTo(6 / 12, 12);
  });

  test('by the implied 1.87-fold per 18 °F of the published apples', () => {
    expect(warmthFactor('canned', 70) / warmthFactor('canned', 88)).toBeCloseTo(1.87, 2);
  });

  test('and says by how much and that the factor is computed', () => {
    const { until, because } = bestQualityOf(kept({ storageF: 80 }));

    expect(until).toBe('2027-05-02');
    expect(because).toBe(
      'Published best quality is 365 days at up to 70 °F; at 80 °F this is 107 days shorter, computed from a published life that falls to 50% between 70 and 90 °F.',
    );
  });

  test('but not food whose place is not the pantry', () => {
    expect(bestQualityOf(kept({ warmthRule: 'none', storageF: 110 })).until).toBe('2027-08-17');
  });
});

// USDA, Complete Guide to Home Canning, AIB 539: not above 95 °F. Read.
describe('a place that is wrong', () => {
  test.each([
    [95, null],
    [95.1, 'too warm to store'],
    [32, null],
    [31.9, 'may freeze'],
  ] as const)('%d °F is flagged as %s', (storageF, flag) => {
    expect(bestQualityOf(kept({ storageF })).flag).toBe(flag);
  });
});

describe('what is said of a place that is wrong', () => {
  test('stands behind where the date comes from', () => {
    expect(bestQualityOf(kept({ storageF: 20 })).because).toBe(
      'Published best quality: 365 days. Below 32 °F jars may freeze, soften the food and lose their seal: find a warmer place.',
    );
    expect(bestQualityOf(kept({ storageF: 100 })).because).toMatch(
      /shorter, computed .* °F\. Above 95 °F quality is lost within weeks to months: find a cooler place\.$/,
    );
  });

  test('is nothing where its place is not the pantry', () => {
    expect(bestQualityOf(kept({ warmthRule: 'none', storageF: 0 }))).toMatchObject({
      flag: null,
      because: 'Published best quality: 365 days.',
    });
  });
});

test('a published life of less than a day is an error; of a day and a half is a day', () => {
  for (const publishedDays of [0, 0.9, -3, Number.NaN])
    expect(() => bestQualityOf(kept({ publishedDays }))).toThrow(
      `bestQuality: expected a published life of 1 day or more, got ${publishedDays} days`,
    );
  expect(bestQualityOf(kept({ publishedDays: 1 })).until).toBe('2026-08-18');
  expect(bestQualityOf(kept({ publishedDays: 1.5 }))).toMatchObject({
    until: '2026-08-18',
    daysLostToWarmth: 0,
  });
  // However warm, a day is left.
  expect(bestQualityOf(kept({ publishedDays: 2, storageF: 140 })).until).toBe('2026-08-18');
});

const anyKeeping = fc.record({
  publishedDays: fc.integer({ min: 1, max: 3650 }),
  warmthRule: fc.constantFrom<WarmthRule[]>('canned', 'dried', 'none'),
  storageF: fc.option(fc.double({ min: -40, max: 140, noNaN: true })),
});

test('no temperature lengthens the published life, and warmer never lengthens it', () => {
  fc.assert(
    fc.property(anyKeeping, fc.double({ min: 0, max: 50, noNaN: true }), (facts, more) => {
      const here = bestQualityOf(kept(facts));
      const warmer = bestQualityOf(
        kept({ ...facts, storageF: facts.storageF === null ? null : facts.storageF + more }),
      );

      expect(here.until <= addDays(putUpOn, facts.publishedDays)).toBe(true);
      expect(warmer.until <= here.until).toBe(true);
      expect(daysBetween(putUpOn, here.until) + here.daysLostToWarmth).toBe(facts.publishedDays);
    }),
  );
});

test('the date is never spoken of as safe or unsafe', () => {
  fc.assert(
    fc.property(anyKeeping, (facts) => {
      expect(bestQualityOf(kept(facts)).because).not.toMatch(/safe|spoil|danger|harm|ill/i);
    }),
  );
});

test('the household’s own ceiling is 18 months from putting up, the last day of a shorter month included', () => {
  expect(discardOn(putUpOn)).toBe('2028-02-17');
  expect(discardOn(asDate('2026-08-31'))).toBe('2028-02-29');
  expect(discardOn(putUpOn, 24)).toBe('2028-08-17');
});
