import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { calendarEntries } from '../../../../server/calendar/calendar-entries.ts';
import { householdText, restoreHousehold } from '../../../../server/files/household-file.ts';
import { canningSessionOn } from '../../../../server/queries/canning/canning-sessions.ts';
import { kitchenHoursOf } from '../../../../server/queries/household/kitchen.ts';
import { loadPlanningYear } from '../../../../server/year/load-year.ts';
import { yearPicture } from '../../../../server/year/year-picture.ts';
import { asDate } from '../../../../shared/week.ts';
import { measuresIn } from '../../../../src/preserving/foods/trade-measures.ts';
import { readingOf } from '../../../../views/words/reading.ts';
import {
  type CanningPages,
  canningDay,
  canningPages,
  dayPath,
  reference,
} from '../../../builders/canning-pages.ts';
import { plainText } from '../../../builders/html-text.ts';
import { worked } from '../../../builders/outcomes.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import { Thing } from '../../../builders/thing.ts';
import { wordsOf } from '../../../builders/visitor.ts';

// Who is there when something is canned: said once for the usual day or for some days, planned with, and each person's own list
// on the day and on its paper.

let pages: CanningPages;
beforeEach(async () => {
  pages = await canningPages();
});
afterEach(() => pages.close());

const sayTime = (who: string) => pages.visitor.submitOn('/kitchen', { form: '/kitchen/time', fill: { who } });
const sayDays = (weekday: number, who: string) =>
  pages.visitor.submitOn('/kitchen', {
    form: '/kitchen/session-days',
    fill: { weekday: String(weekday), which: 'every', hours: '5', who },
  });
const words = async (address: string) => wordsOf((await pages.visitor.open(address)).body);
/** The lists of the day, by whose they are. */
const lists = async (address = '/canning-day') => {
  const { body } = await pages.visitor.open(address);
  const part = /<section class="who-does-what"[\s\S]*?<\/section>/.exec(body)?.[0] ?? '';
  return new Map(
    [...part.matchAll(/<h3>([^<]+)<\/h3>([\s\S]*?)<\/ol>/g)].map(([, name = '', list = '']) => [
      plainText(name),
      [...list.matchAll(/<li[^>]*>([\s\S]*?)<\/li>/g)].map(([, line = '']) => wordsOf(line).trim()),
    ]),
  );
};

describe('who is there', () => {
  it('is said with commas or “and” between, kept once each, and shown with the next days', async () => {
    await sayTime('Ann,  Ben and Ann');

    expect((await kitchenHoursOf(pages.db, quinceYard)).who).toEqual(['Ann', 'Ben']);
    expect(await words('/kitchen')).toMatch(
      /Sat, Aug 22,? 2026, 5 h, Ann and Ben|Sat, Aug 22, 5 h, Ann and Ben/,
    );
    await sayTime('');
    expect((await kitchenHoursOf(pages.db, quinceYard)).who).toBeUndefined();
    expect((await lists()).size).toBe(2);
  });

  it('takes twenty names, and says so beside the field', async () => {
    const many = Array.from({ length: 21 }, (_, at) => `P${at}`).join(', ');
    const answer = await sayTime(many);

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Who is there takes 20 names at most.');
  });

  it('is planned with: hands for the week, as the days say', async () => {
    const hands = async () =>
      (await loadPlanningYear(pages.db, quinceYard, asDate('2026-08-17'), reference)).year.time.handsByWeek;
    expect(await hands()).toBeUndefined();
    await sayTime('Ann, Ben');
    expect((await hands())?.[0]).toBe(1.75);
    await sayDays(6, 'Ann');
    expect(await hands()).toBeUndefined();
    await sayDays(3, '');
    expect((await hands())?.[1]).toBeCloseTo((1 + 1.75) / 2, 9);
  });

  it('is told on This week and to connected things, as work that is shared', async () => {
    pages.clock.at = Date.UTC(2026, 7, 17, 18);
    expect(await words('/')).toMatch(/2 h 45 min in the kitchen|\d h \d+ min in the kitchen/);
    await sayTime('Ann');
    expect(await words('/')).toMatch(/min in the kitchen, Ann/);
    await sayTime('Ann, Ben');
    expect(await words('/')).toMatch(/of work for Ann and Ben/);
    const thing = await Thing.of(pages.app, pages.db, quinceYard);
    expect((await thing.read('/week')).json).toMatchObject({ work: [{ who: ['Ann', 'Ben'] }] });
  });
});

describe('outside of the pages', () => {
  it('stands in the calendar', async () => {
    const entries = async () => {
      const at = asDate('2026-08-17');
      const picture = await yearPicture(pages.db, quinceYard, at, reference);
      const reading = readingOf({ locale: 'en-US', units: 'us', weekStartsOn: 'sunday' }, at);
      const names = { ...picture.loaded.facts, reading, measuresOf: measuresIn(reference) };
      return calendarEntries(picture, [], names, reference).filter(({ kind }) => kind === 'canning');
    };
    expect((await entries())[0]?.words).not.toContain('Who is there');
    await sayTime('Ann, Ben');
    expect((await entries())[0]?.words).toMatch(/\nWho is there: Ann and Ben$/);
  });
});

describe('on the day', () => {
  it('each person has a list of their own, in the order of the day, and every step stands on one list', async () => {
    await sayTime('Ann, Ben');
    const byName = await lists();

    expect([...byName.keys()]).toEqual(['Ann', 'Ben']);
    for (const list of byName.values()) {
      expect(list[0]).toMatch(/^9:00\sAM Set out, wash jars/);
      expect(list.length).toBeGreaterThan(2);
    }
    const all = [...byName.values()].flatMap((list) => list.slice(1));
    const steps = ['Prepare', 'Fill jars', 'Load', 'Lift'].flatMap((step) =>
      all.filter((line) => line.includes(step)),
    );
    expect(new Set(steps).size).toBe(steps.length);
    expect(all.filter((line) => line.includes('Prepare')).length).toBe(2);
    const shown = await words('/canning-day');
    expect(shown).toMatch(/Ann Set out|Ann \d+ h \d+ min of work|Ann [\d\sh]+(min )?of work/);
    expect(shown).not.toMatch(/person 1/i);
  });

  it('says person 2 of whom nobody named, and nothing of one alone', async () => {
    await sayTime('Ann');
    expect([...(await lists()).keys()]).toEqual(['Ann']);
    const look = async (people: string, who: string) => {
      const fill = { people, who, ask: 'look' };
      return lists((await pages.visitor.submitOn('/canning-day', { form: dayPath, fill })).location);
    };
    expect([...(await look('2', 'Ann')).keys()]).toEqual(['Ann', 'Person 2']);
    expect([...(await look('1', 'Ann, Ben, Cleo')).keys()]).toEqual(['Ann', 'Ben', 'Cleo']);
    expect((await look('1', '')).size).toBe(0);
  });

  it('keeps who was there when it was begun, whoever is usual later, in its file too', async () => {
    await sayTime('Ann, Ben');
    await pages.begin();
    await sayTime('Cleo');
    const kept = async () => (await canningSessionOn(pages.db, quinceYard, asDate(canningDay)))?.setting;

    expect(await kept()).toMatchObject({ people: 2, who: ['Ann', 'Ben'] });
    expect([...(await lists()).keys()]).toEqual(['Ann', 'Ben']);
    const text = await householdText(pages.db, quinceYard);
    worked(await restoreHousehold(pages.writer(), Buffer.from(text), { reference }));
    expect(await kept()).toMatchObject({ who: ['Ann', 'Ben'] });
    expect((await kitchenHoursOf(pages.db, quinceYard)).who).toEqual(['Cleo']);
  });

  it('prints it: every step by hand begins with a name', async () => {
    await sayTime('Ann, Ben');
    await pages.begin();
    const { location } = await pages.visitor.submitOn('/canning-day', { form: `${dayPath}/sheets` });
    const paper = await words(location);

    expect(paper).toMatch(/9:00\sAM Everybody: set out, wash jars/);
    expect(paper).toMatch(/(Ann|Ben): prepare green beans/);
    expect(paper).toMatch(/(Ann|Ben): lift plum jam out of Kettle/);
    expect(paper).not.toMatch(/(Ann|Ben): process/);
  });
});
