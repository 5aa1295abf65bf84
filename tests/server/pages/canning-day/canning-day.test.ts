import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { canningSessionOn } from '../../../../server/queries/canning/canning-sessions.ts';
import { asDate } from '../../../../shared/week.ts';
import { everyCaution } from '../../../../src/preserving/sheet/cautions.ts';
import {
  addTomatoes,
  type CanningPages,
  canningDay,
  canningPages,
  dayPath,
  minutes,
} from '../../../builders/canning-pages.ts';
import { factsChanged } from '../../../builders/facts-changed.ts';
import { keepPlanOf } from '../../../builders/planned-week.ts';
import { quinceYard, trueGauge } from '../../../builders/quince-yard.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: CanningPages;
beforeEach(async () => {
  pages = await canningPages();
});
afterEach(() => pages.close());

const jamLoad = 'plum-jam-batch.1.1';

const tick = (step: string, load = jamLoad, done = 'yes') =>
  pages.visitor.submitOn('/canning-day', {
    form: `${dayPath}/loads/${load}/ticks`,
    fill: { tick: `${step}:${done}` },
  });
const clock = (event: string, load = jamLoad, asPart = false) =>
  pages.visitor.submitOn('/canning-day', { form: `${dayPath}/loads/${load}/clock`, fill: { event }, asPart });

/** Chooses one of the printed schedules, by the words of its button. */
const choose = async (words: string) => {
  const page = await pages.visitor.open('/canning-day');
  const button = new RegExp(`name="row-tomato-batch" value="([^"]+)"[^>]*>${words}<`).exec(page.body);
  return pages.visitor.submit(page, {
    form: dayPath,
    fill: { 'row-tomato-batch': button?.[1] ?? 'no such button' },
  });
};

const canTomatoesUnderPressure = async () => {
  await addTomatoes(pages);
  await pages.db
    .updateTable('recipe')
    .set({ canner_id: 'pressure-pot' })
    .where('id', '=', 'tomato-batch')
    .execute();
  await pages.db.deleteFrom('plan').execute();
  await keepPlanOf(pages.db, quinceYard, {
    '2026-W34': [
      { recipe: 'tomato-batch', batches: 1 },
      { recipe: 'plum-jam-batch', batches: 1 },
    ],
  });
};

describe('the canning day ahead', () => {
  // USDA Complete Guide 7, p7-7 (plum jam, sterile half-pints, 1,001 to 6,000 ft: 10 min); Guide 4, p4-9 (snap beans raw,
  // pints, weighted gauge above 1,000 ft: 20 min at 15 psi).
  it('prints one whole published row for each batch, with jar, gauge, altitude, headspace and source', async () => {
    const { status, body } = await pages.visitor.open('/canning-day');

    const words = wordsOf(body);
    expect(status).toBe(200);
    expect(words).toContain('Saturday, August 22');
    expect(words).toMatch(/10 minutes in the boiling-water canner/);
    expect(words).toMatch(/20 minutes at 15 psi in the pressure canner, weighted gauge/);
    expect(words).toContain('Altitude 1,200 ft, in the band 1,001 to 6,000 ft');
    expect(words).toContain('¼ inch below the rim');
    expect(words).toContain('Source: USDA-G7');
  });

  it('says what to fetch today where the shopping day has passed, what to set out, and when; from a start or back from an end', async () => {
    const fromStart = wordsOf((await pages.visitor.open('/canning-day/2026-W34')).body);
    const toEnd = wordsOf(
      (await pages.visitor.open('/canning-day/2026-W34?by=end&time=18:00&people=1&burners=4')).body,
    );

    expect(fromStart).toContain('Pick and buy by Saturday, August 22');
    expect(fromStart).toContain('10 lb Plum tree');
    expect(fromStart).toContain('10 jars (half-pint, regular mouth), with bands, and as many new lids');
    expect(fromStart).toMatch(/9:00\sAM to/);
    expect(toEnd).toMatch(/to 6:00\sPM/);
  });

  // USDA Complete Guide 2, p2-21: a bushel of plums weighs 56 lb.
  it('sums the produce of the day and says it in bushels', async () => {
    await pages.db
      .updateTable('recipe')
      .set({
        based_on: 'plums',
        process_food: 'plums',
        process_style: 'halved or whole',
        jar_kind: 'pint/regular',
      })
      .where('id', '=', 'plum-jam-batch')
      .execute();
    await pages.db
      .updateTable('recipe_produce')
      .set({ lb: 30 })
      .where('recipe_id', '=', 'plum-jam-batch')
      .execute();
    await pages.db.updateTable('item').set({ name: 'Plums' }).where('id', '=', 'plum-jam').execute();
    await pages.db.updateTable('recipe').set({ name: 'Plums' }).where('id', '=', 'plum-jam-batch').execute();

    const words = wordsOf((await pages.visitor.open('/canning-day')).body);

    expect(words).toMatch(/Produce in all 30 lb plums, about ¾ of a bushel/);
  });

  it('prints what the household does otherwise beside the recipe it copies', async () => {
    await pages.db
      .updateTable('recipe')
      .set({ changes_json: '["dried-spices"]' })
      .where('id', '=', 'plum-jam-batch')
      .execute();

    const { body } = await pages.visitor.open('/canning-day');

    expect(body.match(/changed here: dried spices/g)).toHaveLength(2);
  });

  it('is laid out on the burners of the household’s stove: a pot and its canner need two', async () => {
    const wordsOn = async (burners: number) => {
      await pages.db
        .insertInto('kitchen_time')
        .values({ household_id: quinceYard, stove_burners: burners })
        .onConflict((same) => same.column('household_id').doUpdateSet({ stove_burners: burners }))
        .execute();
      await factsChanged(pages.db);
      const { body } = await pages.visitor.open('/canning-day');
      expect(body).toMatch(new RegExp(`name="burners"[^>]* value="${burners}"`));
      return wordsOf(body);
    };

    expect(await wordsOn(1)).toContain('This takes 2 burners, one for the canner and one for the pot');
    expect(await wordsOn(2)).toMatch(/9:00\sAM to \d+:\d+\s[AP]M/);
  });

  it('carries every caution, on the page and on its paper', async () => {
    const { body } = await pages.visitor.open('/canning-day');

    const paper = body.slice(body.indexOf('class="paper-sheet '), body.indexOf('</article>'));
    for (const { text } of everyCaution) {
      expect(wordsOf(paper)).toContain(text);
      expect(wordsOf(body.replace(paper, ''))).toContain(text);
    }
  });

  it('shows no minutes while the altitude is unknown, and says how to find it', async () => {
    await pages.db.updateTable('household').set({ altitude_ft: null }).execute();

    const words = wordsOf((await pages.visitor.open('/canning-day')).body);

    expect(words).not.toMatch(/\d+ minutes (in|at)/);
    expect(words).toContain('No time can be given here.');
    expect(words).toContain('How to find your altitude');
  });

  it('shows no minutes for the pressure canner while its gauge is unknown; the kettle keeps its time', async () => {
    await pages.db.updateTable('canner').set({ gauge: null }).where('id', '=', 'pressure-pot').execute();

    const words = wordsOf((await pages.visitor.open('/canning-day')).body);

    expect(words).not.toContain('in the pressure canner,');
    expect(words).toContain('10 minutes in the boiling-water canner');
    expect(words).toContain('How to tell which gauge a canner has');
  });

  it('is a page that does not exist for another word than a week, and an empty one for a week without canning', async () => {
    expect((await pages.visitor.open('/canning-day/soon')).status).toBe(404);

    const quiet = await pages.visitor.open('/canning-day/2026-W40');
    expect(quiet.status).toBe(200);
    expect(wordsOf(quiet.body)).toContain('Nothing is put up in that week.');
  });

  it('refuses a time that is none and keeps what was typed', async () => {
    const answer = await pages.visitor.submitOn('/canning-day', {
      form: dayPath,
      fill: { time: 'nine', ask: 'begin' },
    });

    expect(answer.status).toBe(422);
    expect(answer.body).toContain('value="nine"');
    expect(await canningSessionOn(pages.db, quinceYard, asDate(canningDay))).toBeNull();
  });
});

describe('a day that was begun', () => {
  beforeEach(() => pages.begin());

  it('keeps its work when the plan changes', async () => {
    await pages.db.deleteFrom('plan').execute();
    await keepPlanOf(pages.db, quinceYard, { '2026-W34': [{ recipe: 'green-beans-batch', batches: 3 }] });

    const session = await canningSessionOn(pages.db, quinceYard, asDate(canningDay));
    const words = wordsOf((await pages.visitor.open('/canning-day')).body);

    expect(session?.work).toEqual([
      { recipeId: 'plum-jam-batch', batches: 1 },
      { recipeId: 'green-beans-batch', batches: 1 },
    ]);
    expect(words).toContain('Plum jam 9 half-pints in Kettle');
  });

  it('can be taken back until something has happened on it', async () => {
    const withdraw = () => pages.visitor.submitOn('/canning-day', { form: `${dayPath}/withdrawal` });
    const page = await pages.visitor.open('/canning-day');
    await tick('sterilize');
    await clock('started');
    const late = await pages.visitor.submit(page, { form: `${dayPath}/withdrawal` });
    const begun = await canningSessionOn(pages.db, quinceYard, asDate(canningDay));
    await pages.close();
    pages = await canningPages();
    await pages.begin();
    const early = await withdraw();

    expect(late.status).toBe(422);
    expect(begun).not.toBeNull();
    expect(early.status).toBe(303);
    expect(await canningSessionOn(pages.db, quinceYard, asDate(canningDay))).toBeNull();
  });

  it('remembers ticks, and takes one back', async () => {
    await tick('sterilize');
    const ticked = (await pages.visitor.open('/canning-day')).body;
    await tick('sterilize', jamLoad, 'no');
    const back = (await pages.visitor.open('/canning-day')).body;

    expect(ticked).toContain('value="sterilize:no" aria-pressed="true"');
    expect(back).toContain('value="sterilize:yes" aria-pressed="false"');
  });

  it('does not start the clock before the jars are sterilised, where the row says so', async () => {
    const answer = await clock('started');

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Tick this before the clock may start: Boil the empty jars');
  });

  it('starts at the full boil, names the time due, and goes back to zero when the boil stops', async () => {
    await tick('sterilize');
    await clock('started');
    const running = wordsOf((await pages.visitor.open('/canning-day')).body);
    pages.clock.at += minutes(6);
    const answer = await clock('boil-stopped', jamLoad, true);
    pages.clock.at += minutes(3);
    await clock('started');
    const again = wordsOf((await pages.visitor.open('/canning-day')).body);

    expect(running).toMatch(/Due 9:10\sAM/);
    expect(running).toMatch(/Started 9:00\sAM\./);
    expect(answer.status).toBe(200);
    expect(answer.body).not.toContain('<html');
    expect(wordsOf(answer.body)).toContain('Back to zero');
    expect(again).toMatch(/Due 9:19\sAM/);
    expect(again).toContain('Interrupted once, so counted from zero.');
  });

  it('has the whole time run before it is done', async () => {
    await tick('sterilize');
    await clock('started');
    pages.clock.at += minutes(10) - 1;
    const almost = (await pages.visitor.open('/canning-day')).body;
    pages.clock.at += 1;
    const done = (await pages.visitor.open('/canning-day')).body;

    expect(almost).toContain('load-running');
    expect(done).toContain('load-done');
  });

  it('is not done by a clock that was set forward, says so, and asks for a timer of one’s own', async () => {
    await tick('sterilize');
    await clock('started');
    const began = pages.clock.at;
    pages.clock.at = began + minutes(63);
    pages.clock.steadyMs = began + minutes(3);
    const jumped = await pages.visitor.open('/canning-day');
    pages.clock.at = began + minutes(70);
    pages.clock.steadyMs = began + minutes(10);
    const passed = await pages.visitor.open('/canning-day');

    expect(jumped.body).toContain('load-running');
    expect(jumped.body).toContain(`data-remaining-ms="${minutes(7)}"`);
    expect(wordsOf(jumped.body)).toContain(
      'The longer wait is counted here. Do you have a timer of your own',
    );
    expect(passed.body).toContain('load-done');
  });

  it('runs on when the clock was set back, and is not started a second time', async () => {
    await tick('sterilize');
    await clock('started');
    pages.clock.steadyMs = pages.clock.at + minutes(4);
    pages.clock.at -= minutes(60);
    const back = await pages.visitor.open('/canning-day');
    const again = await clock('started');

    expect(back.body).toContain('load-running');
    expect(wordsOf(back.body)).toContain('The time of day was set back by');
    expect(wordsOf(again.body)).toContain('The clock of this load runs already.');
  });
});

describe('the clock of a load', () => {
  beforeEach(async () => {
    await pages.begin();
    await tick('sterilize');
    await clock('started');
  });
  const clockOn = async (path: string) =>
    /<aside id="clocks".*?<\/aside>/s.exec((await pages.visitor.open(path)).body)?.[0] ?? '';

  it.each(['/', '/shelf', '/kitchen', '/canning-day'])(
    'stands on %s while it runs, and leads to its load',
    async (path) => {
      pages.clock.at += minutes(4);
      const shown = await clockOn(path);

      expect(shown).toContain(`data-remaining-ms="${minutes(6)}"`);
      expect(wordsOf(shown)).toMatch(/Plum jam due 9:10\sAM/);
      expect(shown).toContain('href="/canning-day?day=2026-08-22#load-plum-jam-batch-1-1"');
      expect((await pages.visitor.open(path)).body).toContain('/assets/clock.');
    },
  );

  it('says that the time is up until something is done about it, and is gone when it was broken off', async () => {
    pages.clock.at += minutes(11);
    const up = wordsOf(await clockOn('/'));
    await tick('heat-off');
    const seenTo = await clockOn('/');

    expect(up).toMatch(/Time is up Plum jam since 9:10\sAM/);
    expect(seenTo).not.toContain('data-remaining-ms');
  });

  it('is called out while another batch of its recipe is written down already, and not once all are', async () => {
    await pages.db.deleteFrom('session_tick').execute();
    await pages.db
      .updateTable('canning_session')
      .set({ work_json: JSON.stringify([{ recipeId: 'plum-jam-batch', batches: 2 }]) })
      .execute();
    const writeDownOne = () =>
      pages.visitor.submitOn(`${dayPath}/results/plum-jam-batch`, {
        form: `${dayPath}/results/plum-jam-batch`,
        fill: { batches: '1', units: '8', minutesRun: '10', doneBy: 'Marit' },
      });
    expect((await writeDownOne()).status).toBe(303);
    pages.clock.at += minutes(11);

    expect(wordsOf(await clockOn('/'))).toMatch(/Time is up Plum jam/);

    expect((await writeDownOne()).status).toBe(303);
    expect(await clockOn('/')).not.toContain('data-remaining-ms');
  });

  it('comes with the answer to the tap that starts it or sets it back', async () => {
    const broken = await clock('boil-stopped', jamLoad, true);
    const again = await clock('started', jamLoad, true);

    expect(broken.body).toMatch(/<aside id="clocks"[^>]*hx-swap-oob="true"[^>]*><\/aside>/);
    expect(again.body).toContain('data-remaining-ms="600000"');
  });

  it('shows the next steps of where the load is, and keeps every step within reach', async () => {
    const stepsOf = (body: string) =>
      [...body.matchAll(/name="tick" value="([a-z0-9-]+):/g)].map(([, key]) => key);
    const page = (await pages.visitor.open('/canning-day')).body;
    const load = page.slice(
      page.indexOf('<article id="load-plum-jam'),
      page.indexOf('</article>', page.indexOf('<article id="load-plum-jam')),
    );

    const next = load.slice(0, load.indexOf('class="steps-more"'));
    expect(stepsOf(next)[0]).toBe('process');
    expect(stepsOf(next).length).toBeLessThanOrEqual(3);
    expect(stepsOf(load).length).toBe(new Set(stepsOf(load)).size);
    for (const step of ['jars', 'sterilize', 'headspace', 'heat-off', 'check-seals', 'store'])
      expect(stepsOf(load)).toContain(step);
  });
});

describe('acid in every jar', () => {
  it.each(['kettle', 'pressure-pot'])(
    'is ticked before a load of tomatoes may start, in the %s too',
    async (canner) => {
      await addTomatoes(pages);
      if (canner === 'pressure-pot')
        await pages.db
          .updateTable('recipe')
          .set({ canner_id: canner })
          .where('id', '=', 'tomato-batch')
          .execute();
      await pages.db.deleteFrom('plan').execute();
      await keepPlanOf(pages.db, quinceYard, { '2026-W34': [{ recipe: 'tomato-batch', batches: 1 }] });
      await pages.begin();
      if (canner === 'pressure-pot') await choose('20 min at 10 psi');

      const before = await clock('started', 'tomato-batch.1.1');
      await tick('acid-per-jar', 'tomato-batch.1.1');
      if (canner === 'pressure-pot') await tick('vent', 'tomato-batch.1.1');
      const after = await clock('started', 'tomato-batch.1.1');

      expect(before.status).toBe(422);
      expect(wordsOf(before.body)).toContain(
        'Put acid into every jar before closing it: 1 tbsp bottled lemon juice',
      );
      expect(after.status).toBe(303);
      expect(await pages.db.selectFrom('load_clock_event').select('kind').execute()).toEqual([
        { kind: 'started' },
      ]);
    },
  );
});

// USDA Complete Guide 3, p3-9: crushed tomatoes, hot, pints, weighted gauge above 1,000 ft: 20 minutes at 10 psi or 15 at 15.
describe('where the table prints several schedules', () => {
  beforeEach(canTomatoesUnderPressure);

  it('shows none before one was chosen: not on the page, not on paper, not in the hours', async () => {
    await pages.begin();

    const { body } = await pages.visitor.open('/canning-day');
    const words = wordsOf(body);

    expect(words).toContain('The table prints 2 schedules for this jar. Which one do you follow?');
    expect(words).not.toMatch(/\d+ minutes at \d+ psi/);
    expect(words).toContain('10 minutes in the boiling-water canner');
    expect(body).not.toContain('loads/tomato-batch');
    expect(words).toContain(
      'Crushed tomatoes: not on this sheet, because no printed schedule was chosen for it.',
    );
    expect(words).toContain('Left out until you choose a printed schedule: crushed tomatoes.');
    expect(words).toContain('Acid for each jar: 1 tbsp bottled lemon juice');
  });

  it('prints exactly the one that was chosen, before the day and on it', async () => {
    const ahead = await choose('20 min at 10 psi');
    const looked = wordsOf((await pages.visitor.open(ahead.location)).body);
    await pages.begin();
    await choose('15 min at 15 psi');
    const begun = wordsOf((await pages.visitor.open('/canning-day')).body);

    expect([...new Set(looked.match(/\d+ minutes at \d+ psi/g))]).toEqual(['20 minutes at 10 psi']);
    expect([...new Set(begun.match(/\d+ minutes at \d+ psi/g))]).toEqual(['15 minutes at 15 psi']);
    expect(begun).not.toContain('20 minutes at 10 psi');
  });

  it('voids the sheet when another is chosen, and keeps to it once a clock has run', async () => {
    await pages.begin();
    await choose('20 min at 10 psi');
    const sheet = (await pages.visitor.submitOn('/canning-day', { form: `${dayPath}/sheets` })).location;
    await choose('15 min at 15 psi');
    const old = wordsOf((await pages.visitor.open(sheet)).body);
    const page = await pages.visitor.open('/canning-day');
    await tick('acid-per-jar', 'tomato-batch.1.1');
    await tick('vent', 'tomato-batch.1.1');
    await clock('started', 'tomato-batch.1.1');
    const late = await pages.visitor.submit(page, {
      form: dayPath,
      fill: { 'row-tomato-batch': 'another row', ask: 'begin' },
    });

    expect(old).toContain('Void');
    expect(late.status).toBe(422);
    expect(wordsOf(late.body)).toContain('the loads of today stay with it');
    expect(wordsOf((await pages.visitor.open('/canning-day')).body)).toContain('15 minutes at 15 psi');
  });
});

describe('what is made on a begun day', () => {
  beforeEach(() => pages.begin());

  const change = async (fill: Readonly<Record<string, string>>) =>
    pages.visitor.submitOn('/canning-day', { form: `${dayPath}/work`, fill });
  const work = async () => (await canningSessionOn(pages.db, quinceYard, asDate(canningDay)))?.work;

  it('can grow by a batch and by another recipe; what was ticked and timed keeps its state', async () => {
    await addTomatoes(pages);
    await tick('sterilize');
    await clock('started');

    const answer = await change({
      'batches-plum-jam-batch': '2',
      added: 'tomato-batch',
      addedBatches: '1',
    });

    expect(answer.status).toBe(303);
    expect(await work()).toEqual([
      { recipeId: 'plum-jam-batch', batches: 2 },
      { recipeId: 'green-beans-batch', batches: 1 },
      { recipeId: 'tomato-batch', batches: 1 },
    ]);
    const { body } = await pages.visitor.open('/canning-day');
    expect(body).toContain('value="sterilize:no" aria-pressed="true"');
    expect(wordsOf(body)).toMatch(/Due 9:10\sAM/);
    expect(body).toContain('loads/plum-jam-batch.2.1/clock');
    expect(body).toContain('loads/tomato-batch.1.1/clock');
  });

  it('can lose a batch that nobody has begun', async () => {
    const answer = await change({ 'batches-green-beans-batch': '0' });

    expect(answer.status).toBe(303);
    expect(await work()).toEqual([{ recipeId: 'plum-jam-batch', batches: 1 }]);
  });

  it('keeps a batch of which something was ticked, timed or written down', async () => {
    await change({ 'batches-plum-jam-batch': '3' });
    await tick('sterilize', 'plum-jam-batch.2.1');

    const dropped = await change({ 'batches-plum-jam-batch': '1' });
    const lowered = await change({ 'batches-plum-jam-batch': '2' });

    expect(dropped.status).toBe(422);
    expect(wordsOf(dropped.body)).toContain(
      'You have already ticked, timed or written down 2 batches of Plum jam',
    );
    expect(lowered.status).toBe(303);
  });

  it('is never nothing: such a day is taken back instead', async () => {
    const answer = await change({ 'batches-plum-jam-batch': '0', 'batches-green-beans-batch': '0' });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Take the day back instead.');
    expect(await work()).toHaveLength(2);
  });

  it('says what is wrong with a number of batches that is none', async () => {
    const answer = await change({ 'batches-plum-jam-batch': 'some' });

    expect(answer.status).toBe(422);
    expect(answer.body).toContain('value="some"');
  });
});

describe('sheets on paper', () => {
  const print = async () =>
    (await pages.visitor.submitOn('/canning-day', { form: `${dayPath}/sheets` })).location;

  beforeEach(() => pages.begin());

  it('bear a number and a mark; printing again with nothing changed gives the same sheet', async () => {
    const first = await print();
    const second = await print();
    const sheet = wordsOf((await pages.visitor.open(first)).body);

    expect(first).toBe(`${dayPath}/sheets/1`);
    expect(second).toBe(first);
    expect(sheet).toMatch(/Quince Yard · Sheet 1 · mark [0-9a-f]{4}-[0-9a-f]{4}/);
  });

  it.each([
    ['the altitude', () => pages.db.updateTable('household').set({ altitude_ft: 3200 })],
    [
      'the gauge',
      () =>
        pages.db
          .updateTable('canner')
          .set({ gauge: 'dial', gauge_checked_on: '2026-06-01', ...trueGauge })
          .where('id', '=', 'pressure-pot'),
    ],
    [
      'a canner',
      () => pages.db.updateTable('canner').set({ retired_on: '2026-08-20' }).where('id', '=', 'kettle'),
    ],
  ])(
    'are void once %s changed: the page says so, and the sheet shows no minutes any more',
    async (what, change) => {
      const address = await print();
      await change().execute();
      await factsChanged(pages.db);

      const page = wordsOf((await pages.visitor.open('/canning-day')).body);
      const sheet = wordsOf((await pages.visitor.open(address)).body);

      expect(page).toMatch(/Sheet 1, mark [0-9a-f-]+, [^:]+:\d\d\s[AP]M: VOID, print a new one/);
      expect(sheet).toContain('Void');
      expect(sheet).toContain(what);
      expect(sheet).not.toMatch(/\d+ minutes (in|at)/);
    },
  );
});
