import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { h } from 'preact';
import { render } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { presentCautions, presentSchedule } from '../../../server/words/process-words.ts';
import { sheetSteps } from '../../../server/words/sheet-steps.ts';
import { scheduleFor } from '../../../src/preserving/lookup/process-lookup.ts';
import type { Schedule } from '../../../src/preserving/lookup/schedule.ts';
import { foodStepsFor } from '../../../src/preserving/sheet/food-steps.ts';
import { sessionSteps } from '../../../src/preserving/sheet/session-steps.ts';
import { needsSterileJars, sterilizingMinutes } from '../../../src/preserving/sheet/sterile-jars.ts';
import { Sheet } from '../../../views/pages/canning-day/sheet.tsx';
import { answerOf, tables } from '../tables.ts';

interface GuideStep {
  readonly recipe_key: string;
  readonly kind: string;
  readonly step: string;
  readonly basis: string;
  readonly page: string;
}

/**
 * The steps of eleven recipes as the USDA Complete Guide (2015) orders them, with the page of each: Guide 1 p1-12 to
 * p1-26 and the food's own page in Guides 2 to 7. The 306 lines of canner and jar were written down apart from the program;
 * the 60 of a food's own page were taken down once, for this table and for `food-steps.csv` alike, and prove nothing of it.
 */
const guide: readonly GuideStep[] = parse(
  readFileSync(fileURLToPath(new URL('./guide-steps.csv', import.meta.url)), 'utf8'),
  { columns: true },
);

/** The one name that differs: what blocks a load keeps the key it always had. */
const kindHere = (kind: string): string => (kind === 'acid' ? 'acid-per-jar' : kind);

const reading = { locale: 'en-US', units: 'us', weekStartsOn: 'sunday' } as const;

const kettle = { method: 'boiling-water', altitudeFt: 800 } as const;
const presser = { method: 'pressure', gauge: 'weighted', altitudeFt: 800 } as const;
const asked: Readonly<Record<string, Parameters<typeof scheduleFor>[1]>> = {
  'peaches-quarts': { ...kettle, foodKey: 'peaches', pack: 'hot', jar: 'quart' },
  'berries-whole-quarts': { ...kettle, foodKey: 'berries-whole', pack: 'raw', jar: 'quart' },
  'berry-jam-no-pectin': { ...kettle, foodKey: 'berry-jam', pack: 'hot', jar: 'half-pint' },
  'apple-jelly': {
    ...kettle,
    foodKey: 'apple-jelly',
    style: 'no added pectin; sterile jars',
    pack: 'hot',
    jar: 'half-pint',
  },
  'tomatoes-crushed-quarts': { ...kettle, foodKey: 'tomatoes-crushed', pack: 'hot', jar: 'quart' },
  'bread-and-butter-pickles': {
    ...kettle,
    foodKey: 'bread-and-butter-pickles',
    style: 'cucumber',
    pack: 'hot',
    jar: 'pint',
  },
  sauerkraut: { ...kettle, foodKey: 'sauerkraut', pack: 'hot', jar: 'quart' },
  'beans-snap-pints': { ...presser, foodKey: 'beans-snap', pack: 'raw', jar: 'pint' },
  'beans-dried-pints': { ...presser, foodKey: 'beans-dried', pack: 'hot', jar: 'pint' },
  'chile-con-carne': { ...presser, foodKey: 'chile-con-carne', pack: 'hot', jar: 'pint' },
  'apple-butter': {
    ...kettle,
    foodKey: 'apple-butter',
    style: 'butter; sterile half-pint/pint jars',
    pack: 'hot',
    jar: 'pint',
  },
};

const scheduleOf = (recipe: string): Schedule => {
  const query = asked[recipe];
  if (query === undefined) throw new Error(`guide-steps: no process is asked for ${recipe}`);
  return answerOf(scheduleFor(tables, query));
};

const stepsOf = (schedule: Schedule) => sessionSteps(schedule, foodStepsFor(tables, schedule));

/** The paper of one batch, as text. */
const paperOf = (schedule: Schedule): string => {
  const html = render(
    h(Sheet, {
      sheet: {
        title: 'Saturday, August 22, 2026',
        household: 'Quince Yard',
        number: null,
        mark: '0000-0000',
        batches: [
          {
            key: 'one',
            name: schedule.food,
            line: '',
            schedule: presentSchedule(schedule, reading),
            loads: [{ key: 'one', name: 'Load 1', jars: 7 }],
          },
        ],
        without: [],
        days: [],
        timeline: [],
        steps: sheetSteps([{ name: schedule.food, steps: stepsOf(schedule) }]),
        cautions: presentCautions([schedule]),
      },
    }),
  );
  return html.replaceAll(/<[^>]*>/g, '').replaceAll('&amp;', '&');
};

/** What of a list is not found in another one in its order; empty when nothing is missing. */
const missingInOrder = (wanted: readonly string[], given: readonly string[]): readonly string[] => {
  let place = 0;
  return wanted.filter((one) => {
    const at = given.indexOf(one, place);
    if (at !== -1) place = at + 1;
    return at === -1;
  });
};

/** Fractions are printed signs in the one file and digits in the other. */
const asTyped = (words: string): string =>
  words.replaceAll('½', '1/2').replaceAll('¼', '1/4').replaceAll('¾', '3/4').trim();
const tabledSteps = new Set(tables.foodSteps.map(({ what }) => asTyped(what)));
/** Lines that stand word for word in the table that the sheet prints from: held against themselves. */
const takenOver = guide.filter(({ step }) => tabledSteps.has(asTyped(step)));

const recipes = [...new Set(guide.map((row) => row.recipe_key))];

describe('the sheet beside the printed guide', () => {
  test('the table has ten recipes and more, each with the page of every step', () => {
    expect(recipes.length).toBeGreaterThanOrEqual(10);
    expect(guide.filter(({ page }) => !/p\d-\d+/.test(page))).toEqual([]);
  });

  test("sixty of its lines are the program's own, and say whether their page was read; only the others are checked", () => {
    const ofFoodPage = guide.filter(({ page }) => !page.startsWith('p1-'));

    expect(guide).toHaveLength(366);
    expect(takenOver).toHaveLength(60);
    expect(guide.length - takenOver.length).toBe(306);
    expect(takenOver.filter(({ basis, page }) => basis !== 'read' || !/p[2-7]-\d+/.test(page))).toEqual([]);
    // What stands alone among them: each recipe has lines of the canner and of the jar that no table of foods holds.
    for (const recipe of recipes)
      expect(
        guide.filter((row) => row.recipe_key === recipe && !takenOver.includes(row)).length,
      ).toBeGreaterThan(25);
    expect(takenOver.every((row) => ofFoodPage.includes(row))).toBe(true);
  });

  test.each(recipes)('%s: no step of the guide is missing, and their order is kept', (recipe) => {
    const wanted = guide.filter((row) => row.recipe_key === recipe).map(({ kind }) => kindHere(kind));
    const steps = stepsOf(scheduleOf(recipe));
    const kinds = steps.map(({ kind }) => kind as string);

    expect(missingInOrder(wanted, kinds)).toEqual([]);
    // More than the guide prints for it: bubbles also in jam, and the year of Guide 1, p1-26.
    expect(kinds.filter((kind) => !wanted.includes(kind)).toSorted()).toEqual(
      ['bubbles', 'headspace-again', 'use-within'].filter((kind) => !wanted.includes(kind)).toSorted(),
    );
  });

  test.each(recipes)('%s: the paper prints every step with its page, in order', (recipe) => {
    const schedule = scheduleOf(recipe);
    const steps = sheetSteps([{ name: schedule.food, steps: stepsOf(schedule) }]);
    let rest = paperOf(schedule);

    for (const { words, page } of steps) {
      const at = rest.indexOf(words);
      expect(at, words).toBeGreaterThanOrEqual(0);
      rest = rest.slice(at + words.length);
      expect(rest.slice(0, page.length + 40)).toContain(page);
    }
  });

  test.each(recipes)('%s: any step left out is found', (recipe) => {
    const wanted = guide.filter((row) => row.recipe_key === recipe).map(({ kind }) => kindHere(kind));
    const kinds = stepsOf(scheduleOf(recipe)).map(({ kind }) => kind as string);

    for (const kind of new Set(wanted)) {
      const dropped = kinds.filter((_, at) => at !== kinds.lastIndexOf(kind as never));
      expect(missingInOrder(wanted, dropped), kind).not.toEqual([]);
    }
  });

  test('the pages of the guide stand beside the steps', () => {
    for (const recipe of recipes) {
      const schedule = scheduleOf(recipe);
      const steps = stepsOf(schedule);
      for (const row of guide.filter((one) => one.recipe_key === recipe)) {
        const pages = row.page.match(/p\d-\d+/g) ?? [];
        const own = steps.filter(({ kind }) => kind === kindHere(row.kind));
        const known = own.map(({ source }) => source.locator).join(' ');
        // What the schedule itself says stands with the source of its row, which for some jams is another publication.
        const ofRow = own.some(({ source }) => source === schedule.source);
        expect(
          ofRow || pages.some((page) => known.includes(page)),
          `${recipe} ${row.kind} ${row.page}: ${known}`,
        ).toBe(true);
      }
    }
  });
});

describe('the sheets of a day with several batches', () => {
  test('hold every step of every batch in its own order, the shared ones once', () => {
    const batches = recipes.map((recipe) => {
      const schedule = scheduleOf(recipe);
      return { name: recipe, steps: stepsOf(schedule) };
    });

    const sheet = sheetSteps(batches);

    for (const { name, steps } of batches) {
      const own = sheet
        .filter(({ words }) => {
          const [who, what] = words.split(/: (.*)/s);
          return what === undefined || !recipes.some((one) => who?.includes(one)) || who?.includes(name);
        })
        .map(({ words }) => words);
      const missing = missingInOrder(
        steps.map(({ text }) => text),
        own.map(
          (words) => steps.find(({ text }) => words === text || words.endsWith(`: ${text}`))?.text ?? words,
        ),
      );
      expect(missing, name).toEqual([]);
    }
    expect(sheet.filter(({ kind }) => kind === 'jars')).toHaveLength(1);
    expect(new Set(sheet.map(({ key }) => key)).size).toBe(sheet.length);
  });
});

describe('each canner whole', () => {
  const ofMethod = (query: Parameters<typeof scheduleFor>[1]) =>
    stepsOf(answerOf(scheduleFor(tables, query))).map(({ kind, text }) => ({ kind, text }));
  const textOf = (steps: readonly { kind: string; text: string }[], kind: string) =>
    steps.find((step) => step.kind === kind)?.text;

  // USDA Complete Guide 1, p1-18.
  test('boiling water: 180 °F for hot packs, 140 °F for raw ones, 2 inches of water where the guide asks for them', () => {
    const hot = ofMethod({ ...kettle, foodKey: 'peaches', pack: 'hot', jar: 'quart' });
    const raw = ofMethod({ ...kettle, foodKey: 'peaches', pack: 'raw', jar: 'quart', altitudeFt: 5300 });

    expect(textOf(hot, 'water-warm')).toContain('180 °F');
    expect(textOf(raw, 'water-warm')).toContain('140 °F');
    expect(textOf(hot, 'water-over')).toContain('at least 1 inch above');
    expect(textOf(raw, 'water-over')).toContain('at least 2 inches above');
  });

  test('steam: the same from the jars to the shelf, its own column of steam between', () => {
    const steam = ofMethod({
      method: 'atmospheric-steam',
      altitudeFt: 800,
      foodKey: 'peaches',
      pack: 'hot',
      jar: 'pint',
    }).map(({ kind }) => kind);

    expect(
      missingInOrder(
        'jars lids keep-hot water-ready water-warm boil fill headspace bubbles headspace-again rim lid band load steam process keep-steaming restart heat-off wait lift do-not-tighten cool bands-off check-seals unsealed wash label store'.split(
          ' ',
        ),
        steam,
      ),
    ).toEqual([]);
  });

  // USDA Complete Guide 1, p1-14 and p1-15.
  test.each([
    [0, 10],
    [999, 10],
    [1000, 11],
    [1240, 12],
    [5300, 16],
    [8000, 18],
  ])('at %d ft empty jars boil %d minutes', (altitudeFt, minutes) => {
    expect(sterilizingMinutes(altitudeFt)).toBe(minutes);
    expect(
      textOf(
        ofMethod({ ...kettle, foodKey: 'berry-jam', pack: 'hot', jar: 'half-pint', altitudeFt }),
        'sterilize',
      ),
    ).toMatch(new RegExp(`^Boil the empty jars ${minutes} minutes \\(at `));
  });

  test('jars are boiled wherever a process in water is under 10 minutes or its style says sterile, nowhere else', () => {
    const row = { sterileJars: false, method: 'boiling-water', minutes: 5 } as const;

    expect(needsSterileJars(row)).toBe(true);
    expect(needsSterileJars({ ...row, minutes: 10 })).toBe(false);
    expect(needsSterileJars({ ...row, minutes: 15, sterileJars: true })).toBe(true);
    expect(needsSterileJars({ ...row, method: 'pressure', minutes: 8 })).toBe(false);
  });
});

describe('how long a hot pack boils', () => {
  test('is said for every hot pack of the book', () => {
    const packs = tables.recipeProcesses.filter(({ pack }) => pack === 'hot');

    expect(
      packs.filter(
        ({ foodKey, style }) =>
          !tables.foodSteps.some(
            (row) =>
              row.foodKey === foodKey &&
              row.pack === 'hot' &&
              row.kind === 'boil' &&
              (row.style === null || row.style === style),
          ),
      ),
    ).toEqual([]);
  });

  test('each row belongs to a printed process, its style too, and names its source or says it is remembered', () => {
    const known = new Set(tables.sources.map(({ sourceId }) => sourceId));
    for (const row of tables.foodSteps) {
      expect(known).toContain(row.sourceId);
      expect(row.basis === 'memory').toBe(row.sourceId === 'MEMORY');
      expect(
        tables.processTimes.some(
          ({ foodKey, style, pack }) =>
            foodKey === row.foodKey && pack === row.pack && (row.style === null || row.style === style),
        ),
        `${row.foodKey} ${row.style} ${row.pack}`,
      ).toBe(true);
    }
  });
});
