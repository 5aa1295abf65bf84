import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, asDate } from '../../shared/week.ts';
import { type JarHappening, openJars } from '../../src/shelf/open-jars.ts';

const opened = (openedOn: string, jars = 1, lotId = 'beans'): JarHappening => ({
  lotId,
  kind: 'opened',
  openedOn: asDate(openedOn),
  jars,
});
const finished = (openedOn: string, jars = 1, lotId = 'beans'): JarHappening => ({
  ...opened(openedOn, jars, lotId),
  kind: 'finished',
});

// Limit of 3 days: opened on a Monday, eaten by Thursday. Worked by hand.
describe('jars that stand open', () => {
  it('keeps until so many days after it was opened, and is past its limit on the next', () => {
    const [jar] = openJars([opened('2026-08-17')], 3, asDate('2026-08-20'));
    const [late] = openJars([opened('2026-08-17')], 3, asDate('2026-08-21'));

    expect(jar).toEqual({
      lotId: 'beans',
      openedOn: '2026-08-17',
      jars: 1,
      eatBy: '2026-08-20',
      isPast: false,
    });
    expect(late?.isPast).toBe(true);
  });

  it('stands there no more once it is finished, whichever was said first', () => {
    const said = [finished('2026-08-17'), opened('2026-08-17', 2), opened('2026-08-16')];

    expect(openJars(said, 3, asDate('2026-08-17')).map(({ openedOn, jars }) => [openedOn, jars])).toEqual([
      ['2026-08-16', 1],
      ['2026-08-17', 1],
    ]);
    expect(openJars([...said].reverse(), 3, asDate('2026-08-17'))).toEqual(
      openJars(said, 3, asDate('2026-08-17')),
    );
  });

  it('fades a week past its limit, because nobody has to say that it is finished', () => {
    const days = [9, 10, 11].map((after) =>
      openJars([opened('2026-08-17')], 3, addDays(asDate('2026-08-17'), after)),
    );

    expect(days.map(({ length }) => length)).toEqual([1, 1, 0]);
  });

  it('never shows more jars than were opened, the soonest limit first', () => {
    const happening = fc.record({
      lotId: fc.constantFrom('beans', 'jam'),
      kind: fc.constantFrom('opened' as const, 'finished' as const),
      openedOn: fc.integer({ min: 0, max: 20 }).map((day) => addDays(asDate('2026-10-20'), day)),
      jars: fc.integer({ min: 1, max: 3 }),
    });
    fc.assert(
      fc.property(fc.array(happening, { maxLength: 30 }), fc.integer({ min: 0, max: 30 }), (all, limit) => {
        const open = openJars(all, limit, asDate('2026-11-05'));
        const limits = open.map(({ eatBy }) => eatBy);

        expect(limits).toEqual([...limits].sort());
        for (const { lotId, openedOn, jars } of open) {
          const opens = all.filter(
            (one) => one.kind === 'opened' && one.lotId === lotId && one.openedOn === openedOn,
          );
          expect(jars).toBeGreaterThan(0);
          expect(jars).toBeLessThanOrEqual(opens.reduce((sum, one) => sum + one.jars, 0));
        }
      }),
    );
  });
});
