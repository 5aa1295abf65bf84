import { expect, it } from 'vitest';
import { lotSizingRules } from '../../../../src/planning/model/rules.ts';
import { handMadeYear, lot, recipe, used } from '../hand-made-year.ts';
import { readModel, says, weekly } from '../read-model.ts';

const part = (parts: Parameters<typeof used>[2] = {}) =>
  readModel(
    handMadeYear(3, {
      items: [used('part', [4, 0, 6], parts)],
      recipes: [
        recipe('cast', 'part', {
          yieldLowUnits: 2,
          handsOnMinutes: 10,
          setUp: { minutes: 30, cents: 700 },
        }),
      ],
    }),
    weekly,
    lotSizingRules,
  );

it('a week that makes any pays for its set-up, and may make any amount', () => {
  const model = part();
  expect(model.column('makes[cast,w0]')).toEqual({ lower: 0, upper: 1, integer: true, cost: 700 });
  // 10 units are wanted from the first week on, 2 a batch; 6 from the second on.
  expect(model.column('batches[cast,w0]')).toMatchObject({ lower: 0, upper: 5, integer: false });
  expect(model.row('set_up_most[cast,w0]')).toEqual(says('batches[cast,w0] - 5 makes[cast,w0] <= 0'));
  expect(model.row('set_up_most[cast,w1]')).toEqual(says('batches[cast,w1] - 3 makes[cast,w1] <= 0'));
  expect(model.row('kitchen_hours[w0]')).toEqual(
    says('10 batches[cast,w0] + 30 makes[cast,w0] - 220 sessions[w0] <= 0'),
  );
  // 220 minutes of work less 30 of set-up are 19 times 10.
  expect(model.row('kitchen_hours[cast,w0]')).toEqual(says('batches[cast,w0] - 19 sessions[w0] <= 0'));
  expect(model.columns('total_batches')).toEqual([]);
});

it('what is made in a week serves the use of weeks from then on, each at most once', () => {
  const model = part();
  expect(model.row('set_up[cast,w0,w2]')).toEqual(says('serves[cast,w0,w2] - 6 makes[cast,w0] <= 0'));
  expect(model.row('set_up[cast,w0]')).toEqual(
    says('2 batches[cast,w0] - serves[cast,w0,w0] - serves[cast,w0,w2] = 0'),
  );
  expect(model.rows('served')).toEqual(['served[part,w0]', 'served[part,w2]']);
  expect(model.row('served[part,w2]')).toEqual(
    says('serves[cast,w0,w2] + serves[cast,w1,w2] + serves[cast,w2,w2] = 6'),
  );
});

it('it serves no week beyond its best quality', () => {
  expect(part({ bestQualityWeeks: 1 }).columns('serves')).toEqual([
    'serves[cast,w0,w0]',
    'serves[cast,w1,w2]',
    'serves[cast,w2,w2]',
  ]);
});

it('a set-up is only of what has one, and never misses use', () => {
  const model = readModel(
    handMadeYear(2, { items: [used('jam', [1, 1])], recipes: [recipe('boil', 'jam')] }),
  );
  expect([...model.columns('makes'), ...model.columns('serves'), ...model.rows('set_up')]).toEqual([]);
  expect(part().columns('shortage')).toEqual([]);
  expect(
    part({ openingLots: [lot('old', 1)], reserveUnits: 3, yearEndUnits: 2, familyMinimumUnits: 1 }).columns(
      'reserve',
    ),
  ).toEqual([]);
  expect(part({ yearEndUnits: 2, familyMinimumUnits: 1 }).columns('year_end')).toEqual([]);
  expect(part({ familyMinimumUnits: 1 }).columns('family')).toEqual([]);
  expect(part({ yearEndUnits: 2 }).columns('first_jars')).toEqual([]);
});
