import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../server/app.ts';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { keepPlan } from '../../server/jobs/keep-plan.ts';
import type { NoticeOnRecord } from '../../server/queries/notices/notices.ts';
import { noticesNow } from '../../server/records/notices/standing-notices.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { planYear } from '../../server/solver/plan-year.ts';
import { loadPlanningYear } from '../../server/year/load-year.ts';
import { planHousehold } from '../../server/year/plan-household.ts';
import { type YearPicture, yearPicture } from '../../server/year/year-picture.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { addDays, type CalendarDate, mondayOf, type WeekKey } from '../../shared/week.ts';
import type { Plan, PlannedSession } from '../../src/planning/plan.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';
import { bringList } from './brought-list.ts';
import { plansNothing } from './plans-nothing.ts';
import { type Answer, formOf, Visitor, wordsOf } from './visitor.ts';

const reference = loadReferenceTables();

/** A household that lives through months: everything is typed into the pages, the clock is moved, the real planner plans. */
export class HouseholdByPages {
  readonly db: Database;
  readonly visitor: Visitor;
  readonly #app: FastifyInstance;
  readonly #clock: { at: number };
  #household: HouseholdId | null = null;
  #today: CalendarDate;
  #plans = 0;

  private constructor(db: Database, app: FastifyInstance, clock: { at: number }, today: CalendarDate) {
    this.db = db;
    this.#app = app;
    this.#clock = clock;
    this.#today = today;
    this.visitor = new Visitor(app);
  }

  /** Opens the program with an empty file at noon of a day. */
  static async beginning(today: CalendarDate): Promise<HouseholdByPages> {
    const clock = { at: noonOf(today) };
    const db = await openDatabase(':memory:');
    const app = await buildApp({
      db,
      reference,
      now: () => clock.at,
      planJob: plansNothing,
    });
    return new HouseholdByPages(db, app, clock, today);
  }

  async close(): Promise<void> {
    await this.#app.close();
    await this.db.destroy();
  }

  get today(): CalendarDate {
    return this.#today;
  }

  goTo(today: CalendarDate): void {
    this.#today = today;
    this.#clock.at = noonOf(today);
  }

  /** The first hour: an altitude is kept at the second press, when it has been shown in both units. */
  async setUp(fill: Readonly<Record<string, string>>): Promise<void> {
    const first = await this.visitor.submitOn('/start', { form: '/start', fill });
    const done = first.status === 303 ? first : await this.visitor.submit(first, { form: '/start', fill });
    if (done.status !== 303)
      throw new Error(`expected a household; found ${wordsOf(done.body).slice(0, 2000)}`);
    const own = await this.db.selectFrom('household').select('id').executeTakeFirstOrThrow();
    this.#household = own.id as HouseholdId;
  }

  /** Sends a form of a page and expects it to be taken. */
  async send(page: string, form: string, fill: Readonly<Record<string, string>> = {}): Promise<Answer> {
    const answer = await this.visitor.submitOn(page, { form, fill });
    if (answer.status !== 303)
      throw new Error(`expected ${form} to be taken; found ${answer.status}: ${problemsIn(answer.body)}`);
    return answer;
  }

  /** Writes down under Settings that the dial gauge was right at every mark when it was checked. */
  async gaugeFoundRight(checkedOn: CalendarDate): Promise<void> {
    const canner = (await this.year()).loaded.facts.canners.find(({ method }) => method === 'pressure');
    await this.send('/kitchen', `/kitchen/canners/${canner?.id}`, {
      gauge: 'dial',
      gaugeCheckedOn: checkedOn,
      gaugeOffAt5: '0',
      gaugeOffAt10: '0',
      gaugeOffAt15: '0',
    });
  }

  /** Brings in a list of what is on the shelf. */
  async bringInStock(csv: string): Promise<void> {
    const taken = await bringList(this.visitor, csv);
    if (taken.status !== 303)
      throw new Error(`expected the list to be taken; found ${problemsIn(taken.body)}`);
  }

  /**
   * Writes down on its canning day what a planned session was for, as many jars as the plan counts on. Answers the jars
   * that were filled.
   */
  async writeDown(
    week: WeekKey,
    session: PlannedSession,
  ): Promise<readonly { readonly kind: string; readonly count: number }[]> {
    const saturday = addDays(mondayOf(week), 5);
    this.goTo(saturday);
    const path = `/canning-day/${week}/${saturday}`;
    const form = `${path}/results/${session.recipe}`;
    const page = await this.words(form);
    await this.send(form, form, {
      batches: String(session.batches),
      units: String(Math.floor(session.units)),
      minutesRun: /(\d+) minutes (?:at|in) /.exec(page)?.[1] ?? '',
      psi: /(\d+) psi or more/.exec(page)?.[1] ?? '',
      acidTicked: 'yes',
      doneBy: 'whoever cooked',
    });
    const { loaded } = await this.year();
    return loaded.facts.lots
      .filter(({ recipeId, madeOn }) => recipeId === session.recipe && madeOn === saturday)
      .flatMap(({ jarKind, madeUnits }) => (jarKind === null ? [] : [{ kind: jarKind, count: madeUnits }]));
  }

  /** Ticks on the door sheet what was taken of each item up to a day, as far as the book has it, and sends the sheet in. */
  async tick(on: CalendarDate, units: Readonly<Record<string, number>>): Promise<void> {
    this.goTo(on);
    const { items } = await this.year();
    const ticked = items.flatMap(({ item, unitsOnShelf }) => {
      const taken = Math.min(units[item.id] ?? 0, Math.floor(unitsOnShelf));
      return taken > 0 ? [[`units-${item.id}`, String(taken)] as const] : [];
    });
    await this.send('/shelf/tallies', '/shelf/tallies', {
      mode: 'ticked',
      countedOn: on,
      ...Object.fromEntries(ticked),
    });
  }

  /** What stands in the field of what the fund holds today. */
  async fund(): Promise<number> {
    return Number(formOf((await this.visitor.open('/kitchen')).body, '/kitchen/fund').values.balance);
  }

  /** What a page says. */
  async words(page: string): Promise<string> {
    return wordsOf((await this.visitor.open(page)).body);
  }

  /** Every page that needs nothing to be named and the pages of each item, with what they say. */
  async everyPage(): Promise<readonly { readonly url: string; readonly words: string }[]> {
    const { items } = await this.year();
    const urls = [
      ...this.#app.servedRoutes.flatMap(({ method, url }) =>
        method === 'GET' && !/[:*]|\.\w+$/.test(url) ? [url] : [],
      ),
      ...items.flatMap(({ item: { id } }) =>
        ['year', 'shelf', 'targets', 'items'].map((at) => `/${at}/${id}`),
      ),
    ];
    const said: { readonly url: string; readonly words: string }[] = [];
    for (const url of urls) {
      const { status, body } = await this.visitor.open(url);
      if (status === 200 && /^\s*<!doctype/i.test(body)) said.push({ url, words: wordsOf(body) });
    }
    return said;
  }

  async notices(): Promise<readonly NoticeOnRecord[]> {
    return noticesNow(this.db, this.#own, { at: this.#clock.at, today: this.#today }, reference);
  }

  async year(): Promise<YearPicture> {
    return yearPicture(this.db, this.#own, this.#today, reference);
  }

  async loaded(): Promise<HouseholdYear> {
    return loadPlanningYear(this.db, this.#own, this.#today, reference);
  }

  /** Plans as the night does and keeps the plan; proven within two parts of a hundred. */
  async plan(): Promise<Plan> {
    this.#plans += 1;
    const { loaded, answer } = await planHousehold(this.db, this.#own, this.#today, reference, planYear, {
      gap: 0.02,
    });
    if (answer.outcome !== 'planned') throw new Error(`expected a plan; found ${answer.outcome}`);
    const { version: factsVersion } = loaded.facts;
    const at = this.#clock.at + this.#plans;
    await keepPlan(this.db, this.#own, { year: loaded.year, factsVersion, answer, at });
    return answer.plan;
  }

  get #own(): HouseholdId {
    if (this.#household === null) throw new Error('expected a household that was set up');
    return this.#household;
  }
}

/** Noon where the clocks are about six hours behind UTC: the same date all over North America. */
const noonOf = (today: CalendarDate): number => Date.parse(`${today}T18:00:00Z`);

const problemsIn = (html: string): string =>
  [...html.matchAll(/class="problem[^"]*"[^>]*>([\s\S]*?)<\/(?:p|span|li)>/g)]
    .map(([, words = '']) => words.replace(/<[^>]+>/g, ''))
    .join(' | ') ||
  html
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ')
    .slice(0, 500);
