import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  declaredUsesOf,
  handTargetsOf,
  itemGroupsOf,
  occasionsOf,
  seasonMultipliersOf,
} from '../../../../server/queries/year/targets.ts';
import { plumJam, quinceYard, shelve, today } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  await pages.db
    .insertInto('declared_use')
    .values({
      household_id: quinceYard,
      item_id: plumJam,
      since_on: '2026-01-01',
      amount: 1,
      per: 'week',
      counted_in: 'units',
      recorded_at: 0,
    })
    .execute();
});
afterEach(() => pages.close());

const declared = async () => (await declaredUsesOf(pages.db, quinceYard, today)).get(plumJam);
const byHand = async () => (await handTargetsOf(pages.db, quinceYard)).get(plumJam)?.units;

describe('what the household says it eats', () => {
  it('is shown in its own words beside what was seen and what is expected', async () => {
    await shelve(pages.db, {
      id: 'jam',
      itemId: plumJam,
      units: 20,
      madeOn: '2026-06-01',
      bestQualityUntil: '2027-06-01',
    });
    await pages.visitor.submitOn('/shelf/plum-jam', {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'taken', units: '3', day: 'other', date: '2026-06-20' },
    });

    const words = wordsOf((await pages.visitor.open('/targets/plum-jam')).body);

    expect(words).toContain('You said 1 half-pint a week');
    expect(words).toMatch(/3 half-pints in \d+ weeks that counted\./);
    expect(words).toMatch(/We expect from now on 0\.\d a week/);
    expect(words).toMatch(/week of Jun 14 3 /);
  });

  it.each([
    [
      { amount: '2', per: 'month', countedIn: 'units' },
      { amount: 2, per: 'month' },
    ],
    [
      { amount: '3', per: 'school-week', countedIn: 'units' },
      { amount: 3, per: 'school-week' },
    ],
    [
      { amount: '2', per: 'meal', countedIn: 'servings', people: '2', mealsPerWeek: '3' },
      { amount: 2, per: 'meal', countedIn: 'servings', people: 2, mealsPerWeek: 3 },
    ],
  ])('is saved as said: %j', async (fill, said) => {
    const answer = await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/declared-use',
      fill: { ...fill, intent: 'save' },
    });

    expect([answer.status, answer.location]).toEqual([303, '/targets/plum-jam?said=saved']);
    expect(await declared()).toMatchObject({ ...said, sinceOn: today });
  });

  it.each<[Record<string, string>, string]>([
    [{ amount: '-2' }, 'How much you eat cannot be “-2”. Write a number from 0 to 1,000.'],
    [
      { amount: 'lots' },
      'How much you eat cannot be “lots”. Write a number from 0 to 1,000, in digits like 1.5.',
    ],
    [{ amount: '' }, 'How much you eat is empty.'],
    [{ amount: '1', per: 'meal' }, 'Write how many such meals there are in a week.'],
    [{ amount: '1', sinceOn: '2026-02-30' }, '“2026-02-30”, which is no day of the calendar'],
  ])('is refused when it cannot be read: %j', async (fill, message) => {
    const submission = {
      form: '/targets/plum-jam/declared-use',
      fill: { ...fill, intent: 'save' },
    };
    const whole = await pages.visitor.submitOn('/targets/plum-jam', submission);
    const part = await pages.visitor.submitOn('/targets/plum-jam', { ...submission, asPart: true });

    for (const answer of [whole, part]) {
      expect(answer.status).toBe(422);
      expect(wordsOf(answer.body)).toContain(message);
      if (fill.amount !== '') expect(answer.body).toContain(`value="${fill.amount}"`);
    }
    expect(part.body).toMatch(/^<section id="declared-use"/);
    expect(await declared()).toMatchObject({ amount: 1 });
  });

  it('is refused when it is far too long, kept, and echoed in short', async () => {
    const answer = await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/declared-use',
      fill: { amount: 'x'.repeat(5000), intent: 'save' },
    });

    expect(answer.status).toBe(422);
    expect(answer.body).toContain(`value="${'x'.repeat(5000)}"`);
    expect(wordsOf(answer.body)).toContain(`cannot be “${'x'.repeat(40)}…”`);
  });

  it('can be tried out: the year with other words, and nothing is saved', async () => {
    const answer = await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/declared-use',
      fill: { amount: '3', per: 'week', intent: 'try' },
      asPart: true,
    });

    const words = wordsOf(answer.body);
    expect(answer.status).toBe(200);
    expect(words).toContain('With 3 half-pints a week');
    expect(words).toMatch(/expected use 1 a week 3 a week/);
    expect(words).toContain('Nothing has been saved yet.');
    expect(await declared()).toMatchObject({ amount: 1 });
  });

  it('saved by script brings the whole main part anew', async () => {
    const answer = await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/declared-use',
      fill: { amount: '2', intent: 'save' },
      asPart: true,
    });

    expect(answer.status).toBe(200);
    expect(wordsOf(answer.body)).toContain('You said 2 half-pints a week');
  });
});

describe('the season', () => {
  const season = async () => (await seasonMultipliersOf(pages.db, quinceYard)).get(plumJam);

  it('is declared month by month, said in words, and taken back by the usual', async () => {
    await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/season',
      fill: { month7: '0', month12: '250' },
    });
    const words = wordsOf((await pages.visitor.open('/targets/plum-jam')).body);
    const kept = await season();
    await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/season',
      fill: { month7: '100', month12: '100' },
    });

    expect(words).toContain('More in December; none in July.');
    expect(kept).toEqual([1, 1, 1, 1, 1, 1, 0, 1, 1, 1, 1, 2.5]);
    expect(await season()).toBeUndefined();
  });

  it.each<[Record<string, string>, string]>([
    [{ month3: '-5' }, 'March cannot be “-5”. Write a number from 0 to 2,000%.'],
    [{ month3: 'half' }, 'March cannot be “half”. Write a number from 0 to 2,000%, in digits like 100.'],
    [
      Object.fromEntries(Array.from({ length: 12 }, (_, at) => [`month${at + 1}`, '0'])),
      'No month is above 0%.',
    ],
  ])('is refused when it cannot be: %j', async (fill, message) => {
    const answer = await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/season',
      fill,
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
    expect(answer.body).toContain(`value="${fill.month3}"`);
    expect(await season()).toBeUndefined();
  });
});

describe('the yearly target', () => {
  it('shows its parts, and is set by hand and given back', async () => {
    const before = wordsOf((await pages.visitor.open('/targets/plum-jam')).body);
    await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/hand-target',
      fill: { units: '80' },
    });
    const set = wordsOf((await pages.visitor.open('/targets/plum-jam')).body);
    const handSet = await byHand();
    await pages.visitor.submitOn('/targets/plum-jam', { form: '/targets/plum-jam/hand-target/release' });

    expect(before).toMatch(/everyday use 52 ordinary weeks at 1 a week 5\d/);
    expect(before).toContain('reserve for a hungry year');
    expect(set).toContain('A year needs 80 half-pints.');
    expect(set).toContain('Set by hand on Aug 17, 2026. The forecast comes to');
    expect(handSet).toBe(80);
    expect(await byHand()).toBeUndefined();
  });

  it('refuses a target that is no number and keeps it', async () => {
    const answer = await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/hand-target',
      fill: { units: '-8' },
    });

    expect(answer.status).toBe(422);
    expect(answer.body).toContain('value="-8"');
    expect(wordsOf(answer.body)).toContain('Set by hand cannot be “-8”. Write a number from 0 to 5,000.');
  });

  it('answers an unknown item with a page that says so', async () => {
    expect((await pages.visitor.open('/targets/dragon-jam')).status).toBe(404);
  });
});

describe('occasions, gifts and promises', () => {
  it('come on top and are taken back', async () => {
    await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/occasions',
      fill: { kind: 'promised', onDate: '2026-12-06', units: '12', note: 'Winter baskets' },
    });
    const words = wordsOf((await pages.visitor.open('/targets/plum-jam')).body);
    const written = await occasionsOf(pages.db, quinceYard);
    await pages.visitor.submitOn('/targets/plum-jam', { form: '/targets/plum-jam/occasions/' });

    expect(words).toContain('promised kept back until their day 12');
    expect(words).toContain('Dec 6 promised 12 Winter baskets every year');
    expect(written).toHaveLength(1);
    expect(await occasionsOf(pages.db, quinceYard)).toEqual([]);
  });

  it.each<[Record<string, string>, string]>([
    [{ kind: 'gift', onDate: '2026-02-29', units: '2' }, '“2026-02-29”, which is no day of the calendar'],
    [{ kind: 'gift', onDate: '2026-12-24', units: '0' }, 'How many cannot be “0”. Write a number from 0.01'],
    [{ kind: 'bribe', onDate: '2026-12-24', units: '2' }, 'There is no kind “bribe”. Choose a kind.'],
    [
      { kind: 'gift', onDate: '2026-12-24', units: '1.5' },
      'Plum jam is counted in whole jars, and 1.5 is not.',
    ],
  ])('are refused when they cannot be: %j', async (fill, message) => {
    const answer = await pages.visitor.submitOn('/targets/plum-jam', {
      form: '/targets/plum-jam/occasions',
      fill,
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
    expect(answer.body).toContain(`value="${fill.onDate}"`);
    expect(await occasionsOf(pages.db, quinceYard)).toEqual([]);
  });
});

describe('the list of targets', () => {
  it('leads to what the past year suggests for the next', async () => {
    const page = await pages.visitor.open('/targets');
    const lookBack = await pages.visitor.open('/look-back');

    expect(page.body).toContain('href="/look-back#advice"');
    expect(lookBack.body).toContain('id="advice"');
  });
});

describe('groups', () => {
  beforeEach(async () => {
    await pages.db
      .insertInto('item_group')
      .values({
        household_id: quinceYard,
        id: 'spreads',
        name: 'Sweet spreads',
        total_units: 60,
        unit_jar: 'half-pint/regular',
        least_kinds: 1,
        largest_share: 1,
      })
      .execute();
    await pages.db
      .insertInto('item_group_member')
      .values({ household_id: quinceYard, group_id: 'spreads', item_id: plumJam })
      .execute();
  });

  it('says how its items stand against what is wanted, and is changed alone', async () => {
    const words = wordsOf((await pages.visitor.open('/targets')).body);
    const answer = await pages.visitor.submitOn('/targets', {
      form: '/targets/groups/spreads',
      fill: { total: '72' },
      asPart: true,
    });

    expect(words).toMatch(/The targets of its 1 item come to \d+ half-pints: /);
    expect(answer.body).toMatch(/^<article class="group-target" id="group-spreads">/);
    expect((await itemGroupsOf(pages.db, quinceYard))[0]).toMatchObject({ totalUnits: 72 });
  });

  it('refuses wishes that contradict each other', async () => {
    const answer = await pages.visitor.submitOn('/targets', {
      form: '/targets/groups/spreads',
      fill: { leastKinds: '4' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('"Sweet spreads" has 1 kind, and 4 are asked for.');
    expect((await itemGroupsOf(pages.db, quinceYard))[0]).toMatchObject({ leastKinds: 1 });
  });
});
