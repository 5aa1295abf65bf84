import type { FastifyInstance } from 'fastify';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { buildApp } from '../../../../server/app.ts';
import { type Database, openDatabase } from '../../../../server/database/database.ts';
import { statedGround } from '../../../../server/queries/year/ground.ts';
import { sourcesOf } from '../../../../server/queries/year/harvest.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../../../server/year/load-year.ts';
import { asDate, mondayOf } from '../../../../shared/week.ts';
import { households } from '../../../builders/all-households.ts';
import { plansNothing } from '../../../builders/plans-nothing.ts';
import { Visitor, wordsOf } from '../../../builders/visitor.ts';

// A household set up in February at 5,300 ft in Colorado, with a garden.
const reference = loadReferenceTables();
const today = asDate('2026-02-10');

let db: Database;
let app: FastifyInstance;
let visitor: Visitor;
beforeEach(async () => {
  db = await openDatabase(':memory:');
  app = await buildApp({
    db,
    reference,
    now: () => Date.UTC(2026, 1, 10, 18),
    planJob: plansNothing,
  });
  visitor = new Visitor(app);
});
afterEach(async () => {
  await app.close();
  await db.destroy();
});

/** The set-up form, and once more where the altitude is asked back. */
const setUp = async (fill: Record<string, string>) => {
  const sent = { altitude: '5300', sourceKind: 'garden', ...fill };
  const first = await visitor.submitOn('/start', { form: '/start', fill: sent });
  return first.body.includes('Is that your kitchen?')
    ? visitor.submit(first, { form: '/start', fill: sent })
    : first;
};

const household = async () => {
  const [own] = await households(db);
  if (!own) throw new Error('no household was set up');
  return own;
};
const sourceOf = async (crop: string) => {
  const found = (await sourcesOf(db, (await household()).id)).find((source) => source.crop === crop);
  if (!found) throw new Error(`no source of ${crop}`);
  return found;
};
const begins = async (crop: string) => (await sourceOf(crop)).windows[0]?.beginsOn ?? 'never';

describe('set up with a town', () => {
  test('region and clock follow from it, and no garden crop is planned before it can be ripe there', async () => {
    expect((await setUp({ town: 'Boulder, CO' })).location).toBe('/?said=started');

    const own = await household();
    expect(own).toMatchObject({ region: 'CO', timeZone: 'America/Denver' });
    const { year } = await loadPlanningYear(db, own.id, today, reference);
    const firstWeek = (crop: string) => {
      const source = year.sources.find((one) => one.crop === crop);
      return mondayOf(
        year.weeks[source?.lbByWeek.findIndex((lb) => lb > 0) ?? -1] ?? year.weeks[0] ?? ('' as never),
      );
    };
    expect(firstWeek('tomato') >= '2026-07-06').toBe(true);
    expect(firstWeek('cucumber') >= '2026-06-29').toBe(true);
    expect(firstWeek('peach') >= '2026-06-29').toBe(true);
    expect(firstWeek('strawberry') >= '2026-06-01').toBe(true);
  });

  test('a town of several states is asked about and nothing is lost; the answer sets the household up', async () => {
    const asked = await setUp({ town: 'Springfield', altitude: '600' });

    expect(asked.status).toBe(422);
    expect(wordsOf(asked.body)).toContain('Which weather station is nearest to “Springfield”?');
    expect(wordsOf(asked.body)).toContain('Springfield Capital Ap, Illinois, 594 ft');
    const answer = await visitor.submit(asked, {
      form: '/start',
      fill: { altitude: '600', sourceKind: 'garden', town: 'Springfield', station: 'USW00093822' },
    });
    expect(answer.location).toBe('/?said=started');
    expect(await statedGround(db, (await household()).id)).toMatchObject({
      town: 'Springfield',
      station: 'USW00093822',
      state: 'IL',
    });
  });

  test('a town that no station is named after is refused with what to write instead', async () => {
    const answer = await setUp({ town: 'Kent, England' });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('No weather station is known for “Kent, England”');
    expect(await households(db)).toEqual([]);
  });
});

describe('the harvest page', () => {
  beforeEach(async () => {
    await setUp({ town: 'Boulder, CO' });
  });

  test('names the station with its freezes, and what each guess came from', async () => {
    const words = wordsOf((await visitor.open('/harvest')).body);

    // U.S. Climate Normals 1981–2010, Boulder: last freeze May 4, first Oct 6 in half of the years; 5,484 ft.
    expect(words).toContain(
      'Seasons follow Boulder, Colorado (5,484 ft): last freeze about May 4, first about Oct 6.',
    );
    expect(words).toContain(
      'Our guess. Published for Colorado, by the month: May 1 to Oct 31 (CO-CALENDAR).',
    );
    expect(words).toContain('it takes 60 days or more from planting');
  });

  test('another town moves what was guessed and leaves the household’s own dates', async () => {
    const before = { tomato: await begins('tomato'), cucumber: await begins('cucumber') };
    const tomatoes = await sourceOf('tomato');
    await visitor.submitOn(`/harvest/${tomatoes.id}`, {
      form: `/harvest/${tomatoes.id}/windows/2026`,
      fill: { beginsOn: '2026-07-30', mostActiveFrom: '', mostActiveLastOn: '' },
    });

    await visitor.submitOn('/harvest', { form: '/harvest-ground', fill: { town: 'Limon, CO' } });

    expect(await begins('tomato')).toBe('2026-07-30');
    expect((await begins('cucumber')) > before.cucumber).toBe(true);
    expect(before.tomato < '2026-07-30').toBe(true);
  });

  test('an own last frost counts before the station’s', async () => {
    const before = await begins('tomato');

    await visitor.submitOn('/harvest', { form: '/harvest-ground', fill: { lastFrost: '2026-05-24' } });

    expect((await begins('tomato')) > before).toBe(true);
    expect(wordsOf((await visitor.open('/harvest')).body)).toContain('Seasons follow your own frost dates');
  });

  test('a garden that becomes a market has the dates of a market', async () => {
    const tomatoes = await sourceOf('tomato');
    const garden = await begins('tomato');

    await visitor.submitOn(`/harvest/${tomatoes.id}`, {
      form: `/harvest/${tomatoes.id}`,
      fill: { kind: 'market' },
    });

    expect((await begins('tomato')) < garden).toBe(true);
  });

  test('a late year moves every crop and the next year none; one crop may run otherwise', async () => {
    const tomatoes = await sourceOf('tomato');
    const seasonOf = async (crop: string) => {
      const { facts, seasonsBySource } = await loadPlanningYear(db, (await household()).id, today, reference);
      const source = facts.sources.find((one) => one.crop === crop);
      return (seasonsBySource.get(source?.id ?? ('' as never)) ?? []).map(({ season, shiftDays }) => [
        season.year,
        shiftDays,
      ]);
    };

    await visitor.submitOn('/harvest', { form: '/harvest-year', fill: { days: '14' } });
    await visitor.submitOn('/harvest', {
      form: `/harvest/${tomatoes.id}/lateness`,
      fill: { days: '-7' },
    });

    expect((await seasonOf('cucumber')).slice(0, 2)).toEqual([
      [2026, 14],
      [2027, 0],
    ]);
    expect((await seasonOf('tomato'))[0]).toEqual([2026, -7]);
  });

  test('a crop that failed gives nothing this year, and next year what it usually does', async () => {
    const tomatoes = await sourceOf('tomato');
    const usual = tomatoes.windows[0]?.lbPerWeek;

    await visitor.submitOn('/harvest', {
      form: `/harvest/${tomatoes.id}/failure`,
      fill: { failed: 'yes' },
    });

    const { seasonsBySource } = await loadPlanningYear(db, (await household()).id, today, reference);
    expect((seasonsBySource.get(tomatoes.id) ?? []).slice(0, 2).map(({ lbPerWeek }) => lbPerWeek)).toEqual([
      0,
      usual,
    ]);
    await visitor.submitOn('/harvest', {
      form: `/harvest/${tomatoes.id}/failure`,
      fill: { failed: 'no' },
    });
    expect((await sourceOf('tomato')).windows[0]).toMatchObject({ lbPerWeek: usual, usualLbPerWeek: null });
  });

  test('no pounds written for a year mean that year alone', async () => {
    const tomatoes = await sourceOf('tomato');
    await visitor.submitOn(`/harvest/${tomatoes.id}`, {
      form: `/harvest/${tomatoes.id}/windows/2026`,
      fill: { lbPerWeek: '0' },
    });

    expect((await sourceOf('tomato')).windows[0]).toMatchObject({
      lbPerWeek: 0,
      usualLbPerWeek: tomatoes.windows[0]?.lbPerWeek,
      datesGuessed: true,
    });
  });

  test('a new source is offered the dates guessed for it', async () => {
    const added = await visitor.submitOn('/harvest/new', {
      form: '/harvest',
      fill: { name: 'Plum tree', crop: 'plum', kind: 'garden' },
    });

    const page = (await visitor.open(added.location)).body;

    expect(wordsOf(page)).toContain('Save it as it is, or put your own dates.');
    expect(page).toMatch(/name="beginsOn"[^>]*value="2026-0[789]-\d\d"/);
  });
});
