import { beforeEach, describe, expect, test } from 'vitest';
import { householdById } from '../../../server/queries/household/household.ts';
import { cannersOf, daysOffOf, jarStockOf, lidStockOf } from '../../../server/queries/household/kitchen.ts';
import { sourcesOf } from '../../../server/queries/year/harvest.ts';
import { decisionsOf } from '../../../server/queries/year/plans.ts';
import { declaredUsesOf } from '../../../server/queries/year/targets.ts';
import { setJarHolding } from '../../../server/records/household/jars.ts';
import { addDaysOff, saveCanner, setAltitude, setLids } from '../../../server/records/household/kitchen.ts';
import { saveHarvestWindow, saveSource, sayFirstPicked } from '../../../server/records/year/harvest.ts';
import { keepDecision } from '../../../server/records/year/keep-decision.ts';
import { recordDeclaredUse } from '../../../server/records/year/targets.ts';
import { decisionForm } from '../../../shared/schemas/decision.ts';
import { declaredUseForm } from '../../../shared/schemas/declared-use.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { harvestWindowForm, sourceForm } from '../../../shared/schemas/harvest.ts';
import { cannerForm, daysOffForm, jarHoldingForm, lidForm } from '../../../shared/schemas/kitchen.ts';
import { takeForm } from '../../../shared/schemas/shelf/take.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import {
  type Cast,
  day,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  today,
} from '../../builders/quince-yard.ts';

let cast: Cast;
beforeEach(async () => {
  cast = await quinceYardHousehold();
});

const plums = (change: object = {}) =>
  harvestWindowForm.parse({
    sourceId: 'plum-tree',
    beginsOn: '2027-08-01',
    lastOn: '2027-09-10',
    lbPerWeek: '25',
    ...change,
  });

describe('what people type', () => {
  test.each([
    ['a negative use', declaredUseForm, { itemId: 'plum-jam', amount: '-2', per: 'week' }, 'amount', '“-2”'],
    [
      'a use per meal without meals',
      declaredUseForm,
      { itemId: 'plum-jam', amount: '1', per: 'meal' },
      'mealsPerWeek',
      'how many such meals',
    ],
    [
      'a date that does not exist',
      takeForm,
      { itemId: 'plum-jam', occurredOn: '2026-02-30' },
      'occurredOn',
      'no day of the calendar',
    ],
    ['nothing to take from', takeForm, {}, 'itemId', 'Choose an item or a batch to take from.'],
    ['an id that is none', takeForm, { itemId: '../etc' }, 'itemId', '“../etc”'],
    ['a jar that is none', takeForm, { itemId: 'plum-jam', jarKind: 'bucket' }, 'jarKind', 'Choose a'],
    [
      'a pressure canner without a gauge',
      cannerForm,
      { name: 'Pot', method: 'pressure', quartJars: '7', pintJars: '9', halfPintJars: '9' },
      'gauge',
      'kind of gauge',
    ],
    [
      'a pin without batches',
      decisionForm,
      { recipeId: 'plum-jam-batch', week: '2026-W35', decision: 'pinned' },
      'batches',
      'how many batches',
    ],
  ])('%s is refused beside its field', (_, form, body, field, words) => {
    const refusal = refusalOf(readForm(form, body));

    expect(refusal.field).toBe(field);
    expect(refusal.message).toContain(words);
  });
});

describe('declared use', () => {
  test('holds from its day on; the newest that has begun is in force', async () => {
    const say = async (amount: string, sinceOn: string) =>
      worked(
        await recordDeclaredUse(
          cast.writer(),
          declaredUseForm.parse({ itemId: 'plum-jam', amount, per: 'month', sinceOn }),
        ),
      );
    await say('2', '2026-01-01');
    await say('3', '2026-08-01');
    await say('9', '2026-12-01');

    expect((await declaredUsesOf(cast.db, quinceYard, today)).get(plumJam)?.amount).toBe(3);
  });

  test('in servings needs to know the servings of a jar', async () => {
    const request = declaredUseForm.parse({
      itemId: 'green-beans',
      amount: '2',
      per: 'week',
      countedIn: 'servings',
    });

    expect(refusalOf(await recordDeclaredUse(cast.writer(), request)).code).toBe('servings-unknown');
  });
});

describe('harvest', () => {
  test('a window ends on the day after its last day', async () => {
    worked(await saveHarvestWindow(cast.writer(), plums()));

    const [, tree] = await sourcesOf(cast.db, quinceYard);
    expect(tree?.windows.map(({ year, beginsOn, endsOn }) => [year, beginsOn, endsOn])).toEqual([
      [2026, '2026-08-10', '2026-09-14'],
      [2027, '2027-08-01', '2027-09-11'],
    ]);
  });

  test.each([
    [
      'ends before it begins',
      { lastOn: '2027-07-01' },
      'window-ends-before-begin',
      'The last day, Jul 1, 2027, is before the first, Aug 1, 2027.',
    ],
    ['lasts longer than any', { lastOn: '2028-09-10' }, 'window-too-long', 'is more than 365'],
    [
      'has half its most active days',
      { mostActiveFrom: '2027-08-05' },
      'most-active-half-said',
      'Fill in the other',
    ],
    [
      'is most active outside itself',
      { mostActiveFrom: '2027-07-20', mostActiveLastOn: '2027-08-20' },
      'most-active-outside',
      'between Aug 1, 2027 and Sep 10, 2027',
    ],
    ['is of no source here', { sourceId: 'moon-tree' }, 'source-unknown', 'Choose a source'],
  ])('a window that %s is refused', async (_, change, code, words) => {
    const refusal = refusalOf(await saveHarvestWindow(cast.writer(), plums(change)));

    expect(refusal.code).toBe(code);
    expect(refusal.message).toContain(words);
  });

  test('first picked today stays with its year, and changing the dates keeps it', async () => {
    const picked = { sourceId: 'plum-tree' as never, year: 2026, firstPickedOn: day('2026-08-05') };

    worked(await sayFirstPicked(cast.writer(), picked));
    worked(await saveHarvestWindow(cast.writer(), plums({ beginsOn: '2026-08-11', lastOn: '2026-09-12' })));

    const [, tree] = await sourcesOf(cast.db, quinceYard);
    expect(tree?.windows[0]).toMatchObject({ beginsOn: '2026-08-11', firstPickedOn: '2026-08-05' });
  });

  test('a new source gets a readable id of its own', async () => {
    const orchard = sourceForm.parse({
      name: 'Far Orchard!',
      crop: 'apple',
      kind: 'pick-your-own',
      pricePerLb: '$0.95',
    });

    const first = worked(await saveSource(cast.writer(), orchard));
    const second = worked(await saveSource(cast.writer(), orchard));

    expect([first.sourceId, second.sourceId]).toEqual(['far-orchard', 'far-orchard-2']);
    expect((await sourcesOf(cast.db, quinceYard)).find(({ id }) => id === 'far-orchard')?.pricePerLb).toBe(
      95,
    );
  });
});

describe('kitchen', () => {
  test('altitude, canners and their gauges', async () => {
    worked(await setAltitude(cast.writer(), { altitudeFt: 5_280 }));
    const pot = worked(
      await saveCanner(
        cast.writer(),
        cannerForm.parse({
          name: 'Old pot',
          method: 'pressure',
          gauge: 'dial',
          gaugeCheckedOn: '2026-04-01',
          quartJars: '7',
          pintJars: '9',
          halfPintJars: '9',
        }),
      ),
    );

    expect((await householdById(cast.db, quinceYard)).altitudeFt).toBe(5_280);
    expect((await cannersOf(cast.db, quinceYard)).find(({ id }) => id === pot.cannerId)).toMatchObject({
      gauge: 'dial',
      gaugeCheckedOn: '2026-04-01',
      holds: { quarts: 7, pints: 9, halfPints: 9 },
    });
  });

  test('days away may not overlap or run backwards', async () => {
    const away = (fromOn: string, lastOn: string) =>
      addDaysOff(cast.writer(), 'away', daysOffForm.parse({ fromOn, lastOn }));
    worked(await away('2026-09-01', '2026-09-07'));

    expect(refusalOf(await away('2026-09-07', '2026-09-09')).code).toBe('days-off-overlap');
    expect(refusalOf(await away('2026-10-07', '2026-10-01')).code).toBe('days-off-end-before-begin');
    worked(await away('2026-09-08', '2026-09-09'));
    expect(
      (await daysOffOf(cast.db, quinceYard)).away.map(({ fromOn, untilOn }) => [fromOn, untilOn]),
    ).toEqual([
      ['2026-09-01', '2026-09-08'],
      ['2026-09-08', '2026-09-10'],
    ]);
  });

  test('jars and lids are counted as they are now', async () => {
    const jars = jarHoldingForm.parse({
      jarKind: 'pint/wide',
      empty: '11',
      price: '15.99',
      pack: '12',
    });
    worked(await setJarHolding(cast.writer(), jars));
    worked(await setJarHolding(cast.writer(), { ...jars, empty: 9 }));
    worked(
      await setLids(
        cast.writer(),
        lidForm.parse({ mouth: 'wide', onHand: '24', box: '12', boxPrice: '5.29' }),
      ),
    );

    expect((await jarStockOf(cast.db, quinceYard)).find(({ kind }) => kind === 'pint/wide')).toMatchObject({
      owned: 9,
      full: 0,
      empty: 9,
      price: 1599,
    });
    expect((await lidStockOf(cast.db, quinceYard)).find(({ mouth }) => mouth === 'wide')).toMatchObject({
      onHand: 24,
      boxPrice: 529,
    });
  });
});

describe('decisions about the plan', () => {
  const decide = (change: object) =>
    keepDecision(
      cast.writer(),
      decisionForm.parse({
        recipeId: 'plum-jam-batch',
        week: '2026-W35',
        decision: 'pinned',
        batches: '2',
        ...change,
      }),
    );

  test('a batch is pinned, then ruled out, then free again', async () => {
    worked(await decide({}));
    expect(await decisionsOf(cast.db, quinceYard)).toEqual([
      { recipeId: 'plum-jam-batch', week: '2026-W35', decision: 'pinned', batches: 2 },
    ]);

    worked(await decide({ decision: 'ruled-out' }));
    expect((await decisionsOf(cast.db, quinceYard))[0]?.decision).toBe('ruled-out');

    worked(await decide({ decision: 'free' }));
    expect(await decisionsOf(cast.db, quinceYard)).toEqual([]);
  });

  test('a week that is past cannot be planned any more', async () => {
    expect(refusalOf(await decide({ week: '2026-W33' })).code).toBe('week-is-past');
  });
});
