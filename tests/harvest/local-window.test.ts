import { describe, expect, test } from 'vitest';
import { firstYear } from '../../server/reference/first-year.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { dayNumber } from '../../src/harvest/day-of-season.ts';
import { groundOf, seasonRegions } from '../../src/harvest/known-ground.ts';
import { localWindow } from '../../src/harvest/local-window.ts';
import { noGround, type StatedGround } from '../../src/household/ground.ts';

const tables = loadReferenceTables();
const crops = firstYear().crops.map(({ crop }) => crop);
const regions = seasonRegions(tables);
const kinds = ['garden', 'pick-your-own', 'market'] as const;
type Kind = (typeof kinds)[number];

const stationCalled = (name: string, state: string): string => {
  const found = tables.freezeNormals.find((one) => one.name === name && one.state === state);
  if (!found) throw new Error(`no station ${name}, ${state}`);
  return found.station;
};

/** Ground of a household with a region, a height and what it says. */
const ground = (region: string | null, altitudeFt: number | null, said: Partial<StatedGround> = {}) =>
  groundOf({ region, altitudeFt }, { ...noGround, ...said }, tables).ground;

const windowOf = (crop: string, kind: Kind, on: ReturnType<typeof ground>) => {
  const answer = localWindow(crop, kind, on, tables);
  if (answer.kind !== 'window') throw new Error(`${crop}: ${answer.kind}`);
  return answer.local;
};

const boulder = ground('CO', 5300, { station: stationCalled('BOULDER', 'CO') });

describe('a garden at 5,300 ft in Colorado', () => {
  // A gardener there sets tomatoes out in the second half of May and picks the first in the second half of July (common
  // practice, no source; CSU GardenNotes 720 plants very tender crops after the average last frost). Published for Colorado,
  // by the month: tomatoes and cucumbers from May 1, beans and grapes from July and August.
  test.each([
    ['tomato', '07-10', '08-05'],
    ['cucumber', '06-25', '07-25'],
    ['sweet-corn', '07-10', '08-10'],
    ['green-bean', '06-25', '07-31'],
    ['pepper-hot', '07-10', '08-10'],
    ['peach', '06-15', '08-01'],
    ['apple', '07-15', '08-31'],
    ['grape', '08-15', '09-15'],
    ['strawberry', '05-25', '06-30'],
  ])('first %s is ripe between %s and %s, by town or by height alone', (crop, from, to) => {
    for (const on of [boulder, ground('CO', 5300)]) {
      const { window } = windowOf(crop, 'garden', on);

      expect(window.beginsOn >= from && window.beginsOn <= to, `${crop} from ${window.beginsOn}`).toBe(true);
    }
  });

  test('what frost kills ends with the first freeze; apples do not', () => {
    // U.S. Climate Normals 1981–2010, Boulder: 32 °F has come by Oct 6 in half of the years.
    expect(windowOf('tomato', 'garden', boulder)).toMatchObject({
      endsWithFreeze: true,
      window: { endsOn: '10-06' },
    });
    expect(windowOf('apple', 'garden', boulder).endsWithFreeze).toBe(false);
  });

  test('a market there opens before the garden, and not in May either', () => {
    const market = windowOf('tomato', 'market', boulder).window.beginsOn;

    expect(market < windowOf('tomato', 'garden', boulder).window.beginsOn).toBe(true);
    expect(market >= '06-15').toBe(true);
  });

  test('a garden gives enough to fill jars when a variety in the middle is ripe, not when the first fruit is', () => {
    const montrose = ground('CO', 5300, { station: stationCalled('MONTROSE #2', 'CO') });
    const { window } = windowOf('tomato', 'garden', montrose);

    // Last freeze May 5 (U.S. Climate Normals 1981–2010), planted two weeks later, 60 to 85 days: Jul 18 and Jul 31.
    expect(window).toMatchObject({ beginsOn: '07-18', mostActiveFrom: '07-31' });
  });

  test('higher up everything comes later, and where it freezes again too soon nothing is promised', () => {
    const high = ground('CO', 7500, { station: stationCalled('ESTES PARK', 'CO') });

    expect(windowOf('strawberry', 'garden', high).shiftDays).toBeGreaterThan(
      windowOf('strawberry', 'garden', boulder).shiftDays,
    );
    // Two weeks until planting and 80 days of an early winter squash do not fit between these freezes.
    const tops = tables.freezeNormals.filter(
      ({ state, lastFreeze, firstFreeze }) =>
        state === 'CO' && dayNumber(firstFreeze ?? '12-31') - dayNumber(lastFreeze ?? '01-01') <= 94,
    );
    expect(tops.length).toBeGreaterThan(3);
    for (const top of tops) {
      const on = ground('CO', top.elevationFt, { station: top.station });
      expect(localWindow('winter-squash', 'garden', on, tables).kind, top.name).toBe('too-short');
    }
  });
});

describe('what the household says itself', () => {
  test('a last frost ten days later than the station’s moves tomatoes by ten days', () => {
    // Boulder: last freeze May 4 in half of the years.
    const later = ground('CO', 5300, { station: stationCalled('BOULDER', 'CO'), lastFrost: '05-14' });
    const days = (on: typeof later) => dayNumber(windowOf('tomato', 'garden', on).window.beginsOn);

    expect(days(later) - days(boulder)).toBe(10);
  });

  test('strawberries that begin later than printed move fruit by as many days, and no market', () => {
    const usual = ground('NJ', 100);
    const late = ground('NJ', 100, { strawberriesFrom: '05-30' });

    // New Jersey Department of Agriculture: strawberries from May 20, peaches from July 5.
    expect(windowOf('peach', 'garden', late)).toMatchObject({ shiftDays: 10, window: { beginsOn: '07-15' } });
    expect(windowOf('peach', 'market', late).window).toEqual(windowOf('peach', 'market', usual).window);
  });
});

describe('dates known by their month alone', () => {
  test('Michigan strawberries do not begin in April, nor on the first of May', () => {
    // MSU Extension marks May to July; New York prints May 20, most from June 5 to 20, and its spring is two days earlier.
    const { window, finer } = windowOf('strawberry', 'market', ground('MI', 700));
    expect(window.beginsOn >= '05-20' && window.beginsOn <= '05-31', window.beginsOn).toBe(true);
    expect((window.mostActiveFrom ?? '') >= '06-05', window.mostActiveFrom ?? 'none').toBe(true);
    expect(finer?.region).toBe('NY');
    expect(windowOf('peach', 'market', ground('MI', 700)).window.beginsOn >= '07-15').toBe(true);
  });

  test('no begin leaves the month its source prints, whatever a near region says', () => {
    const left: string[] = [];
    for (const region of regions)
      for (const crop of crops) {
        const answer = localWindow(crop, 'market', ground(region, null), tables);
        if (answer.kind !== 'window' || answer.local.isBorrowed || answer.local.notBefore !== null) continue;
        const { window, row } = answer.local;
        if (row.precision === 'month' && window.beginsOn.slice(0, 2) !== row.beginsOn.slice(0, 2))
          left.push(`${region} ${crop}: ${window.beginsOn}, printed ${row.beginsOn}`);
      }
    expect(left).toEqual([]);
  });

  test('what is planned on lies in the season, whoever prints it', () => {
    const outside: string[] = [];
    for (const region of regions)
      for (const kind of kinds)
        for (const crop of crops) {
          const answer = localWindow(crop, kind, ground(region, null), tables);
          if (answer.kind !== 'window') continue;
          const { beginsOn, endsOn, mostActiveFrom: from, mostActiveTo: to } = answer.local.window;
          if (from === null || to === null || endsOn < beginsOn) continue;
          if (from < beginsOn || to > endsOn || from >= to)
            outside.push(`${region} ${kind} ${crop}: ${beginsOn} [${from} ${to}] ${endsOn}`);
        }
    expect(outside).toEqual([]);
  });

  test('in every region no season of any crop opens before the middle of its month, unless its source says a day', () => {
    const early: string[] = [];
    for (const region of regions) {
      const on = ground(region, null);
      for (const kind of kinds)
        for (const crop of crops) {
          const answer = localWindow(crop, kind, on, tables);
          if (answer.kind !== 'window') continue;
          const { window, row } = answer.local;
          const monthOnly = row.precision === 'month' || row.precision === 'third-of-month';
          const middle = `${row.beginsOn.slice(0, 3)}15`;
          if (monthOnly && dayNumber(window.beginsOn) < dayNumber(middle))
            early.push(`${region} ${kind} ${crop}: ${window.beginsOn}, printed ${row.beginsOn}`);
          const active = window.mostActiveFrom;
          if (monthOnly && active !== null && row.mostActiveFrom !== null)
            if (dayNumber(active) < dayNumber(`${row.mostActiveFrom.slice(0, 3)}15`))
              early.push(`${region} ${kind} ${crop}: most from ${active}, printed ${row.mostActiveFrom}`);
        }
    }

    expect(early).toEqual([]);
  });

  test('a source that says the day keeps it: peaches of New Jersey from July 5', () => {
    expect(windowOf('peach', 'market', ground('NJ', 100)).window).toEqual({
      beginsOn: '07-05',
      mostActiveFrom: '07-20',
      mostActiveTo: '09-01',
      endsOn: '09-15',
    });
  });
});

describe('a crop that a region does not list', () => {
  test('is taken from the nearest region that does, and said to be: New York’s tomatoes from Pennsylvania', () => {
    const tomato = windowOf('tomato', 'market', ground('NY', 500));

    expect(tomato).toMatchObject({ isBorrowed: true, row: { region: 'PA' } });
    // Later than in Pennsylvania: the last freeze of spring comes later in New York.
    expect(tomato.shiftDays).toBeGreaterThan(0);
  });

  test('every crop of the short list has a season in every region, and a marked guess where it is borrowed', () => {
    const missing: string[] = [];
    for (const region of regions) {
      const on = ground(region, null);
      for (const crop of crops) {
        const answer = localWindow(crop, 'market', on, tables);
        if (answer.kind !== 'window') missing.push(`${region} ${crop}: ${answer.kind}`);
        else if (answer.local.isBorrowed === (answer.local.row.region === region))
          missing.push(`${region} ${crop}`);
      }
    }

    expect(missing).toEqual([]);
  });

  test('a household whose state has no table borrows from one with a like spring: Idaho from Colorado, not from the coast', () => {
    const boise = tables.freezeNormals.find(({ name, state }) => state === 'ID' && name.startsWith('BOISE'));

    const peach = windowOf('peach', 'garden', ground(null, 2800, { station: boise?.station ?? '' }));

    expect(peach).toMatchObject({ isBorrowed: true, row: { region: 'CO' } });
  });

  test('a household outside the United States has seasons guessed from its own frosts: none before what it plants can be ripe', () => {
    const kent = ground(null, 300, { lastFrost: '04-20', firstFrost: '11-05' });
    const tomato = windowOf('tomato', 'garden', kent);

    expect(tomato.isBorrowed).toBe(true);
    // Two weeks after the last frost, and 60 days of an early variety from plants (general knowledge).
    expect(tomato.window.beginsOn >= '07-03', tomato.window.beginsOn).toBe(true);
    // A table that prints a begin of autumn and a first frost before it leaves nothing; apples are no such crop.
    expect(localWindow('apple', 'garden', kent, tables).kind).toBe('window');
  });

  test('where nothing is known of the place no season is invented', () => {
    expect(localWindow('peach', 'garden', ground(null, 1000), tables).kind).toBe('no-table');
  });
});

describe('every place', () => {
  test('no garden has a tomato before its last freeze and the days it takes are over', () => {
    const days = tables.daysToHarvest.find(({ cropKey }) => cropKey === 'tomato')?.daysLow ?? 0;
    const early: string[] = [];
    for (const station of tables.freezeNormals.filter((_, at) => at % 41 === 0)) {
      const on = ground(null, station.elevationFt, { station: station.station });
      const answer = localWindow('tomato', 'garden', on, tables);
      if (answer.kind !== 'window' || on.climate === null) continue;
      if (dayNumber(answer.local.window.beginsOn) < on.climate.lastFreeze + days) early.push(station.name);
    }

    expect(early).toEqual([]);
  });

  // Where spring comes late the first day of a season moves and its last stays with autumn: at 7,700 ft apples were to be planned on
  // for five days and beans for three, of seasons of three months and of one, and neither ever filled a batch.
  test('wherever a crop ripens it can be planned on for two weeks, or as long as it is there or as most of it was printed', () => {
    const short: string[] = [];
    for (const station of tables.freezeNormals.filter((_, at) => at % 41 === 0)) {
      const on = ground(station.state, station.elevationFt, { station: station.station });
      for (const crop of crops) {
        const answer = localWindow(crop, 'garden', on, tables);
        if (answer.kind !== 'window') continue;
        const { row, window } = answer.local;
        const { beginsOn, endsOn, mostActiveFrom: from, mostActiveTo: to } = window;
        if (from === null || to === null) continue;
        const span = (first: string, last: string) =>
          dayNumber(last) - dayNumber(first) + (last < first ? 365 : 0);
        const printed =
          row.mostActiveFrom === null || row.mostActiveTo === null
            ? 14
            : span(row.mostActiveFrom, row.mostActiveTo) - 14;
        if (span(from, to) < Math.min(14, printed, span(beginsOn, to)))
          short.push(`${station.name} ${crop}: ${beginsOn} [${from} ${to}] ${endsOn}`);
      }
    }
    expect(short).toEqual([]);
  });
});
