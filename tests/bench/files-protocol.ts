import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { householdText } from '../../server/files/household-file.ts';
import { unfitValues } from '../../server/queries/household/unfit-values.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { asDate } from '../../shared/week.ts';
import { settledQuinceYard } from '../builders/planned-quince-yard.ts';
import { quinceYard } from '../builders/quince-yard.ts';
import { Visitor } from '../builders/visitor.ts';
import { dayOfAll, gateBase, liarHousehold } from './gate-files.ts';
import { walkTheGate } from './gate-walk.ts';
import { type Looks, Onlooker } from './onlooker.ts';
import { ServedFile } from './served-file.ts';
import { type Dice, diceOf, type Saved, spoiltHousehold, spoiltList } from './spoilt-files.ts';

// Household files and lists gone wrong, and household files that lie about what is canned, each sent as its form sends it to a
// server of its own while somebody else looks at the shelf. What is taken is then looked at: pages, plan, canning day, sheet.

export interface FilesProtocol {
  readonly files: number;
  readonly seed: number;
  readonly onProgress?: (sent: number) => void;
}

export interface FilesReport {
  readonly households: number;
  readonly lists: number;
  readonly liars: number;
  /** How many were answered by which status. */
  readonly statuses: Readonly<Record<string, number>>;
  /** Answers of 500, or with words of the inside. */
  readonly broken: readonly string[];
  /** Refused, and yet something was changed; or another household was. */
  readonly changed: readonly string[];
  /** Taken, and yet a page answers 500 or a value is stored that no form takes. */
  readonly wronglyTaken: readonly string[];
  /** A time that is no row of the food it is based on. */
  readonly wrongTimes: readonly string[];
  /** Times that were shown for the files that lie, and how many recipes and days were refused one. */
  readonly timesShown: number;
  readonly timesRefused: number;
  /** Somebody else at their shelf meanwhile, in a process of their own. */
  readonly onlooker: Looks;
  /** Longest work of the serving thread without a pause, ms of the processor, and for what. */
  readonly longestWorkMs: number;
  readonly longestWorkFor: string;
  /** Of the serving process. */
  readonly mostMemoryInMb: number;
}

const noon = Date.UTC(2026, 7, 17, 18);
const pagesLookedAt = ['/', '/shelf', '/items', '/targets', '/kitchen', '/year', '/harvest', '/files'];
const pagesOfGate = [
  `/canning-day/2026-W34?day=${dayOfAll}`,
  '/kitchen',
  '/items',
  '/stages',
  '/process-times?food=peaches&style=halved+or+sliced&pack=hot&jar=quart&method=boiling-water',
];
const ofTheInside = /SQLITE_|CHECK constraint|ZodError|better-sqlite3|at Object\.|node_modules/;

/** Everything but the notices: looking at a page brings those up to date. */
function factsOf(text: string): string {
  const { tables, ...rest } = JSON.parse(text) as Saved;
  const { notice: _, ...others } = tables;
  return JSON.stringify({ ...rest, tables: others });
}

/** Sends the files one after another. */
export async function sendSpoiltFiles(protocol: FilesProtocol): Promise<FilesReport> {
  const folder = mkdtempSync(join(tmpdir(), 'shelfward-files-'));
  const file = join(folder, 'shelf.sqlite');
  const prepared = await settledQuinceYard(file);
  const demo = await makeDemoHousehold(prepared.db, asDate('2026-08-12'));
  await prepared.close();
  const db = await openDatabase(file);
  const server = await ServedFile.start({ file, began: noon });
  try {
    const onlooker = await Onlooker.start({
      address: server.address,
      path: '/shelf',
      headers: { cookie: `household=${demo}` },
      pauseMs: 50,
    });
    const report = await new FilesRun(db, server, demo, protocol).all().finally(() => onlooker.close());
    return { ...report, onlooker: onlooker.looks };
  } finally {
    await server.close();
    await db.destroy();
    rmSync(folder, { recursive: true, force: true });
  }
}

class FilesRun {
  readonly #db: Database;
  readonly #server: ServedFile;
  readonly #demo: HouseholdId;
  readonly #protocol: FilesProtocol;
  readonly #dice: Dice;
  readonly #owner: Visitor;
  readonly #reference = loadReferenceTables();
  readonly #statuses: Record<string, number> = {};
  readonly #broken: string[] = [];
  readonly #changed: string[] = [];
  readonly #wronglyTaken: string[] = [];
  readonly #wrongTimes: string[] = [];
  readonly #counts = { households: 0, lists: 0, liars: 0 };
  #shown = 0;
  #refused = 0;
  #longestWorkMs = 0;
  #longestWorkFor = '';
  #mostMemoryInMb = 0;
  #keys = 0;
  #csrf = '';

  constructor(db: Database, server: ServedFile, demo: HouseholdId, protocol: FilesProtocol) {
    this.#db = db;
    this.#server = server;
    this.#demo = demo;
    this.#protocol = protocol;
    this.#dice = diceOf(protocol.seed);
    this.#owner = new Visitor(server, { household: quinceYard });
  }

  async all(): Promise<Omit<FilesReport, 'onlooker'>> {
    const { files, seed, onProgress } = this.#protocol;
    const saved = await this.#text(quinceYard);
    const demo = await this.#text(this.#demo);
    const base = gateBase(demo);
    const others = factsOf(demo);
    this.#csrf = /name="_csrf" value="([^"]+)"/.exec((await this.#owner.open('/files')).body)?.[1] ?? '';
    await this.#server.seen();
    for (let at = 0; at < files; at += 1) {
      const kind = this.#dice.below(3);
      const name = `${at} of seed ${seed}`;
      if (kind === 0) await this.#list(`list ${name}`);
      else if (kind === 1) await this.#spoilt(`household ${name}`, saved);
      else await this.#liar(`liar ${name}`, base);
      if ((at + 1) % 50 === 0 || at + 1 === files) {
        if (factsOf(await this.#text(this.#demo)) !== others)
          this.#changed.push(`another household by ${name}`);
        onProgress?.(at + 1);
      }
    }
    return {
      ...this.#counts,
      statuses: this.#statuses,
      broken: this.#broken,
      changed: this.#changed,
      wronglyTaken: this.#wronglyTaken,
      wrongTimes: this.#wrongTimes,
      timesShown: this.#shown,
      timesRefused: this.#refused,
      longestWorkMs: Math.round(this.#longestWorkMs),
      longestWorkFor: this.#longestWorkFor,
      mostMemoryInMb: Math.round(this.#mostMemoryInMb),
    };
  }

  #text(household: HouseholdId): Promise<string> {
    return householdText(this.#db, household);
  }

  #upload(url: string, fields: Readonly<Record<string, string>>, content: string) {
    this.#keys += 1;
    return this.#owner.upload(
      url,
      { _csrf: this.#csrf, key: `spoilt-file-${this.#keys}`, ...fields },
      content,
    );
  }

  async #send(what: string, url: string, fields: Readonly<Record<string, string>>, content: string) {
    const answer = await this.#upload(url, fields, content);
    this.#answered(what, answer);
    await this.#look(what);
    return answer;
  }

  #answered(what: string, { status, body }: { readonly status: number; readonly body: string }): void {
    this.#statuses[status] = (this.#statuses[status] ?? 0) + 1;
    if ((status >= 500 && status !== 503) || ofTheInside.test(body)) this.#broken.push(`${what}: ${status}`);
  }

  async #look(what: string): Promise<void> {
    const { longestWorkMs, mostMemoryInMb } = await this.#server.seen();
    if (longestWorkMs > this.#longestWorkMs) {
      this.#longestWorkMs = longestWorkMs;
      this.#longestWorkFor = what;
    }
    this.#mostMemoryInMb = Math.max(this.#mostMemoryInMb, mostMemoryInMb);
  }

  async #list(what: string): Promise<void> {
    this.#counts.lists += 1;
    const before = factsOf(await this.#text(quinceYard));
    const kind = this.#dice.oneOf(['stock', 'past use']);
    const answer = await this.#send(what, '/files/lists', { kind }, spoiltList(this.#dice));
    if (answer.status !== 303) return this.#unchanged(what, before);
    const shown = await this.#owner.open(answer.location);
    this.#answered(`${what}, looked at`, shown);
    const brought = await this.#owner.post(shown, `${answer.location}/import`, {
      key: `bring-in-${this.#keys}`,
      item: '0',
      units: '1',
      made: '2',
      day: '2',
      dates: 'year first',
    });
    this.#answered(`${what}, brought in`, brought);
    await this.#look(`${what}, brought in`);
    if (brought.status !== 303) return this.#unchanged(what, before);
    await this.#taken(what, pagesLookedAt);
  }

  async #spoilt(what: string, saved: string): Promise<void> {
    this.#counts.households += 1;
    const before = factsOf(await this.#text(quinceYard));
    const content = spoiltHousehold(saved, this.#dice);
    const answer = await this.#send(what, '/files/household', { sure: 'yes' }, content);
    if (answer.status !== 303) return this.#unchanged(what, before);
    await this.#taken(what, pagesLookedAt);
    await this.#back(what, saved);
  }

  async #liar(what: string, base: Saved): Promise<void> {
    this.#counts.liars += 1;
    const before = factsOf(await this.#text(quinceYard));
    const content = liarHousehold(base, this.#dice, this.#reference);
    const answer = await this.#send(what, '/files/household', { sure: 'yes' }, content);
    if (answer.status !== 303) return this.#unchanged(what, before);
    const { shown, refused, wrong } = await walkTheGate(this.#db, quinceYard, this.#reference, noon);
    this.#shown += shown;
    this.#refused += refused;
    this.#wrongTimes.push(...wrong.map((one) => `${what}: ${one}`));
    await this.#taken(what, pagesOfGate);
  }

  async #unchanged(what: string, before: string): Promise<void> {
    if (factsOf(await this.#text(quinceYard)) !== before) this.#changed.push(what);
  }

  async #taken(what: string, pages: readonly string[]): Promise<void> {
    for (const page of pages) {
      if ((await this.#owner.open(page)).status >= 500) this.#wronglyTaken.push(`${what}: ${page}`);
      await this.#look(`${what}: ${page}`);
    }
    if ((await unfitValues(this.#db, quinceYard)).length > 0) this.#wronglyTaken.push(what);
  }

  /** The household as it was, by its own saved file. */
  async #back(what: string, saved: string): Promise<void> {
    const { status } = await this.#upload('/files/household', { sure: 'yes' }, saved);
    if (status !== 303 || factsOf(await this.#text(quinceYard)) !== factsOf(saved))
      this.#changed.push(`${what}: not brought back (${status})`);
  }
}
