import { describe, expect, it } from 'vitest';
import { handPath, handWorld } from './hand-world.ts';
import { openYear } from './live.ts';
import { livedWeeks, type Path, type World } from './world.ts';

// The books of a lived year, reckoned by hand.

const livedOut = (
  world: World,
  path: Path,
  act: (week: number, year: ReturnType<typeof openYear>) => void,
) => {
  const year = openYear(world, path);
  for (let week = 0; week < livedWeeks; week += 1) {
    act(week, year);
    year.endWeek();
  }
  return year;
};

describe('a lived year', () => {
  it('in which nothing is done eats what stands, then misses', () => {
    const year = livedOut(handWorld, handPath, () => {});
    // Jam is wanted in weeks 0, 4 … 56: 15 times, and 3 jars stood. Salt in weeks 9, 19 … 49: 5 times.
    // The jars were gone after week 8, before their best was over; 3 jars at 100 cents were eaten up.
    expect(year.lived().score).toEqual({
      score: 300 + 12 * 900 + 5 * 300,
      cost: 300,
      hours: 0,
      older: 0,
      jarsMissed: 12,
      staplesMissed: 5,
    });
  });

  it('pays for a batch what it takes, and counts what is left of it at cost', () => {
    let made = false;
    const year = livedOut(handWorld, handPath, (week, lived) => {
      if (week === 2) made = lived.make(0, 1);
    });
    expect(made).toBe(true);
    // 5 lb at 20, one pack of sugar, a pack of jars (6 to be ready, 4 empty and 1 eaten by then), a box of lids.
    expect(year.moneyInAll().spent).toBe(100 + 400 + 600 + 360);
    // 8 jars in all against 15 wanted. Left: 3 lb of sugar where 1 had been, 7 lids of the box, 6 jars.
    const left = 300 + 7 * 30 + 600;
    expect(year.lived().score).toMatchObject({
      cost: 1460 + (300 + 100) - left,
      hours: 1.5 * 600,
      jarsMissed: 7,
    });
  });

  it('counts every week a jar stands past its best, and nothing for it at the end', () => {
    const path = { ...handPath, use: [handWorld.weeks.map(() => 0), handWorld.weeks.map(() => 0)] };
    const year = livedOut(handWorld, path, () => {});
    // Best until week 10; three jars stand at the end of weeks 10 to 59.
    expect(year.lived().score).toMatchObject({ cost: 300, older: 3 * 50 * 10, jarsMissed: 0 });
  });

  it('takes first what is past its best soonest', () => {
    const year = openYear(handWorld, handPath);
    year.endWeek();
    year.endWeek();
    year.make(0, 1);
    for (let week = 2; week < 8; week += 1) year.endWeek();
    expect(year.endWeek().taken).toEqual([{ item: 0, lot: 'last-year', units: 1 }]);
  });

  it('makes nothing without its crop, its hours, or its money, and says so', () => {
    const before = openYear(handWorld, handPath);
    expect(before.make(0, 1)).toBe(false);
    const at = (world: World) => {
      const year = openYear(world, handPath);
      year.endWeek();
      year.endWeek();
      return year;
    };
    const rich = at(handWorld);
    expect(rich.make(0, 2)).toBe(false);
    expect(rich.make(0, 1)).toBe(true);
    const poor = at({ ...handWorld, fund: { opening: 1259, weekly: 100 } });
    expect(poor.fund()).toBe(1459);
    expect(poor.make(0, 1)).toBe(false);
    expect(poor.moneyInAll().spent).toBe(0);
    const short = at({ ...handWorld, sessionMinutes: 89 });
    expect(short.make(0, 1)).toBe(false);
    const away = at({ ...handWorld, sessionsByWeek: handWorld.weeks.map(() => 0) });
    expect(away.make(0, 1)).toBe(false);
  });

  it('lets a crop wait only as long as it keeps', () => {
    const keeps = (carryWeeks: number) => {
      const year = openYear(
        { ...handWorld, sources: handWorld.sources.map((source) => ({ ...source, carryWeeks })) },
        handPath,
      );
      for (let week = 0; week < 4; week += 1) year.endWeek();
      return year.poundsOf('quince');
    };
    expect([0, 1, 2].map(keeps)).toEqual([0, 8, 16]);
  });
});
