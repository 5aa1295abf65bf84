import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { lotsOf, shelfByItem } from '../../../../server/queries/shelf/shelf.ts';
import { take } from '../../../../server/records/shelf/take.ts';
import { recordDeclaredUse } from '../../../../server/records/year/targets.ts';
import { loadPlanningYear } from '../../../../server/year/load-year.ts';
import { yearPicture } from '../../../../server/year/year-picture.ts';
import { oneOf } from '../../../../shared/schemas/shelf/take.ts';
import { asDate } from '../../../../shared/week.ts';
import { type CanningPages, canningPages, dayPath, reference } from '../../../builders/canning-pages.ts';
import { refusalOf, worked } from '../../../builders/outcomes.ts';
import { greenBeans, plumJam, quinceYard } from '../../../builders/quince-yard.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: CanningPages;
const canned = asDate('2026-08-22');

beforeEach(async () => {
  pages = await canningPages();
  await pages.begin();
  for (const [recipe, fill] of [
    ['green-beans-batch', { units: '9', minutesRun: '20', psi: '15', doneBy: 'Marit' }],
    ['plum-jam-batch', { units: '8', minutesRun: '10', doneBy: 'Marit' }],
  ] as const) {
    await pages.visitor.submitOn(`${dayPath}/results/${recipe}`, {
      form: `${dayPath}/results/${recipe}`,
      fill,
    });
  }
  for (const itemId of [greenBeans, plumJam]) {
    worked(
      await recordDeclaredUse(pages.writer({ on: canned }), {
        itemId,
        amount: 1,
        per: 'week',
        countedIn: 'units',
        people: null,
        mealsPerWeek: null,
        restartsFilter: false,
        sinceOn: null,
      } as Parameters<typeof recordDeclaredUse>[1]),
    );
  }
});
afterEach(() => pages.close());

const byCanner = (fill: Readonly<Record<string, string>>) =>
  pages.visitor.submitOn('/set-aside', { form: '/set-aside', fill });
const onShelf = async (itemId: string) =>
  (await shelfByItem(pages.db, quinceYard)).find(({ item }) => item.id === itemId)?.units;
const inPlan = async (itemId: string) => {
  const { year } = await loadPlanningYear(pages.db, quinceYard, canned, reference);
  return year.items.find(({ id }) => id === itemId)?.openingLots.reduce((sum, { units }) => sum + units, 0);
};
const inProjection = async (itemId: string) => {
  const picture = await yearPicture(pages.db, quinceYard, canned, reference);
  return picture.items.find(({ item }) => item.id === itemId)?.withoutPlan?.weeks[0]?.opening.expected;
};

const lotOf = async (itemId: string) =>
  (await lotsOf(pages.db, quinceYard, { itemId, empty: true }))[0]?.id ?? '';

describe('setting aside everything from one canner', () => {
  const offGauge = { cannerId: 'pressure-pot', since: '2026-08-01', reason: 'gauge found 3 psi off' };

  it('hides its lots from taking, projection and plan, and leaves the other canner alone', async () => {
    const before = await inProjection(greenBeans);
    const answer = await byCanner(offGauge);

    expect(answer.location).toBe('/set-aside?said=aside&count=1');
    expect(refusalOf(await take(pages.writer({ on: canned }), oneOf(greenBeans))).message).toContain(
      'gauge found 3 psi off',
    );
    expect(await onShelf(greenBeans)).toBe(0);
    expect(await inPlan(greenBeans)).toBe(0);
    expect(before).toBeGreaterThan(0);
    expect(await inProjection(greenBeans)).toBe(0);
    expect([await onShelf(plumJam), await inPlan(plumJam)]).toEqual([8, 8]);
  });

  it('brings them back when they are released', async () => {
    const before = await inProjection(greenBeans);
    await byCanner(offGauge);
    const lot = await lotOf(greenBeans);
    await pages.visitor.submitOn('/set-aside', {
      form: `/batches/${lot}/standing`,
      fill: { standing: 'released' },
    });

    expect([await onShelf(greenBeans), await inPlan(greenBeans)]).toEqual([9, 9]);
    expect(await inProjection(greenBeans)).toBe(before);
    worked(await take(pages.writer({ on: canned }), oneOf(greenBeans)));
    const standing = await pages.db.selectFrom('lot_standing_event').select(['kind', 'reason']).execute();
    expect(standing).toEqual([
      { kind: 'set-aside', reason: 'gauge found 3 psi off' },
      { kind: 'released', reason: '' },
    ]);
  });

  it('throws them away for good when they are discarded', async () => {
    await byCanner(offGauge);
    const lot = await lotOf(greenBeans);
    await pages.visitor.submitOn('/set-aside', {
      form: `/batches/${lot}/standing`,
      fill: { standing: 'discarded' },
    });

    expect((await lotsOf(pages.db, quinceYard, { lotId: lot, empty: true }))[0]?.unitsLeft).toBe(0);
    expect(wordsOf((await pages.visitor.open('/set-aside')).body)).toContain('Nothing is set aside.');
  });

  it('says so when nothing was processed in it since that day, or no reason was given', async () => {
    const later = await byCanner({ ...offGauge, since: '2026-08-23' });
    const unsaid = await byCanner({ ...offGauge, reason: '' });

    expect(wordsOf(later.body)).toContain('Nothing was canned in that canner since Aug 23, 2026.');
    expect(unsaid.status).toBe(422);
    expect(await onShelf(greenBeans)).toBe(9);
  });
});

describe('one batch', () => {
  it('shows its evidence, and can be set aside by itself', async () => {
    const lot = await lotOf(plumJam);
    const words = wordsOf((await pages.visitor.open(`/batches/${lot}`)).body);
    await pages.visitor.submitOn(`/batches/${lot}`, {
      form: `/batches/${lot}/standing`,
      fill: { standing: 'set-aside', reason: 'acid forgotten' },
    });

    expect(words).toContain('Canner Kettle, boiling water');
    expect(words).toContain('Minutes run 10');
    expect(words).toContain('Who Marit');
    expect(await onShelf(plumJam)).toBe(0);
    expect(wordsOf((await pages.visitor.open(`/batches/${lot}`)).body)).toContain(
      'Set aside: do not eat. acid forgotten',
    );
  });

  it('is a page that does not exist when there is no such batch', async () => {
    expect((await pages.visitor.open('/batches/nothing')).status).toBe(404);
  });
});

describe('food from others', () => {
  const receive = (itemId: string) =>
    pages.visitor.submitOn('/shelf/put-up', {
      form: '/shelf/lots',
      fill: { itemId, origin: 'received', units: '3', madeOn: '2026-08-22' },
    });
  const receivedLot = async (itemId: string) =>
    (await lotsOf(pages.db, quinceYard, { itemId })).find(({ origin }) => origin === 'received');

  it('low in acid is never counted as food, and cannot be released', async () => {
    await receive(greenBeans);
    const lot = await receivedLot(greenBeans);
    const answer = await pages.visitor.submitOn('/set-aside', {
      form: `/batches/${lot?.id}/standing`,
      fill: { standing: 'released' },
    });

    expect(await onShelf(greenBeans)).toBe(9);
    expect(lot?.setAside?.reason).toContain('process unknown');
    expect(answer.status).toBe(422);
    expect((await receivedLot(greenBeans))?.setAside).not.toBeNull();
  });

  it('that is acid counts, its process marked unknown', async () => {
    await receive(plumJam);

    expect(await onShelf(plumJam)).toBe(11);
    expect(wordsOf((await pages.visitor.open(`/shelf/${plumJam}`)).body)).toContain('process unknown');
  });
});

describe('a jar found unsealed later', () => {
  it('is discarded without tasting, with the handling its food calls for', async () => {
    const lot = await lotOf(greenBeans);
    const answer = await pages.visitor.submitOn('/found-unsealed', {
      form: '/found-unsealed',
      fill: { lotId: lot, units: '1', state: 'open' },
    });
    const words = wordsOf((await pages.visitor.open(answer.location)).body);

    expect(answer.status).toBe(303);
    expect(await onShelf(greenBeans)).toBe(8);
    expect(words).toContain('Do not taste it, do not reprocess it');
    expect(words).toContain('Put the lid on and boil 30 minutes.');
  });
});
