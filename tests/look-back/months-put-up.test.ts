import { describe, expect, test } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { monthsPutUp } from '../../src/look-back/months-put-up.ts';
import type { AccountEvent } from '../../src/shelf/account.ts';

const event = (
  seq: number,
  itemId: string,
  units: number,
  on: string,
  change: Partial<AccountEvent> = {},
): AccountEvent => ({
  seq,
  itemId,
  kind: 'put up',
  units,
  trainsUse: false,
  reason: null,
  occurredOn: asDate(on),
  reversesSeq: null,
  ...change,
});
const span = { from: asDate('2025-11-26'), until: asDate('2026-11-26') };
const units = [
  { itemId: 'jam', cents: 150, minutes: 20 },
  { itemId: 'beans', cents: 60, minutes: 12 },
];

describe('the months of a year put up', () => {
  test('hold the money and work of the jars filled in them, and every month stands there', () => {
    const { months, foods } = monthsPutUp(
      [
        event(1, 'jam', 8, '2026-07-03'),
        event(2, 'jam', 4, '2026-07-30'),
        event(3, 'beans', 10, '2026-08-01'),
        event(4, 'beans', 10, '2026-08-02', { kind: 'taken' }),
        event(5, 'jam', 50, '2025-11-25'),
        event(6, 'flour', 3, '2026-08-01'),
      ],
      units,
      new Map(),
      span,
    );

    expect(months).toHaveLength(13);
    expect([months[0]?.month, months.at(-1)?.month]).toEqual(['2025-11', '2026-11']);
    const filled = months.filter(({ money }) => money > 0);
    expect(filled.map(({ month, money, minutes }) => [month, money, minutes])).toEqual([
      ['2026-07', 12 * 150, 12 * 20],
      ['2026-08', 10 * 60, 10 * 12],
    ]);
    expect(foods).toBe(2);
  });

  test('are compared with what a store asks for one, and with nothing where that is not known', () => {
    const events = [event(1, 'jam', 8, '2026-07-03'), event(2, 'beans', 10, '2026-07-04')];

    const { months, foods, foodsWithPrice } = monthsPutUp(events, units, new Map([['jam', 300]]), span);

    const july = months.find(({ month }) => month === '2026-07');
    expect(july?.inStore).toEqual({ own: 8 * 150, asked: 8 * 300 });
    expect([foods, foodsWithPrice]).toEqual([2, 1]);
    expect(monthsPutUp(events, units, new Map(), span).months.every(({ inStore }) => inStore === null)).toBe(
      true,
    );
  });

  test('leave out what was taken back', () => {
    const { months } = monthsPutUp(
      [
        event(1, 'jam', 8, '2026-07-03'),
        event(2, 'jam', -8, '2026-07-03', { kind: 'reversed', reversesSeq: 1 }),
      ],
      units,
      new Map(),
      span,
    );

    expect(months.every(({ money }) => money === 0)).toBe(true);
  });
});
