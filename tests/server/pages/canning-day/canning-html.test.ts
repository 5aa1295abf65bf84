import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lotsOf } from '../../../../server/queries/shelf/shelf.ts';
import { addTomatoes, type CanningPages, canningPages, dayPath } from '../../../builders/canning-pages.ts';
import { htmlProblems } from '../../../builders/html-problems.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';

let pages: CanningPages;
beforeAll(async () => {
  pages = await canningPages();
});
afterAll(() => pages.close());

describe('valid HTML', () => {
  it('from the day ahead to the batch on the shelf', async () => {
    const seen: Record<string, readonly string[]> = {};
    const look = async (name: string, path: string) => {
      seen[name] = await htmlProblems((await pages.visitor.open(path)).body);
    };
    await look('the day ahead', '/canning-day');
    await pages.begin();
    await pages.visitor.submitOn('/canning-day', { form: `${dayPath}/sheets` });
    await look('the day begun', '/canning-day');
    await look('its sheet', `${dayPath}/sheets/1`);
    const results = `${dayPath}/results/plum-jam-batch`;
    await look('writing down', results);
    await pages.visitor.submitOn(results, {
      form: results,
      fill: { units: '8', minutesRun: '10', doneBy: 'Marit' },
    });
    await look('the seals to check', '/canning-day');
    const [lot] = await lotsOf(pages.db, quinceYard);
    await look('a batch', `/batches/${lot?.id}`);
    await look('set aside', '/set-aside');
    await look('found unsealed', '/found-unsealed');
    await look(
      'a power outage',
      '/power-cut?appliance=refrigerator&startedAt=2026-08-17+10:00&endedAt=2026-08-17+15:00',
    );
    await look(
      'a processing time',
      '/process-times?food=applesauce&pack=hot&jar=quart&method=boiling-water&altitude=0',
    );
    await look('a refusal', '/process-times?food=beans-snap&pack=raw&jar=pint&method=oven&altitude=0');
    await look(
      'a choice of processing times',
      '/process-times?food=tomato-juice&pack=hot&jar=pint&method=pressure&gauge=weighted&altitude=0',
    );
    await addTomatoes(pages);
    await pages.db
      .updateTable('recipe')
      .set({ canner_id: 'pressure-pot', based_on: 'tomatoes-crushed-pints' })
      .where('id', '=', 'tomato-batch')
      .execute();
    await look('what is done otherwise', '/items/tomatoes');
    await pages.visitor.submitOn('/canning-day', {
      form: `${dayPath}/work`,
      fill: { added: 'tomato-batch', addedBatches: '1' },
    });
    await look('a schedule to choose', '/canning-day');
    await look('writing down by one of several', `${dayPath}/results/tomato-batch`);
    await pages.db.updateTable('household').set({ altitude_ft: null }).execute();
    await look('without an altitude', '/canning-day');

    expect(Object.fromEntries(Object.entries(seen).filter(([, problems]) => problems.length > 0))).toEqual(
      {},
    );
  });

  it('runs only scripts that this server sends as files, the countdown among them', async () => {
    const { body } = await pages.visitor.open('/canning-day');

    const scripts = [...body.matchAll(/<script\b[^>]*>/g)].map(([tag]) => tag);
    expect(scripts.filter((tag) => !/ src="\/[a-z][\w./-]+\.js"/.test(tag))).toEqual([]);
    expect(scripts.some((tag) => tag.includes('/assets/clock.'))).toBe(true);
    expect(body).not.toMatch(/\son[a-z]+="|\sstyle="/);
  });
});
