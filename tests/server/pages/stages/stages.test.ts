import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { householdText, restoreHousehold } from '../../../../server/files/household-file.ts';
import { asDate } from '../../../../shared/week.ts';
import { type CanningPages, canningPages, dayPath, hours } from '../../../builders/canning-pages.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: CanningPages;
beforeEach(async () => {
  pages = await canningPages();
});
afterEach(() => pages.close());

interface Staged {
  readonly id: string;
  readonly food: string;
  readonly style: string;
  readonly pack: string;
  readonly canner: string;
  readonly jar: string;
}
const kraut: Staged = {
  id: 'kraut',
  food: 'sauerkraut',
  style: 'fermented',
  pack: 'raw',
  canner: 'kettle',
  jar: 'pint/regular',
};
const beans: Staged = {
  id: 'beans',
  food: 'beans-dried',
  style: 'shelled; dried; in water',
  pack: 'hot',
  canner: 'pressure-pot',
  jar: 'pint/regular',
};

/** A recipe of the household's that follows a staged process of the tables. */
async function keep({ id, food, style, pack, canner, jar }: Staged, basedOn = food): Promise<void> {
  const own = { household_id: quinceYard };
  await pages.db
    .insertInto('item')
    .values({
      ...own,
      id,
      name: id,
      kind: 'preserve',
      keeping: 'canned',
      family: 'pickles',
      unit: 'jar',
      usual_jar: jar,
      best_quality_days: 365,
    })
    .execute();
  await pages.db
    .insertInto('recipe')
    .values({
      ...own,
      id: `${id}-batch`,
      item_id: id,
      name: id,
      based_on: basedOn,
      process_food: food,
      process_style: style,
      process_pack: pack,
      canner_id: canner,
      jar_kind: jar,
      yield_low: 8,
      yield_high: 9,
      hands_on_minutes: 60,
    })
    .execute();
}

const addToDay = (recipe: string) =>
  pages.visitor.submitOn('/canning-day', {
    form: `${dayPath}/work`,
    fill: { added: recipe, addedBatches: '1' },
  });
const postToLoad = async (load: string, what: 'clock' | 'ticks', values: Record<string, string>) =>
  pages.visitor.post(await pages.visitor.open('/canning-day'), `${dayPath}/loads/${load}/${what}`, {
    key: `key-${load}-${what}-${pages.clock.at}`,
    ...values,
  });
const startedClocks = () => pages.db.selectFrom('load_clock_event').select('load_key').execute();
const begin = async (values: Record<string, string>, page = '/canning-day') =>
  pages.visitor.post(await pages.visitor.open(page), '/stages', {
    key: `begin-${pages.clock.at}-${JSON.stringify(values)}`,
    ...values,
  });

describe('a recipe of several days on a canning day', () => {
  it('has no minutes, no load and no place on the paper on the day it is begun', async () => {
    await keep(kraut);
    await pages.begin();
    await addToDay('kraut-batch');

    const { body } = await pages.visitor.open('/canning-day');
    const words = wordsOf(body);

    expect(words).toContain('Before the canner');
    expect(words).toContain('at 70 to 75 F');
    expect(body).not.toContain('loads/kraut-batch.1.1');
    expect(words).toContain('kraut: do not can it yet');
    const paper = body.slice(body.indexOf('class="paper-sheet '), body.indexOf('</article>'));
    // Its days stand on the paper; no task, no load and no minutes of its own do.
    expect(wordsOf(paper)).not.toMatch(/(process|fill jars with|prepare|load [\w ]+:|lift) kraut/i);
    expect(wordsOf(paper)).not.toMatch(/kraut\W+(sauerkraut\W+)?\d+ minutes/i);
  });

  it('refuses the clock and every tick until the ferment is over, and says when', async () => {
    await keep(kraut);
    await pages.begin();
    await addToDay('kraut-batch');

    const clock = await postToLoad('kraut-batch.1.1', 'clock', { event: 'start' });
    const tick = await postToLoad('kraut-batch.1.1', 'ticks', { tick: 'rim:yes' });
    expect([clock.status, tick.status]).toEqual([422, 422]);

    await begin({ recipe: 'kraut-batch', position: '1', way: 'at 70 to 75 F', begunAt: '', batches: '1' });
    const same = await postToLoad('kraut-batch.1.1', 'clock', { event: 'start' });
    expect(same.status).toBe(422);
    expect(wordsOf(same.body)).toContain('Sep 12, 2026, 9:00 AM');
    expect(await startedClocks()).toEqual([]);
  });

  // MSU Extension, PFS 01600235: 12 to 18 hours in the cold.
  it('lets soaked beans into the canner after twelve hours and not after eighteen', async () => {
    await keep(beans);
    await pages.begin();
    await addToDay('beans-batch');
    const soak = { recipe: 'beans-batch', position: '1', way: 'soaked overnight', batches: '1' };

    expect((await begin({ ...soak, begunAt: '2026-08-21T21:30' })).status).toBe(303);
    expect(wordsOf((await pages.visitor.open('/canning-day')).body)).toContain('Sat, Aug 22, 9:30 AM');
    expect((await postToLoad('beans-batch.1.1', 'ticks', { tick: 'rim:yes' })).status).toBe(422);

    pages.clock.at += hours(0.5);
    expect((await postToLoad('beans-batch.1.1', 'ticks', { tick: 'rim:yes' })).status).toBe(303);
    expect((await pages.visitor.open('/canning-day')).body).toContain('loads/beans-batch.1.1');
  });

  it('refuses what soaked longer than the source allows', async () => {
    await keep(beans);
    await pages.begin();
    await addToDay('beans-batch');
    await begin({
      recipe: 'beans-batch',
      position: '1',
      way: 'soaked overnight',
      batches: '1',
      begunAt: '2026-08-21T14:00',
    });

    const late = await postToLoad('beans-batch.1.1', 'ticks', { tick: 'rim:yes' });

    expect(late.status).toBe(422);
    expect(wordsOf(late.body)).toContain('may last 18 hours at most');
  });

  it('takes the waits from the book however the household’s own recipe names it', async () => {
    await keep(beans, 'Beans-Dried');
    await pages.begin();
    await addToDay('beans-batch');

    expect((await postToLoad('beans-batch.1.1', 'clock', { event: 'start' })).status).toBe(422);
  });

  it('lets no batch into two canners', async () => {
    await keep(beans);
    await pages.begin();
    await addToDay('beans-batch');
    await begin({
      recipe: 'beans-batch',
      position: '1',
      way: 'soaked overnight',
      batches: '1',
      begunAt: '2026-08-21T20:00',
    });
    await pages.visitor.submitOn('/canning-day', {
      form: `${dayPath}/work`,
      fill: { 'batches-beans-batch': '2' },
    });

    expect((await postToLoad('beans-batch.2.1', 'ticks', { tick: 'rim:yes' })).status).toBe(422);
  });
});

describe('the way of a recipe that is printed in several', () => {
  const choose = async (way: string, recipe = 'beans-batch') =>
    pages.visitor.post(await pages.visitor.open('/stages'), '/stages/ways', {
      key: `choose-${recipe}-${way}`,
      recipe,
      way,
    });
  const chosen = () => pages.db.selectFrom('recipe_way').select(['recipe_id', 'way']).execute();

  it('is chosen on the page and followed from then on; the newest choice counts', async () => {
    await keep(beans);

    expect((await choose('quick soak')).status).toBe(303);
    const quick = wordsOf((await pages.visitor.open('/stages')).body);
    expect((await choose('soaked overnight')).status).toBe(303);
    const overnight = wordsOf((await pages.visitor.open('/stages')).body);

    expect(quick).toContain('Cover the sorted beans with boiling water');
    expect(quick).not.toContain('Cover the sorted beans with cold water');
    expect(overnight).toContain('Cover the sorted beans with cold water');
  });

  it('is one the source prints, of a recipe that has several', async () => {
    await keep(beans);
    const refused = [
      await choose('an hour in the sun'),
      await choose('at 70 to 75 F'),
      await choose(''),
      await choose('quick soak', 'plum-jam-batch'),
      await choose('quick soak', 'nobody'),
    ];

    expect(refused.map(({ status }) => status)).toEqual([422, 422, 422, 422, 422]);
    expect(wordsOf(refused[0]?.body ?? '')).toContain('soaked overnight, or quick soak');
    expect(await chosen()).toEqual([]);
  });
});

describe('what is written down of a batch', () => {
  const soak = { recipe: 'beans-batch', position: '1', way: 'soaked overnight', batches: '2' };
  const events = () =>
    pages.db.selectFrom('stage_event').select(['batch_id', 'kind', 'position', 'begun_at']).execute();

  it('is written once for a form sent twice', async () => {
    await keep(beans);
    const page = await pages.visitor.open('/stages');
    for (let time = 0; time < 2; time += 1)
      await pages.visitor.post(page, '/stages', { ...soak, begunAt: '', key: 'sent-twice-by-a-thumb' });

    expect(await events()).toEqual([
      { batch_id: 'beans-batch-begun', kind: 'begun', position: 1, begun_at: '2026-08-22T09:00' },
    ]);
  });

  it('lies in the past, on a day that exists, in a printed way and in order', async () => {
    await keep(beans);
    const unfit = [
      { ...soak, begunAt: '2026-08-22T09:01' },
      { ...soak, begunAt: '2026-02-30T09:00' },
      { ...soak, begunAt: 'yesterday' },
      { ...soak, way: 'for an hour', begunAt: '' },
      { ...soak, position: '2', begunAt: '' },
      { ...soak, position: '7', begunAt: '' },
      { ...soak, batches: '0', begunAt: '' },
      { ...soak, recipe: 'plum-jam-batch', begunAt: '' },
      { ...soak, recipe: 'nobody', begunAt: '' },
    ];
    const sent = [];
    for (const values of unfit) sent.push(await begin(values, '/stages'));

    expect(sent.map(({ status }) => status)).toEqual(sent.map(() => 422));
    expect(await events()).toEqual([]);
  });

  it('can be taken back, and thrown away', async () => {
    await keep(beans);
    await begin({ ...soak, begunAt: '2026-08-21T20:00' }, '/stages');
    await pages.visitor.submitOn('/stages', { form: '/stages/beans-batch-begun/take-back' });
    expect(wordsOf((await pages.visitor.open('/stages')).body)).not.toContain('2 batches, begun');

    pages.clock.at += hours(1);
    await begin({ ...soak, begunAt: '2026-08-21T20:00' }, '/stages');
    expect(wordsOf((await pages.visitor.open('/stages')).body)).toContain('2 batches, begun');
    await pages.visitor.submitOn('/stages', { form: '/stages/beans-batch-begun-2/thrown-away' });
    expect(wordsOf((await pages.visitor.open('/stages')).body)).not.toContain('2 batches, begun');
    expect(await events()).toHaveLength(4);
  });

  it('goes along in the household’s file', async () => {
    await keep(beans);
    await begin({ ...soak, begunAt: '2026-08-21T20:00' }, '/stages');
    const text = await householdText(pages.db, quinceYard);

    const back = await restoreHousehold(
      {
        db: pages.db,
        householdId: quinceYard,
        at: pages.clock.at,
        today: asDate('2026-08-22'),
        key: 'bring-back',
      },
      text,
    );

    expect(back.ok).toBe(true);
    expect(await householdText(pages.db, quinceYard)).toBe(text);
    expect(text).toContain('2026-08-21T20:00');
  });
});
