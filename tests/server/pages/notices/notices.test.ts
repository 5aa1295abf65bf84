import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { settledQuinceYard } from '../../../builders/planned-quince-yard.ts';
import { plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await settledQuinceYard();
});
afterEach(() => pages.close());

const jamNotice = () =>
  pages.db
    .selectFrom('notice')
    .select(['state', 'snoozed_until'])
    .where('household_id', '=', quinceYard)
    .where('subject', '=', 'lot:august-jam')
    .executeTakeFirst();
const factsVersion = async () =>
  (await pages.db.selectFrom('household').select('facts_version').executeTakeFirstOrThrow()).facts_version;

describe('notices', () => {
  test('stand under their kind with the reason, the day and one thing to do', async () => {
    const words = wordsOf((await pages.visitor.open('/notices')).body);

    expect(words).toMatch(/Eat soon 2 jars of Plum jam .* By Sun, Aug 30\. See this batch/);
  });

  test('name no day to act by once that day is past', async () => {
    await shelve(pages.db, {
      id: 'spring-jam',
      itemId: plumJam,
      units: 1,
      madeOn: '2025-05-01',
      bestQualityUntil: '2026-05-01',
    });
    await pages.db
      .updateTable('household')
      .set({ facts_version: (await factsVersion()) + 1 })
      .execute();

    const words = wordsOf((await pages.visitor.open('/notices')).body);

    expect(words).toMatch(
      /at their best until May 1, 2026 \(1 jar\) and Aug 30, 2026 \(2 jars\). Flavor and color fade after that, so eat the oldest first\. See this batch/,
    );
  });

  test('dealt with: it is gone from the list, and no plan becomes out of date by it', async () => {
    const before = await factsVersion();

    const answer = await answerJam('done');

    expect([answer.status, answer.location]).toEqual([303, '/notices']);
    expect(await jamNotice()).toEqual({ state: 'done', snoozed_until: null });
    expect(await factsVersion()).toBe(before);
    expect(wordsOf((await pages.visitor.open('/notices')).body)).not.toContain('Plum jam put up');
  });

  test('put off: it sleeps for a week, and can be brought back', async () => {
    await answerJam('later');
    expect(await jamNotice()).toEqual({ state: 'snoozed', snoozed_until: '2026-08-24' });
    expect(wordsOf((await pages.visitor.open('/notices')).body)).toContain('Put off');

    await answerJam('now');
    expect(await jamNotice()).toEqual({ state: 'open', snoozed_until: null });
  });

  test('with script answers with both lists alone', async () => {
    const answer = await answerJam('later', true);

    expect(answer.body).toMatch(/^<div id="notices">/);
    expect(wordsOf(answer.body)).toContain('Comes back Aug 24');
  });

  test('an answer nobody offered changes nothing and says what was expected', async () => {
    const answer = await answerJam('burn it');

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Press one of the buttons under a notice.');
    expect((await jamNotice())?.state).toBe('open');
  });

  test('an answer to a notice that no longer stands says so', async () => {
    const page = await pages.visitor.open('/notices');
    await pages.db.updateTable('notice').set({ state: 'gone' }).execute();

    const answer = await pages.visitor.submit(page, { form: '/notices/', fill: { answer: 'done' } });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('This notice is no longer open');
  });
});

const answerJam = async (answer: string, asPart = false) => {
  await pages.visitor.open('/notices');
  const { id } = await pages.db
    .selectFrom('notice')
    .select('id')
    .where('subject', '=', 'lot:august-jam')
    .executeTakeFirstOrThrow();
  return pages.visitor.submitOn('/notices', { form: `/notices/${id}`, fill: { answer }, asPart });
};
