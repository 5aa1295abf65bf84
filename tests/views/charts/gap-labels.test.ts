import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  drawingWidths,
  type LabelledGap,
  labelStretch,
  labelsByRoom,
  shareUnderLabels,
} from '../../../views/charts/gap-labels.ts';

// The words of gaps on a board of the year: none over another, over jars, over another gap or beyond the drawing, however wide that is.

const weekCount = 52;

/** A year as stretches of weeks with so much stock, and gaps between them. */
const aYear = fc
  .array(
    fc.record({
      bare: fc.integer({ min: 1, max: 30 }),
      stocked: fc.integer({ min: 1, max: 12 }),
      height: fc.constantFrom(0.05, 0.2, 0.25, 0.6, 1),
      beginsBare: fc.boolean(),
    }),
    { minLength: 1, maxLength: 9 },
  )
  .map((stretches) => {
    const heights: number[] = [];
    const bare: LabelledGap[] = [];
    for (const { bare: weeks, stocked, height, beginsBare } of stretches) {
      if (!beginsBare || bare.length > 0) heights.push(...Array.from({ length: stocked }, () => height));
      const [from, until] = [heights.length, Math.min(weekCount, heights.length + weeks)];
      if (from >= weekCount) break;
      const words = until - from === 1 ? '1 week' : `${until - from} weeks`;
      bare.push({ from, until, label: `none ${words}${until === weekCount ? ' or more' : ''}` });
      heights.push(...Array.from({ length: until - from }, () => 0));
    }
    return { bare, heights: [...heights, ...Array.from({ length: weekCount }, () => 1)].slice(0, weekCount) };
  });

const overlap = (one: { from: number; until: number }, other: { from: number; until: number }) =>
  one.from < other.until - 1e-6 && other.from < one.until - 1e-6;

test('no label stands over another, over jars, over another gap, or leaves the drawing, at any width', () => {
  let shown = 0;
  fc.assert(
    fc.property(aYear, fc.integer({ min: 270, max: 1400 }), ({ bare, heights }, width) => {
      const across = (week: number) => (week / weekCount) * width;
      const labels = labelsByRoom({ bare, heights, weekCount }).flatMap((label, at) => {
        const gap = bare[at] as LabelledGap;
        const isShown = label !== null && width >= (drawingWidths[label.room] ?? Number.POSITIVE_INFINITY);
        return isShown ? [{ gap, at: labelStretch(gap, label.place, { weekCount, width }) }] : [];
      });
      shown += labels.length;
      for (const { gap, at } of labels) {
        expect(at.from).toBeGreaterThanOrEqual(0);
        expect(at.until).toBeLessThanOrEqual(width);
        for (const other of labels) if (other.gap !== gap) expect(overlap(at, other.at)).toBe(false);
        for (const other of bare)
          if (other !== gap)
            expect(overlap(at, { from: across(other.from), until: across(other.until) })).toBe(false);
        heights.forEach((height, week) => {
          if (height > shareUnderLabels)
            expect(overlap(at, { from: across(week), until: across(week + 1) })).toBe(false);
        });
      }
    }),
    { numRuns: 500, seed: 11 },
  );
  expect(shown).toBeGreaterThan(300);
});

const gap = (from: number, until: number, label = `none ${until - from} weeks`) => ({ from, until, label });
const stock = (height: number) => Array.from({ length: weekCount }, () => height);

test('a gap as long as its words holds them; on a phone as on a wide screen', () => {
  expect(labelsByRoom({ bare: [gap(10, 40)], heights: stock(1), weekCount })).toEqual([
    { place: 'within', room: 0 },
  ]);
});

test('a shorter one is named beside it, where little or nothing stands and the year has more room', () => {
  const placeOf = (from: number) =>
    labelsByRoom({ bare: [gap(from, from + 3)], heights: stock(0.1), weekCount })[0]?.place;

  expect([2, 46].map(placeOf)).toEqual(['after', 'before']);
});

test('between jars it waits for a drawing in which its words fit, and where none is, they are left out', () => {
  const roomOf = (weeks: number) =>
    labelsByRoom({ bare: [gap(10, 10 + weeks)], heights: stock(1), weekCount })[0]?.room ?? null;

  expect([22, 17, 13, 8, 3].map(roomOf)).toEqual([0, 1, 2, 3, null]);
});

test('of two close together only one is named where both would not fit', () => {
  const near = { bare: [gap(20, 22), gap(24, 28)], heights: stock(0), weekCount };

  const placed = labelsByRoom(near);

  expect(placed.map((label) => label?.place)).toEqual(['before', 'after']);
  expect(
    labelsByRoom({ ...near, heights: stock(0).fill(1, 28) }).filter((label) => label !== null),
  ).toHaveLength(1);
});
