import ICAL from 'ical.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { calendarText } from '../../../server/calendar/calendar-text.ts';
import { keepPlan } from '../../../server/jobs/keep-plan.ts';
import { newestPlan } from '../../../server/queries/year/plans.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { oneOf } from '../../../shared/schemas/shelf/take.ts';
import { addDays, asDate } from '../../../shared/week.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import { worked } from '../../builders/outcomes.ts';
import { planAgain, settledQuinceYard } from '../../builders/planned-quince-yard.ts';
import { plumJam, quinceYard, shelve } from '../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await settledQuinceYard();
});
afterEach(() => pages.close());

interface Entry {
  readonly uid: string;
  readonly sequence: number;
  readonly title: string;
  readonly start: string;
  readonly end: string;
  readonly isDay: boolean;
}

/** Read by a parser of its own; every warning of a property that does not fit its type would throw here. */
function read(text: string): readonly Entry[] {
  const calendar = new ICAL.Component(ICAL.parse(text));
  return calendar.getAllSubcomponents('vevent').map((event) => {
    const own = new ICAL.Event(event, { strictExceptions: true });
    return {
      uid: own.uid,
      sequence: own.sequence,
      title: own.summary,
      start: own.startDate.toString(),
      end: own.endDate.toString(),
      isDay: own.startDate.isDate && own.endDate.isDate,
    };
  });
}

const feedPath = async (): Promise<string> => {
  const found = /\/calendar\/[A-Za-z0-9_-]+\.ics/.exec((await pages.visitor.open('/calendar')).body);
  if (!found) throw new Error('expected the address of the calendar on its page');
  return found[0];
};
const feed = async (): Promise<string> => (await pages.visitor.open(await feedPath())).body;
const entries = async () => read(await feed());
const open = () => pages.visitor.submitOn('/calendar', { form: '/calendar/address' });

/** Keeps the newest plan again, changed as said. */
async function replan(change: (plan: Plan) => Plan): Promise<void> {
  const kept = await newestPlan(pages.db, quinceYard);
  if (kept === null) throw new Error('expected a plan');
  await keepPlan(pages.db, quinceYard, {
    year: kept.year,
    factsVersion: 1_000_000,
    at: kept.madeAt + 1,
    answer: { outcome: 'planned', plan: change(kept.plan), paths: kept.paths, stoppedBy: 'gap' } as never,
  });
}

describe("the calendar's own name", () => {
  // Through the ordinary form this household's name used to add an event of its own to the calendar.
  it.each([
    'Birch\r\nBEGIN:VEVENT\r\nUID:forged\r\nSUMMARY:Pay the milkman\r\nEND:VEVENT',
    'Birch\rX-WR-CALNAME:Other',
    'Birch\u2028Alder',
    'Plums, pears; and \\n quinces',
    'Birch\u0000\u0007',
  ])('is one line of text to a reader that is not ours: %j', (name) => {
    const text = calendarText({ name, timeZone: 'America/New_York' }, [], 'http://127.0.0.1:8137');

    const calendar = new ICAL.Component(ICAL.parse(text));

    expect(calendar.getAllSubcomponents()).toEqual([]);
    expect(calendar.getAllProperties().map((one) => one.name)).toEqual([
      'version',
      'prodid',
      'name',
      'x-wr-calname',
      'refresh-interval',
      'x-published-ttl',
      'x-wr-timezone',
    ]);
    // ical.js does not know this property of RFC 7986 and hands it over as it stands; its "summary" reads the same text.
    const event = `BEGIN:VEVENT\r\nSUMMARY:${calendar.getFirstPropertyValue('name')}\r\nEND:VEVENT`;
    const said = name
      .replaceAll(/\r\n|\r|\u2028/g, '\n')
      .replaceAll(/\p{Cc}/gu, (sign) => (sign === '\n' ? sign : ' '));
    expect(new ICAL.Component(ICAL.parse(event)).getFirstPropertyValue('summary')).toBe(`${said}: pantry`);
  });
});

describe('the calendar', () => {
  it('has no address until it is given one, and none after it was taken back', async () => {
    expect(wordsOf((await pages.visitor.open('/calendar')).body)).toContain('nobody can read it');

    await open();
    const first = await feedPath();
    expect((await pages.visitor.open(first)).status).toBe(200);

    await open();
    const second = await feedPath();
    expect(second).not.toBe(first);
    expect((await pages.visitor.open(first)).status).toBe(404);

    await pages.visitor.submitOn('/calendar', { form: '/calendar/address/removal' });
    expect((await pages.visitor.open(second)).status).toBe(404);
  });

  it('is read by another parser: canning, shopping, best quality and harvest as whole days', async () => {
    await planAgain(pages);
    await open();

    const read = await entries();

    const titles = read.map(({ title }) => title).join('\n');
    expect(titles).toMatch(/^Can: /m);
    expect(titles).toMatch(/^Pick and buy for canning/m);
    expect(titles).toMatch(/^Best eaten by today: Plum jam/m);
    expect(titles).toMatch(/^Harvest: Plum tree/m);
    expect(read.every(({ isDay, start, end }) => isDay && start < end)).toBe(true);
    expect(new Set(read.map(({ uid }) => uid)).size).toBe(read.length);
  });

  // RFC 5545, section 3.1: lines of at most 75 octets, ended by CRLF; a longer one goes on after CRLF and a space.
  it('folds its lines as RFC 5545 says, and carries the name and refresh interval of RFC 7986', async () => {
    await shelve(pages.db, {
      id: 'long',
      itemId: plumJam,
      units: 3,
      madeOn: '2026-08-15',
      bestQualityUntil: '2027-08-15',
    });
    await open();

    const text = await feed();

    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    for (const line of text.split('\r\n')) {
      expect(line).not.toContain('\n');
      expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    }
    expect(text).toContain('NAME:Quince Yard: pantry');
    expect(text).toContain('REFRESH-INTERVAL;VALUE=DURATION:PT6H');
  });

  it('lays a day where it lies in the calendar, the weeks of the clock change too', async () => {
    // Clocks go back in Denver on Nov 1, 2026, and forward on Mar 14, 2027.
    for (const on of ['2026-11-01', '2027-03-14', '2026-12-31'])
      await shelve(pages.db, {
        id: `until-${on}`,
        itemId: plumJam,
        units: 1,
        madeOn: '2026-08-01',
        bestQualityUntil: on,
      });
    await open();

    const days = new Map((await entries()).map((entry) => [entry.uid, entry]));

    for (const on of ['2026-11-01', '2027-03-14', '2026-12-31'])
      expect(days.get(`best-quality-until-${on}.quince-yard@shelfward`)).toMatchObject({
        start: on,
        end: addDays(asDate(on), 1),
      });
  });

  it('changes nothing when nothing changed', async () => {
    await planAgain(pages);
    await open();
    const before = await feed();

    await replan((plan) => plan);

    expect(await feed()).toBe(before);
  });

  it('changes only the entry that changed when the plan is made anew', async () => {
    await planAgain(pages);
    await open();
    const before = new Map((await entries()).map((entry) => [entry.uid, entry]));
    const kept = await newestPlan(pages.db, quinceYard);
    const moved = kept?.plan.weeks.find(({ sessions }) => sessions.length > 0);

    await replan((plan) => ({
      ...plan,
      weeks: plan.weeks.map((week) =>
        week.week === moved?.week
          ? { ...week, sessions: week.sessions.map((one) => ({ ...one, batches: one.batches + 1 })) }
          : week,
      ),
    }));

    const after = await entries();
    const changed = after.filter((entry) => entry.sequence !== before.get(entry.uid)?.sequence);
    expect(changed.map(({ uid, sequence }) => ({ uid, sequence }))).toEqual([
      { uid: `canning-${moved?.week.toLowerCase()}-1.quince-yard@shelfward`, sequence: 1 },
    ]);
    expect(after).toHaveLength(before.size);
  });

  it('drops the day of a batch that is eaten up', async () => {
    await open();
    const uid = 'best-quality-august-jam.quince-yard@shelfward';
    expect((await entries()).map((entry) => entry.uid)).toContain(uid);

    worked(await take(pages.writer(), { ...oneOf(plumJam), lotId: 'august-jam' as never, units: 2 }));

    expect((await entries()).map((entry) => entry.uid)).not.toContain(uid);
  });

  it('shows only what was chosen', async () => {
    await open();
    await pages.visitor.submitOn('/calendar', {
      form: '/calendar/kinds',
      fill: { canning: '', shopping: '', best_quality: '' },
    });

    const titles = (await entries()).map(({ title }) => title);

    expect(titles.length).toBeGreaterThan(0);
    expect(titles.every((title) => title.startsWith('Harvest: '))).toBe(true);
  });
});
