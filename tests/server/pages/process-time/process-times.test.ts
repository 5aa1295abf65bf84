import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { untestedFoodRules } from '../../../../src/preserving/foods/untested-foods.ts';
import { methodRefusal, unsafeMethods } from '../../../../src/preserving/lookup/unsafe-methods.ts';
import { everyCaution } from '../../../../src/preserving/sheet/cautions.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeAll(async () => {
  pages = await quinceYardPages();
});
afterAll(() => pages.close());

const look = async (asked: Readonly<Record<string, string>>) => {
  const usual = { pack: 'hot', jar: 'quart', method: 'boiling-water', altitude: '0', unit: 'ft' };
  const answer = await pages.visitor.open(`/process-times?${new URLSearchParams({ ...usual, ...asked })}`);
  return { ...answer, words: wordsOf(answer.body) };
};

describe('the look-up page', () => {
  // USDA Complete Guide 2, p2-8: applesauce, hot, quarts.
  it.each([
    [{ altitude: '1000' }, '20 minutes in the boiling-water canner'],
    [{ altitude: '1000.7' }, '25 minutes in the boiling-water canner'],
    [{ altitude: '304.8', unit: 'm' }, '20 minutes in the boiling-water canner'],
    [{ altitude: '6001' }, '35 minutes in the boiling-water canner'],
  ])('gives the one printed row at %o', async (asked, expected) => {
    const { status, words } = await look({ food: 'applesauce', ...asked });

    expect(status).toBe(200);
    expect(words).toContain(expected);
    expect(words).toContain('Source: USDA-G2');
  });

  // USDA Complete Guide 4, p4-14 (peeled peppers) and p4-5 (soaked beans); Guide 3, p3-5 (acid).
  it.each([
    [{ food: 'peppers', jar: 'pint', method: 'pressure', gauge: 'weighted' }, ['peeled', 'Hot pack only']],
    [{ food: 'beans-dried', method: 'pressure', gauge: 'weighted' }, ['soaked overnight', '12 to 18 hours']],
    [{ food: 'tomatoes-crushed' }, ['Acidified: each jar gets']],
  ])('says beside the time what must be so for its row: %o', async (asked, expected) => {
    const { words } = await look(asked);

    for (const condition of [...expected, 'The kitchen is at 0 to']) expect(words).toContain(condition);
  });

  it.each([
    [
      'low-acid food in boiling water',
      { food: 'beans-snap', pack: 'raw' },
      'Use a pressure canner, or freeze the food.',
    ],
    [
      'a jar larger than tested',
      { food: 'applesauce', jar: 'half-gallon' },
      'larger than the largest tested size',
    ],
    ['an oven', { food: 'applesauce', method: 'oven' }, 'Jars must not be processed in an oven'],
    [
      'pumpkin butter, in the person’s own words',
      { food: '', other: 'pumpkin butter' },
      'There is no tested process for pumpkin butter',
    ],
    [
      'white peaches',
      { food: 'peaches', condition: 'white-fleshed' },
      'no process or acid amount has been tested',
    ],
  ])('refuses %s with the rule, its source and what is possible instead', async (_, asked, rule) => {
    const { words } = await look(asked);

    expect(words).toContain('No time can be given.');
    expect(words).toContain(rule);
    expect(words).toContain('Instead: ');
    expect(words).not.toMatch(/\d+ minutes in the/);
  });

  it('refuses every food on the list of those never canned', async () => {
    for (const { name, rule } of untestedFoodRules) {
      expect((await look({ food: name.toLowerCase() })).words).toContain(rule);
    }
  });

  it.each(unsafeMethods)(
    'refuses %s with its rule, its source and what is possible instead',
    async (method) => {
      const { words } = await look({ food: 'applesauce', method });

      expect(words).toContain(methodRefusal(method).rule);
      expect(words).toContain('Instead: Use a boiling-water canner for acid food');
      expect(words).not.toMatch(/\d+ minutes/);
    },
  );

  it('asks for the altitude and never assumes one', async () => {
    const { status, words } = await look({ food: 'applesauce', altitude: '' });

    expect(status).toBe(422);
    expect(words).toContain('Write how high the kitchen lies');
    expect(words).toContain('How to find your altitude');
    expect(words).not.toMatch(/\d+ minutes in the/);
  });

  it('asks which gauge a pressure canner has', async () => {
    const { words } = await look({ food: 'beans-snap', pack: 'raw', method: 'pressure' });

    expect(words).toContain('Say whether the canner has a dial gauge or a weighted gauge.');
    expect(words).not.toMatch(/\d+ minutes/);
  });

  // USDA Complete Guide 1, p1-20. The pages' day is 17 August 2026.
  it.each([
    ['', 'no check is recorded'],
    ['2025-08-16', 'within the 365 days before the session'],
  ])('refuses a dial gauge checked on “%s”', async (gaugeCheckedOn, why) => {
    const dial = { food: 'beans-snap', pack: 'raw', method: 'pressure', gauge: 'dial', gaugeCheckedOn };

    const { words } = await look(dial);

    expect(words).toContain(why);
    expect(words).not.toMatch(/\d+ minutes at/);
  });

  // USDA Complete Guide 4, p4-9: snap beans, raw, quarts, dial gauge up to 2,000 ft: 25 minutes at 11 psi.
  it('gives a dial gauge its schedule when it was checked within 365 days', async () => {
    const dial = { food: 'beans-snap', pack: 'raw', method: 'pressure', gauge: 'dial' };

    const { words } = await look({ ...dial, gaugeCheckedOn: '2025-08-17' });

    expect(words).toContain('25 minutes at 11 psi in the pressure canner, dial gauge');
  });

  // USDA Complete Guide 3, p3-6: tomato juice in quarts under a weighted gauge up to 1,000 ft.
  it('asks which of several printed schedules it is; then it shows that one', async () => {
    const juice = { food: 'tomato-juice', method: 'pressure', gauge: 'weighted' };

    const asked = await look(juice);
    const link = /href="(\/process-times[^"]*10%7C20[^"]*|\/process-times[^"]*15%7C10[^"]*)"/.exec(
      asked.body,
    );
    const chosen = wordsOf((await pages.visitor.open((link?.[1] ?? '').replaceAll('&amp;', '&'))).body);

    expect(asked.words).toContain('Which one do you follow?');
    expect(asked.words).toContain('20 min at 5 psi 15 min at 10 psi 10 min at 15 psi');
    expect(asked.words).not.toMatch(/\d+ minutes at/);
    expect(chosen.match(/\d+ minutes at \d+ psi/g)).toEqual(['15 minutes at 10 psi']);
  });

  it.each([{ food: 'applesauce' }, { food: 'beans-snap' }, { food: 'pumpkin butter' }])(
    'carries every caution on the answer for %o',
    async (asked) => {
      const { words } = await look(asked);

      for (const { text } of everyCaution) expect(words).toContain(text);
    },
  );
});

describe('after a power cut', () => {
  // US Department of Agriculture, food safety during power outages: a closed refrigerator 4 hours, a full freezer 48.
  it.each([
    ['refrigerator', '14:00', 'yes', 'Keep meat, fish and poultry'],
    ['refrigerator', '14:01', 'yes', 'Discard meat, fish and poultry'],
    ['refrigerator', '12:00', '', 'Discard meat, fish and poultry'],
    ['freezer-full', '22:00', 'yes', 'Keep frozen vegetables'],
  ])('the %s without power from 10:00 to %s, door shut %s: %s', async (appliance, until, shut, verdict) => {
    const asked = new URLSearchParams({
      appliance,
      startedAt: '2026-08-17 10:00',
      endedAt: `2026-08-17 ${until}`,
      ...(shut === '' ? {} : { doorKeptShut: shut }),
    });

    const answer = await pages.visitor.open(`/power-cut?${asked}`);

    expect(answer.status).toBe(200);
    expect(wordsOf(answer.body)).toContain(verdict);
  });

  // The same source: 40 °F (4.4 °C) or below may be refrozen or cooked.
  it.each([
    ['us', '40', 'Refreeze or cook'],
    ['us', '41', 'Discard'],
    ['metric', '4.4', 'Refreeze or cook'],
    ['metric', '4.5', 'Discard'],
  ] as const)(
    'reads a warmest reading in the household’s own unit: %s, %s: %s meat',
    async (units, warmest, verdict) => {
      await pages.db.updateTable('household').set({ units }).execute();
      const asked = new URLSearchParams({
        appliance: 'freezer-full',
        startedAt: '2026-08-10 10:00',
        endedAt: '2026-08-14 10:00',
        warmest,
      });

      const words = wordsOf((await pages.visitor.open(`/power-cut?${asked}`)).body);
      await pages.db.updateTable('household').set({ units: 'us' }).execute();

      expect(words).toContain(units === 'us' ? '°F' : '°C');
      expect(words).toContain(`${verdict} meat, fish and poultry`);
    },
  );

  it('says what is wrong with a time that cannot be read, or an end before the start', async () => {
    const wrong = await pages.visitor.open('/power-cut?appliance=refrigerator&startedAt=noon&endedAt=later');
    const backwards = await pages.visitor.open(
      '/power-cut?appliance=refrigerator&startedAt=2026-08-17+10:00&endedAt=2026-08-17+09:00',
    );

    expect([wrong.status, backwards.status]).toEqual([422, 422]);
    expect(wordsOf(wrong.body)).toContain('“noon” is no day and time. Choose both, like August 17, 2:30 PM.');
    expect(wordsOf(backwards.body)).toContain(
      'The power cannot have come back before it went out. Choose a later time.',
    );
  });
});
