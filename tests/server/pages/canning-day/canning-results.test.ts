import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { batchResultsOf } from '../../../../server/queries/canning/batch-results.ts';
import { jarStockOf, lidStockOf } from '../../../../server/queries/household/kitchen.ts';
import { recipesOf } from '../../../../server/queries/household/recipes.ts';
import { lotEvidence } from '../../../../server/queries/shelf/evidence.ts';
import { ledgerOf } from '../../../../server/queries/shelf/ledger.ts';
import { lotsOf } from '../../../../server/queries/shelf/shelf.ts';
import { decisionsOf } from '../../../../server/queries/year/plans.ts';
import { waitingMaterialsOf } from '../../../../server/queries/year/waiting-material.ts';
import { nextSeq } from '../../../../server/records/next-seq.ts';
import { undo } from '../../../../server/records/shelf/undo.ts';
import { asDate } from '../../../../shared/week.ts';
import {
  addTomatoes,
  type CanningPages,
  canningPages,
  dayPath,
  hours,
} from '../../../builders/canning-pages.ts';
import { worked } from '../../../builders/outcomes.ts';
import { keepPlanOf } from '../../../builders/planned-week.ts';
import { greenBeans, plumJam, quinceYard } from '../../../builders/quince-yard.ts';
import { formOf, wordsOf } from '../../../builders/visitor.ts';

let pages: CanningPages;
beforeEach(async () => {
  pages = await canningPages();
  await pages.begin();
});
afterEach(() => pages.close());

const writeDown = (recipe: string, fill: Readonly<Record<string, string>>) =>
  pages.visitor.submitOn(`${dayPath}/results/${recipe}`, { form: `${dayPath}/results/${recipe}`, fill });
const beansDone = {
  units: '9',
  minutesRun: '20',
  psi: '15',
  doneBy: 'Marit',
  minutesTaken: '75',
  note: 'tight lids',
};
const recipe = async (id: string) => {
  const found = (await recipesOf(pages.db, quinceYard)).find((one) => one.id === id);
  if (!found) throw new Error(`no recipe ${id}`);
  return found;
};

/** Plum jelly in the place of jam. The published recipe names plum pulp; that it keeps three days cold is from memory. */
const makeJellyOfIt = () =>
  pages.db
    .updateTable('recipe')
    .set({
      based_on: 'plum-jelly',
      process_food: 'plum-jelly',
      process_style: 'no added pectin; sterile jars',
    })
    .where('id', '=', 'plum-jam-batch')
    .execute();

describe('writing down what came out', () => {
  it('puts a lot on the shelf with the evidence of its processing, and marks the batch done', async () => {
    const answer = await writeDown('green-beans-batch', beansDone);

    const [lot] = await lotsOf(pages.db, quinceYard, { itemId: greenBeans });
    expect(answer.status).toBe(303);
    expect(lot).toMatchObject({
      unitsLeft: 9,
      madeOn: '2026-08-22',
      readyFrom: '2026-08-22',
      bestQualityUntil: '2027-08-22',
    });
    expect(await lotEvidence(pages.db, quinceYard, lot?.id)).toEqual([
      {
        lotId: lot?.id,
        processedOn: '2026-08-22',
        cannerId: 'pressure-pot',
        cannerName: 'Pressure pot',
        method: 'pressure',
        gauge: 'weighted',
        scheduleRow: 'beans-snap|pieces; green and wax|pressure-weighted|raw|pint|1001|20|15',
        altitudeFt: 1200,
        psi: 15,
        minutesRun: 20,
        acidTicked: null,
        doneBy: 'Marit',
      },
    ]);
    expect(await decisionsOf(pages.db, quinceYard)).toEqual([
      { recipeId: 'green-beans-batch', week: '2026-W34', decision: 'done', batches: 1 },
    ]);
  });

  it('asks a metric household for its height in meters, and holds it against the schedule in feet', async () => {
    await pages.visitor.submitOn('/kitchen', { form: '/kitchen/household', fill: { units: 'metric' } });
    const form = `${dayPath}/results/green-beans-batch`;
    const { body } = await pages.visitor.open(form);
    expect(formOf(body, form).values.altitudeFt).toBe('365.76');
    expect(wordsOf(body)).toMatch(/Altitude of the kitchen it was done in\s+m\b/);

    // 274 m are 899 ft: another row than that of 1,200 ft.
    for (const altitudeFt of ['274', '2,347 ft'])
      expect((await writeDown('green-beans-batch', { ...beansDone, altitudeFt })).status).toBe(
        altitudeFt === '274' ? 422 : 303,
      );
    const [lot] = await lotsOf(pages.db, quinceYard, { itemId: greenBeans });
    expect(await lotEvidence(pages.db, quinceYard, lot?.id)).toMatchObject([{ altitudeFt: 2347 }]);
  });

  it('takes a height as it stood in meters for the feet it was', async () => {
    await pages.visitor.submitOn('/kitchen', { form: '/kitchen/household', fill: { units: 'metric' } });
    await writeDown('green-beans-batch', beansDone);

    const [lot] = await lotsOf(pages.db, quinceYard, { itemId: greenBeans });
    const [evidence] = await lotEvidence(pages.db, quinceYard, lot?.id);
    expect(evidence?.altitudeFt).toBeCloseTo(1200, 2);
  });

  it('takes the jars from the empty ones and the lids from their box', async () => {
    await pages.db
      .insertInto('empty_jar_event')
      .values({
        household_id: quinceYard,
        seq: nextSeq('empty_jar_event', quinceYard),
        entry_id: 'counted',
        jar_kind: 'half-pint/regular',
        kind: 'counted',
        jars: 20,
        occurred_on: '2026-08-01',
        recorded_at: 0,
      })
      .execute();

    await writeDown('plum-jam-batch', { units: '8', minutesRun: '10', doneBy: 'Marit' });

    const [halfPints] = await jarStockOf(pages.db, quinceYard);
    const [regular] = await lidStockOf(pages.db, quinceYard);
    expect(halfPints).toMatchObject({ kind: 'half-pint/regular', empty: 12 });
    expect(regular).toMatchObject({ mouth: 'regular', onHand: 32 });
  });

  it.each([
    [
      'too few minutes',
      { minutesRun: '19' },
      '19 minutes are too few: the schedule is 20 minutes without a break.',
    ],
    ['too little pressure', { psi: '10' }, '10 psi is too little: the schedule is 15 psi.'],
    ['another altitude', { altitudeFt: '900' }, 'The schedule is not for 900 ft.'],
    ['nobody named', { doneBy: '' }, 'Write who watched the canner'],
    ['no minutes', { minutesRun: '' }, 'Write how many minutes the load was processed'],
  ])('shelves nothing with %s, and keeps what was typed', async (_, typed, message) => {
    const answer = await writeDown('green-beans-batch', { ...beansDone, ...typed });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
    expect(answer.body).toContain('value="tight lids"');
    expect(await lotsOf(pages.db, quinceYard, { itemId: greenBeans })).toEqual([]);
    expect(await decisionsOf(pages.db, quinceYard)).toEqual([]);
  });

  it('shelves no tomatoes whose acid was not ticked', async () => {
    await addTomatoes(pages);
    await pages.db
      .updateTable('canning_session')
      .set({ work_json: '[{"recipeId":"tomato-batch","batches":1}]' })
      .execute();

    const forgotten = await writeDown('tomato-batch', { units: '9', minutesRun: '40', doneBy: 'Marit' });
    const ticked = await writeDown('tomato-batch', {
      units: '9',
      minutesRun: '40',
      doneBy: 'Marit',
      acidTicked: 'yes',
    });

    expect(forgotten.status).toBe(422);
    expect(wordsOf(forgotten.body)).toContain('Acid goes into every jar, and it was not ticked.');
    expect(ticked.status).toBe(303);
    expect((await lotEvidence(pages.db, quinceYard)).map(({ acidTicked }) => acidTicked)).toEqual([true]);
  });

  it('holds another kind of jar against its own row: quarts of beans need 25 minutes, not 20', async () => {
    // USDA Complete Guide 4, p4-9: snap beans, raw, quarts, weighted gauge: 25 min.
    const quarts = { ...beansDone, otherUnits: '2', otherKind: 'quart/wide' };

    const short = await writeDown('green-beans-batch', quarts);
    const long = await writeDown('green-beans-batch', { ...quarts, minutesRun: '25' });

    expect(wordsOf(short.body)).toContain(
      '20 minutes are too few: the schedule is 25 minutes without a break.',
    );
    expect(long.status).toBe(303);
    expect(
      (await lotsOf(pages.db, quinceYard, { itemId: greenBeans })).map(({ jarKind }) => jarKind).sort(),
    ).toEqual(['pint/regular', 'quart/wide']);
  });

  // USDA Complete Guide 3, p3-9: crushed tomatoes, pints, weighted gauge above 1,000 ft: 20 minutes at 10 psi or 15 at 15.
  it.each([
    ['20', '10', 303, 'tomatoes-crushed|crushed; no added liquid|pressure-weighted|hot|pint|1001|20|10'],
    ['15', '15', 303, 'tomatoes-crushed|crushed; no added liquid|pressure-weighted|hot|pint|1001|15|15'],
    ['15', '10', 422, undefined],
  ])(
    'shelves tomatoes run %s minutes at %s psi only by one printed row, whole (%d)',
    async (minutesRun, psi, status, row) => {
      await addTomatoes(pages);
      await pages.db
        .updateTable('recipe')
        .set({ canner_id: 'pressure-pot' })
        .where('id', '=', 'tomato-batch')
        .execute();
      await pages.db
        .updateTable('canning_session')
        .set({ work_json: '[{"recipeId":"tomato-batch","batches":1}]' })
        .execute();

      const answer = await writeDown('tomato-batch', {
        ...{ units: '9', doneBy: 'Marit', acidTicked: 'yes' },
        minutesRun,
        psi,
      });

      expect(answer.status).toBe(status);
      expect((await lotEvidence(pages.db, quinceYard))[0]?.scheduleRow).toBe(row);
      if (status === 422)
        expect(wordsOf(answer.body)).toContain('(20 minutes at 10 psi, 15 minutes at 15 psi)');
    },
  );

  it('lets yield and minutes drift towards what was seen, and forgets what is undone', async () => {
    await writeDown('green-beans-batch', { ...beansDone, units: '4', minutesTaken: '110' });
    const learnt = await recipe('green-beans-batch');
    const [result] = await batchResultsOf(pages.db, quinceYard);
    await undo(pages.writer({ on: '2026-08-22' }), result?.id ?? '');
    const again = await recipe('green-beans-batch');

    // Published 9, seen 4: 9 + (4 − 9) / (4 + 1) = 8. Said 60 minutes, seen 110: 60 + 50 / 5 = 70.
    expect(learnt).toMatchObject({ yieldLow: 8, yieldHigh: 8, handsOnMinutes: 70 });
    expect(learnt.atFirst).toEqual({ yieldLow: 9, yieldHigh: 9, handsOnMinutes: 60, batchesSeen: 1 });
    expect(again).toMatchObject({ yieldLow: 9, yieldHigh: 9, handsOnMinutes: 60 });
  });

  it('counts a form sent twice once', async () => {
    const page = await pages.visitor.open(`${dayPath}/results/green-beans-batch`);
    const form = { form: `${dayPath}/results/green-beans-batch`, fill: beansDone };
    await pages.visitor.submit(page, form);
    await pages.visitor.submit(page, form);

    expect(
      (await lotsOf(pages.db, quinceYard, { itemId: greenBeans })).map(({ unitsLeft }) => unitsLeft),
    ).toEqual([9]);
  });

  it('keeps what was left over waiting with its day, until it is used', async () => {
    await makeJellyOfIt();

    await writeDown('plum-jam-batch', { units: '8', minutesRun: '10', doneBy: 'Marit', byProduct: '2.5' });
    const waiting = await waitingMaterialsOf(pages.db, quinceYard);
    const words = wordsOf((await pages.visitor.open('/canning-day')).body);
    await pages.visitor.submitOn('/canning-day', { form: '/waiting/plum-pulp', fill: { as: 'used' } });

    expect(waiting).toEqual([
      { id: 'plum-pulp', name: 'plum pulp', unit: 'lb', quantity: 2.5, useBy: '2026-08-25' },
    ]);
    expect(words).toContain('2.5 lb plum pulp: use by Tue, Aug 25');
    expect(await waitingMaterialsOf(pages.db, quinceYard)).toEqual([]);
  });

  it('is weighed as its household reads', async () => {
    await makeJellyOfIt();
    await pages.visitor.submitOn('/kitchen', { form: '/kitchen/household', fill: { units: 'metric' } });

    await writeDown('plum-jam-batch', { units: '8', minutesRun: '10', doneBy: 'Marit', byProduct: '1,5' });

    const [left] = await waitingMaterialsOf(pages.db, quinceYard);
    expect(left?.quantity).toBeCloseTo(1.5 * 2.20462262185, 2);
    expect(wordsOf((await pages.visitor.open('/canning-day')).body)).toContain('1.5 kg plum pulp: use by');
  });
});

describe('undoing what was written down', () => {
  const jellyDone = { units: '8', minutesRun: '10', doneBy: 'Marit' };
  const undoNewest = async () => {
    const [newest] = (await batchResultsOf(pages.db, quinceYard)).toReversed();
    return pages.visitor.submitOn('/shelf', {
      form: '/shelf/reversals',
      fill: { entry: newest?.id ?? '', answers: 'page' },
    });
  };
  const waits = async () => (await waitingMaterialsOf(pages.db, quinceYard)).map(({ quantity }) => quantity);

  beforeEach(makeJellyOfIt);

  it('takes what was left over back with the jars', async () => {
    await writeDown('plum-jam-batch', { ...jellyDone, byProduct: '2.5' });

    const answer = await undoNewest();

    expect(answer.location).toBe(`/shelf/${plumJam}#undo`);
    expect(await waits()).toEqual([]);
    expect(await lotsOf(pages.db, quinceYard, { itemId: plumJam })).toEqual([]);
  });

  it('leaves alone what another batch left over, with its own day', async () => {
    await writeDown('plum-jam-batch', { ...jellyDone, byProduct: '2.5' });
    pages.clock.at += hours(1);
    await writeDown('plum-jam-batch', { ...jellyDone, batches: '1', byProduct: '3' });

    await undoNewest();

    expect(await waitingMaterialsOf(pages.db, quinceYard)).toMatchObject([
      { quantity: 2.5, useBy: '2026-08-25' },
    ]);
  });

  it('keeps a use that was written down, and says so', async () => {
    await writeDown('plum-jam-batch', { ...jellyDone, byProduct: '2.5' });
    await pages.visitor.submitOn('/canning-day', { form: '/waiting/plum-pulp', fill: { as: 'used' } });

    const answer = await undoNewest();
    const words = wordsOf((await pages.visitor.open(answer.location)).body);

    expect(words).toContain('What that batch left over was used or thrown away already');
    expect(await waits()).toEqual([]);
    expect(
      (await pages.db.selectFrom('material_event').select('quantity').orderBy('seq').execute()).map(
        ({ quantity }) => quantity,
      ),
    ).toEqual([2.5, -2.5]);
  });

  it('takes it back only with the last jars of the batch', async () => {
    await writeDown('plum-jam-batch', {
      ...jellyDone,
      byProduct: '2.5',
      otherUnits: '2',
      otherKind: 'pint/regular',
    });
    const entries = await ledgerOf(pages.db, quinceYard, {});
    const [half, pint] = entries.filter(({ kind }) => kind === 'put up').map(({ entryId }) => entryId);
    worked(await undo(pages.writer({ on: '2026-08-22' }), half ?? ''));
    const afterOne = await waits();
    worked(await undo(pages.writer({ on: '2026-08-22' }), pint ?? ''));

    expect(afterOne).toEqual([2.5]);
    expect(await waits()).toEqual([]);
  });
});

describe('the next day’s look at the seals', () => {
  const lotId = async () =>
    (await lotsOf(pages.db, quinceYard, { itemId: plumJam, empty: true }))[0]?.id ?? '';
  const check = async (fill: Readonly<Record<string, string>>) =>
    pages.visitor.submitOn('/canning-day/2026-W34', { form: `${dayPath}/seals/${await lotId()}`, fill });

  beforeEach(() => writeDown('plum-jam-batch', { units: '8', minutesRun: '10', doneBy: 'Marit' }));

  it('is asked for between 12 and 24 hours after processing', async () => {
    const words = wordsOf((await pages.visitor.open('/canning-day')).body);

    expect(words).toMatch(/Check the seals between Sat, Aug 22, 9:00\sPM and Sun, Aug 23, 9:00\sAM\./);
    expect(words).toContain('Press the middle of the lid: it must not spring back.');
  });

  it('is still asked for when the next canning week has begun', async () => {
    await pages.db.deleteFrom('plan').execute();
    await keepPlanOf(pages.db, quinceYard, { '2026-W35': [{ recipe: 'green-beans-batch', batches: 1 }] });
    pages.clock.at += hours(48);

    const { body } = await pages.visitor.open('/canning-day');

    expect(wordsOf(body)).toContain('Saturday, August 29');
    expect(body).toContain('href="/canning-day/2026-W34?day=2026-08-22#results"');
    expect(wordsOf(body)).toContain('Check the seals of Saturday, August 22');
  });

  it('takes a jar that failed off the shelf and keeps how it is saved', async () => {
    pages.clock.at += hours(20);
    const answer = await check({ failed: '1', choice: 'reprocess' });

    const [lot] = await lotsOf(pages.db, quinceYard, { itemId: plumJam });
    const words = wordsOf((await pages.visitor.open('/canning-day/2026-W34')).body);
    expect(answer.status).toBe(303);
    expect(lot?.unitsLeft).toBe(7);
    expect(words).toContain('1 did not hold and was processed again, in full, with new lids.');
  });

  it('no longer offers to process it again once 24 hours are over', async () => {
    pages.clock.at += hours(25);
    const words = wordsOf((await pages.visitor.open('/canning-day/2026-W34')).body);
    const answer = await check({ failed: '1', choice: 'reprocess' });

    expect(words).toContain(
      'More than 24 hours have passed since processing. Discard the food without tasting it.',
    );
    expect(answer.status).toBe(422);
    expect((await lotsOf(pages.db, quinceYard, { itemId: plumJam }))[0]?.unitsLeft).toBe(8);
  });

  it('asks what is done with the jars that failed, and not for more than there are', async () => {
    const unsaid = await check({ failed: '1', choice: '' });
    const tooMany = await check({ failed: '9', choice: 'freeze' });

    expect(wordsOf(unsaid.body)).toContain('Choose what is done with the jars that did not seal');
    expect(wordsOf(tooMany.body)).toContain('This batch has 8 jars');
  });

  it('is done once', async () => {
    await check({ failed: '0' });
    const words = wordsOf((await pages.visitor.open('/canning-day/2026-W34')).body);

    expect(words).toContain('Seals checked: all hold.');
    expect(words).not.toContain('How many did not seal');
  });
});

describe('a day begun early or late', () => {
  it('is the same day: what is written down on Thursday for Saturday stands on Saturday and asks for nothing more', async () => {
    pages.clock.at = Date.UTC(2026, 7, 20, 15);
    const loadsBefore = (await pages.visitor.open('/canning-day')).body
      .match(/<article id="load-[^"]+"/g)
      ?.sort();

    // 7 where 9 were set out: the next day expects another number, this one keeps its loads.
    await writeDown('green-beans-batch', { ...beansDone, units: '7' });
    const { body } = await pages.visitor.open('/canning-day');

    expect(loadsBefore).toEqual([
      '<article id="load-green-beans-batch-1-1"',
      '<article id="load-plum-jam-batch-1-1"',
    ]);
    expect(body.match(/<article id="load-[^"]+"/g)).toEqual(['<article id="load-plum-jam-batch-1-1"']);
    expect(wordsOf(body)).toContain('1 batch: 7 pints, batch 260820-A');
    expect(wordsOf(body)).toContain('Saturday, August 22');
    expect((await batchResultsOf(pages.db, quinceYard, { sessionOn: asDate('2026-08-22') })).length).toBe(1);
  });

  it('is done in the week it was planned in, though it was begun the week before, and undone there', async () => {
    pages.clock.at = Date.UTC(2026, 7, 14, 15);
    await writeDown('green-beans-batch', beansDone);
    const done = await decisionsOf(pages.db, quinceYard);
    const [result] = await batchResultsOf(pages.db, quinceYard);
    await undo(pages.writer({ on: '2026-08-14' }), result?.id ?? '');

    expect(done).toEqual([{ recipeId: 'green-beans-batch', week: '2026-W34', decision: 'done', batches: 1 }]);
    expect(await decisionsOf(pages.db, quinceYard)).toEqual([]);
  });

  it('is what the page shows after midnight, until all of it is written down', async () => {
    pages.clock.at = Date.UTC(2026, 7, 23, 7, 30);

    expect(wordsOf((await pages.visitor.open('/canning-day')).body)).toContain('Saturday, August 22');
  });
});

describe('the form of what came out', () => {
  const formOf = async (recipe: string) => (await pages.visitor.open(`${dayPath}/results/${recipe}`)).body;
  const writtenIn = (body: string, name: string) =>
    new RegExp(`name="${name}"[^>]* value="([^"]*)"`).exec(body)?.[1];

  it('knows what was set out, and takes one tick for the pressure', async () => {
    const before = await formOf('green-beans-batch');
    const answer = await writeDown('green-beans-batch', {
      ...{ minutesRun: '20', doneBy: 'Marit' },
      psiHeld: 'yes',
    });
    const [evidence] = await lotEvidence(pages.db, quinceYard);

    expect([
      writtenIn(before, 'units'),
      writtenIn(before, 'batches'),
      writtenIn(before, 'psi') ?? '',
    ]).toEqual(['9', '1', '']);
    expect(answer.status).toBe(303);
    expect(evidence?.psi).toBe(15);
    expect(writtenIn(await formOf('plum-jam-batch'), 'doneBy')).toBe('Marit');
  });

  it('says everything that is missing at once, and shelves nothing', async () => {
    const words = wordsOf((await writeDown('green-beans-batch', { units: '9' })).body);

    expect(words).toContain('Write who watched the canner.');
    expect(words).toContain('Write how many minutes the load was processed');
    expect(words).toContain('Write the pressure at which the gauge stood, or tick that it held.');
    expect(await lotsOf(pages.db, quinceYard, { itemId: greenBeans })).toEqual([]);
  });
});

describe('the part of what came out', () => {
  const isFolded = async () => {
    const { body } = await pages.visitor.open('/canning-day?day=2026-08-22');
    return /<div id="results" class="folded-body">/.test(body);
  };

  it('is folded on the day while nothing is due, and open once something is written down', async () => {
    expect(await isFolded()).toBe(true);
    await writeDown('green-beans-batch', beansDone);
    expect(await isFolded()).toBe(false);
  });

  it('is open once the day is over, for who worked without the clocks', async () => {
    pages.clock.at += hours(24);

    expect(await isFolded()).toBe(false);
  });
});
