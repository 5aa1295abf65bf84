import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asDate } from '../../../../shared/week.ts';
import { HouseholdByPages } from '../../../builders/household-by-pages.ts';
import { formOf } from '../../../builders/visitor.ts';

// The first hour of a household of six at 5,300 ft with 58 lots of last year's jars, its own kitchen, appetites, frosts and two
// seasons it knows better. Counted as the person at the screen would: a field filled, a choice, a tick and a press are one each; a
// list brought in is one.

let home: HouseholdByPages;
let interactions = 0;
beforeAll(async () => {
  home = await HouseholdByPages.beginning(asDate('2026-02-10'));
});
afterAll(() => home.close());

/** Fills in what differs from what stands there, and presses. */
async function fillIn(page: string, form: string, fill: Readonly<Record<string, string>>): Promise<void> {
  const { values } = formOf((await home.visitor.open(page)).body, form);
  interactions += 1 + Object.entries(fill).filter(([name, value]) => (values[name] ?? '') !== value).length;
  if (form === '/start') await home.setUp(fill);
  else await home.send(page, form, fill);
}

const list = [
  'item,left,made,jar',
  ...['Strawberry jam,half-pint', 'Applesauce,pint', 'Crushed tomatoes,pint', 'Peach halves,pint'].flatMap(
    (kind) => {
      const [name, jar] = kind.split(',');
      return Array.from({ length: 14 }, (_, at) => `${name},2,2025-08-${String(at + 10)},${jar}`);
    },
  ),
  'Green beans,6,2025-08-09,pint',
  'Carrots,8,2025-10-18,pint',
].join('\n');

describe('the first hour of a household with 58 lots', () => {
  test('takes at most 60 interactions, from nothing to a shelf and a kitchen of its own', async () => {
    await fillIn('/start', '/start', {
      name: 'Alder Terrace',
      people: '6',
      town: 'Montrose, CO',
      altitude: '5300',
      lastFrost: '2026-05-14',
      firstFrost: '2026-09-28',
      potSize: 'narrow-pot',
      pressure: 'on',
      pressureSize: 'tall-pressure',
      gauge: 'dial',
      gaugeCheckedOn: '2025-06-14',
      gaugeOffAt5: '0',
      gaugeOffAt10: '0',
      gaugeOffAt15: '0',
      sourceKind: 'garden',
      halfPints: '100',
      pints: '200',
      quarts: '40',
      lids: '300',
      hoursPerSession: '7',
      fundNow: '300',
      fundWeekly: '30',
      'eats-strawberry-jam': 'month:2',
      'eats-applesauce-pints': 'week:1',
      'eats-tomatoes-crushed-pints': 'week:2',
      'eats-peaches-pints': 'week:1',
      'eats-chile-salsa': 'month:2',
      'eats-beans-snap-pints': 'week:1',
      'eats-carrots-pints': 'month:2',
      'eats-quick-dill-pickles': '',
    });
    // The altitude is shown in both units and asked back: one more press.
    interactions += 1;
    const { sources } = (await home.year()).loaded.facts;
    // The page of lists: a file is chosen, sent, and taken in as it was understood.
    await home.bringInStock(list);
    interactions += 3;
    for (const crop of ['strawberry', 'peach']) {
      const source = sources.find((one) => one.crop === crop);
      await fillIn(`/harvest/${source?.id}`, `/harvest/${source?.id}/windows/2026`, {
        beginsOn: crop === 'peach' ? '2026-07-28' : '2026-06-20',
        lastOn: crop === 'peach' ? '2026-08-31' : '2026-07-15',
        mostActiveFrom: '',
        mostActiveLastOn: '',
        lbPerWeek: crop === 'peach' ? '30' : '9',
      });
    }

    expect((await home.year()).loaded.facts.lots.length).toBe(58);
    expect(interactions).toBeLessThanOrEqual(60);
  });

  test('what a load holds is that of the canners it has', async () => {
    const { canners } = (await home.year()).loaded.facts;
    expect(Object.fromEntries(canners.map(({ method, holds }) => [method, holds.pints]))).toEqual({
      'boiling-water': 8,
      pressure: 18,
    });
  });

  test('every guess that is left is listed with the step that replaces it; what was said is not among them', async () => {
    const words = await home.words('/items');
    expect(words).toContain('Your tomato dates are our guess');
    expect(words).toContain('Price and weekly amount of Apples from the garden are our guess');
    expect(words).toContain('The price of Sugar is our guess');
    expect(words).not.toContain('Your peach dates are our guess');
    expect(words.match(/Write your dates/g)?.length).toBeGreaterThan(2);
  });
});
