import { describe, expect, it } from 'vitest';
import { asDate, asWeek } from '../../shared/week.ts';
import { type UseFacts, useHistory } from '../../src/consumption/use-history.ts';

// Four weeks from Monday 5 January 2026, a well-filled shelf, nothing taken unless a test says so.
const facts = (changes: Partial<UseFacts> = {}): UseFacts => ({
  from: asDate('2026-01-05'),
  asOf: asDate('2026-02-01'),
  movements: [{ on: asDate('2026-01-05'), units: 20 }],
  takings: [],
  countings: [],
  occasions: [],
  away: [],
  unrecorded: [],
  onPaper: [],
  silent: new Set(),
  tappedShare: 1,
  ...changes,
});
const taken = (on: string, units = 1) => ({ on: asDate(on), units });
const left = (on: string, units = 1) => ({ on: asDate(on), units: -units });
const exposures = (changes?: Partial<UseFacts>): number[] =>
  useHistory(facts(changes)).map((week) => Number(week.exposure.toFixed(6)));
const takings = (changes?: Partial<UseFacts>): number[] =>
  useHistory(facts(changes)).map((week) => Number(week.taken.toFixed(6)));

describe('days that count', () => {
  it('are all days while a unit stands on the shelf', () => {
    expect(exposures()).toEqual([1, 1, 1, 1]);
  });

  it('begin when the first unit is ready', () => {
    expect(exposures({ movements: [{ on: asDate('2026-01-14'), units: 5 }] })).toEqual([
      0,
      expect.closeTo(5 / 7, 6),
      1,
      1,
    ]);
  });

  it('end with the last unit, whose day counts half, and begin again when more comes', () => {
    const movements = [
      { on: asDate('2026-01-05'), units: 1 },
      left('2026-01-14'),
      { on: asDate('2026-01-26'), units: 3 },
    ];
    expect(exposures({ movements, takings: [taken('2026-01-14')] })).toEqual([
      1,
      expect.closeTo(2.5 / 7, 6),
      0,
      1,
    ]);
  });

  it('leave out days away, and what somebody else took then', () => {
    const away = [{ from: asDate('2026-01-12'), until: asDate('2026-01-17') }];
    expect(exposures({ away })).toEqual([1, expect.closeTo(2 / 7, 6), 1, 1]);
    expect(takings({ away, takings: [taken('2026-01-13'), taken('2026-01-18')] })).toEqual([0, 1, 0, 0]);
  });

  it('leave out weeks in which the household recorded nothing', () => {
    expect(exposures({ silent: new Set([asWeek('2026-W03')]) })).toEqual([1, 0, 1, 1]);
  });

  it('stop at today', () => {
    expect(exposures({ asOf: asDate('2026-01-13') })).toEqual([1, expect.closeTo(2 / 7, 6)]);
    expect(useHistory(facts({ asOf: asDate('2026-01-04') }))).toEqual([]);
  });

  it('hold a day on which one was taken, whatever the book says', () => {
    expect(exposures({ movements: [], takings: [taken('2026-01-07')] })[0]).toBeCloseTo(1 / 7, 6);
  });
});

describe('a shelf count', () => {
  const countings = [
    { on: asDate('2026-01-11'), counted: 19, takenUnsaid: 0 },
    { on: asDate('2026-01-25'), counted: 14, takenUnsaid: 4 },
  ];

  it('spreads what was taken without saying so over the days since the last count', () => {
    const weeks = useHistory(facts({ takings: [taken('2026-01-06'), taken('2026-01-20')], countings }));
    expect(weeks.map((week) => Number(week.taken.toFixed(9)))).toEqual([1, 2, 3, 0]);
    expect(weeks.map((week) => Number((week.foundAtCount ?? 0).toFixed(9)))).toEqual([0, 2, 2, 0]);
    expect(weeks.map((week) => week.countInterval)).toEqual([undefined, 2, 2, undefined]);
  });

  it('does not train when the difference was a miscount, a breakage or a gift', () => {
    const explained = countings.map((counting) => ({ ...counting, takenUnsaid: 0 }));
    const weeks = useHistory(facts({ countings: explained }));
    expect(weeks.map((week) => week.taken)).toEqual([0, 0, 0, 0]);
    expect(weeks.map((week) => week.countInterval)).toEqual([undefined, undefined, undefined, undefined]);
  });

  it('shows silent weeks to have been watched after all', () => {
    expect(exposures({ countings, silent: new Set([asWeek('2026-W03'), asWeek('2026-W05')]) })).toEqual([
      1, 1, 1, 0,
    ]);
  });

  it('that finds the shelf empty shortens the time it can have lasted: 4 units, four fifths', () => {
    const empty = [{ on: asDate('2026-01-18'), counted: 0, takenUnsaid: 4 }];
    expect(exposures({ countings: empty })).toEqual([0.8, 0.8, 1, 1]);
  });

  it('leaves the days since then to what the household taps', () => {
    expect(exposures({ countings, tappedShare: 0.6 })).toEqual([1, 1, 1, 0.6]);
  });

  it('loses no unit, whatever the dates', () => {
    const weeks = useHistory(
      facts({
        takings: [taken('2026-01-06'), taken('2026-01-21', 2.5)],
        countings: [
          { on: asDate('2026-01-08'), counted: 17, takenUnsaid: 1 },
          { on: asDate('2026-01-28'), counted: 9, takenUnsaid: 3.5 },
        ],
      }),
    );
    expect(weeks.reduce((sum, week) => sum + week.taken, 0)).toBeCloseTo(1 + 2.5 + 1 + 3.5, 10);
  });
});

describe('an occasion', () => {
  const occasions = [{ on: asDate('2026-01-22'), units: 3, name: 'Birthday' }];

  it('does not teach an everyday appetite: its units are left out, those beyond it stay', () => {
    expect(takings({ occasions, takings: [taken('2026-01-21', 2), taken('2026-01-22', 2)] })).toEqual([
      0, 0, 1, 0,
    ]);
  });

  it('does not reach back further than two days', () => {
    expect(takings({ occasions, takings: [taken('2026-01-19', 2)] })).toEqual([0, 0, 2, 0]);
  });
});
