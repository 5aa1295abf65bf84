import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openMailJob } from '../../../server/jobs/mail-job.ts';
import { smtpMailer } from '../../../server/mail/mailer.ts';
import { jobsOf } from '../../../server/queries/notices/jobs.ts';
import { letters } from '../../../server/queries/notices/letters.ts';
import { noticesToTell } from '../../../server/queries/notices/untold-notices.ts';
import { tryLetterAgain } from '../../../server/records/notices/letters.ts';
import { endMail, setMailWish } from '../../../server/records/notices/notice-settings.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { confirmWithoutLetter } from '../../builders/confirmed-address.ts';
import { factsChanged } from '../../builders/facts-changed.ts';
import { mailTurn } from '../../builders/mail-turn.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import { settledQuinceYard } from '../../builders/planned-quince-yard.ts';
import { greenBeans, quinceYard, shelve } from '../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../builders/visitor.ts';

const reference = loadReferenceTables();
const minute = 60_000;
const day = 24 * 60 * minute;
/** Monday, 17 August 2026, noon where Quince Yard lies. */
const monday = Date.UTC(2026, 7, 17, 18);

let pages: QuinceYardPages;
/** A mail server of this machine, with what it was given and whether it takes anything. */
let server: SMTPServer;
let received: string[];
let refuses: boolean;
let at: number;

beforeEach(async () => {
  received = [];
  refuses = false;
  at = monday;
  pages = await settledQuinceYard();
  server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onData(stream, _session, done) {
      let text = '';
      stream.on('data', (part: Buffer) => {
        text += part.toString('utf8');
      });
      stream.on('end', () => {
        if (refuses) {
          done(Object.assign(new Error('The box is full'), { responseCode: 452 }));
          return;
        }
        received.push(text);
        done();
      });
    },
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
});
afterEach(async () => {
  await new Promise<void>((closed) => server.close(closed));
  await pages.close();
});

const port = () => (server.server.address() as AddressInfo).port;
/** Letters are asked for, and the address is confirmed already. */
const wish = async (over: Partial<{ weekly: boolean; weekday: string; urgent: boolean }> = {}) => {
  const set = await setMailWish(pages.writer(), {
    address: 'pantry@example.org',
    weekly: true,
    weekday: '1',
    urgent: false,
    ...over,
  } as Parameters<typeof setMailWish>[1]);
  await confirmWithoutLetter(pages.db);
  return set;
};

/** One turn of the job at an instant. */
async function turn(instant = at): Promise<void> {
  at = instant;
  await mailTurn(pages.db, at, port());
}

/** Body text as the reader sees it: quoted-printable undone. */
const readable = (mail: string): string =>
  Buffer.from(
    mail
      .replace(/=\r\n/g, '')
      .replace(/=([0-9A-F]{2})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16))),
    'latin1',
  ).toString('utf8');

describe('the weekly letter', () => {
  it('is not written while nobody asked for letters', async () => {
    await turn();

    expect(received).toEqual([]);
    expect(await letters(pages.db, quinceYard, 10)).toEqual([]);
  });

  it('says what to eat first and what is new, as plain text and as HTML', async () => {
    worked(await wish());

    await turn();

    expect(received).toHaveLength(1);
    const mail = readable(received[0] ?? '');
    expect(mail).toContain('To: pantry@example.org');
    expect(mail).toContain('Subject: Quince Yard: the week from Aug 17, 2026');
    expect(mail).toContain('Content-Type: multipart/alternative');
    expect(mail).toContain('EAT FIRST');
    expect(mail).toMatch(/- Plum jam: 2 half-pints marked august-jam, best until Aug 30, 2026\./);
    expect(mail).toContain('<h2');
    expect(mail).toContain('http://pantry.test/notices/settings');
  });

  it('comes once a week, on its day or as soon after as the program runs', async () => {
    worked(await wish({ weekday: '3' }));

    await turn(monday);
    expect(received).toHaveLength(0);
    await turn(monday + 3 * day);
    expect(received).toHaveLength(1);
    await turn(monday + 4 * day);
    expect(received).toHaveLength(1);
    await turn(monday + 9 * day);
    expect(received).toHaveLength(2);
  });

  it('does not come at night', async () => {
    worked(await wish());

    // Two in the morning in Denver.
    await turn(Date.UTC(2026, 7, 17, 8));

    expect(received).toEqual([]);
  });

  it('tells nothing twice until it changes', async () => {
    worked(await wish());
    await turn();
    expect(await noticesToTell(pages.db, quinceYard)).toEqual([]);

    const [told] = await pages.db.selectFrom('notice').selectAll().where('state', '=', 'open').execute();
    await pages.db
      .updateTable('notice')
      .set({ reason: 'Something else now.', changed_at: at + minute })
      .where('id', '=', told?.id ?? '')
      .execute();

    expect((await noticesToTell(pages.db, quinceYard)).map(({ id }) => id)).toEqual([told?.id]);
  });
});

describe('an urgent letter', () => {
  it('tells at once what is due in two days or set aside, once, and leaves the rest', async () => {
    await shelve(pages.db, {
      id: 'doubtful',
      itemId: greenBeans,
      units: 3,
      madeOn: '2026-08-10',
      bestQualityUntil: '2027-08-10',
      jarKind: 'pint/regular',
      setAside: 'gauge found wrong',
    });
    worked(await wish({ weekly: false, urgent: true }));

    await turn();
    await turn(at + 5 * minute);

    expect(received).toHaveLength(1);
    const mail = readable(received[0] ?? '');
    expect(mail).toContain('does not wait');
    expect(mail).toContain('gauge found wrong');
    expect(mail).not.toContain('Eat soon');
  });
});

describe('a mail server that does not take a letter', () => {
  it('is tried again later, the failure is shown, and the letter arrives once', async () => {
    worked(await wish());
    refuses = true;
    await turn(monday);

    const [waiting] = await letters(pages.db, quinceYard, 1);
    expect(waiting).toMatchObject({ attempts: 1, sentAt: null, tryAt: monday + 5 * minute });
    expect(waiting?.failure).toContain('The box is full');
    expect(wordsOf((await pages.visitor.open('/notices/settings')).body)).toMatch(
      /could not be sent: .*The box is full.* Tried again/,
    );

    await turn(monday + 4 * minute);
    expect((await letters(pages.db, quinceYard, 1))[0]?.attempts).toBe(1);

    refuses = false;
    await turn(monday + 6 * minute);
    await turn(monday + 30 * minute);
    expect(received).toHaveLength(1);
    expect((await letters(pages.db, quinceYard, 5)).map(({ failure, sentAt }) => [failure, sentAt])).toEqual([
      [null, monday + 6 * minute],
    ]);
  });

  it('is given up after seven tries, and what it would have told is told by the next', async () => {
    worked(await wish());
    refuses = true;
    for (const wait of [0, 1, 2, 3, 4, 5, 6]) await turn(monday + wait * day + wait * minute);

    const [given] = await letters(pages.db, quinceYard, 1);
    expect(given).toMatchObject({ attempts: 7, tryAt: null, sentAt: null });
    expect((await noticesToTell(pages.db, quinceYard)).length).toBeGreaterThan(0);
  });

  it('that is not there at all is told too', async () => {
    worked(await wish());
    const mailer = smtpMailer({ smtp: 'smtp://127.0.0.1:1', from: 'pantry@localhost' });
    const job = openMailJob({
      db: pages.db,
      reference,
      now: () => at,
      mailer,
      address: 'http://pantry.test',
    });

    await job.run();
    await job.close();

    expect((await letters(pages.db, quinceYard, 1))[0]?.failure).toContain('ECONNREFUSED');
  });
});

describe('whether a letter is due', () => {
  it('is looked for at once where anything changed, and else no more often than every few minutes', async () => {
    worked(await wish());
    let looked = 0;
    const job = openMailJob({
      db: pages.db,
      reference,
      now: () => {
        looked += 1;
        return at;
      },
      mailer: { send: async () => {}, close: () => {} },
      address: 'http://pantry.test',
    });
    /** How often a round looks at its clock: once and again for a household that it looks at. */
    const round = async () => {
      looked = 0;
      await job.run();
      return looked;
    };
    await round();
    const idle = await round();
    const written = async () => (await letters(pages.db, quinceYard, 10)).length;
    expect(await written()).toBe(1);
    at += minute;
    expect(await round()).toBe(idle);

    // A fact, another wish, and the time.
    await factsChanged(pages.db);
    expect(await round()).toBeGreaterThan(idle);
    expect(await round()).toBe(idle);
    worked(await wish({ urgent: true }));
    expect(await round()).toBeGreaterThan(idle);
    expect(await round()).toBe(idle);
    at += 5 * minute;
    expect(await round()).toBeGreaterThan(idle);
    await job.close();
  });
});

describe('letters among the jobs', () => {
  const ofLetters = async () => (await jobsOf(pages.db, quinceYard)).filter(({ kind }) => kind === 'letter');

  it('stand in the history with their tries and what went wrong', async () => {
    worked(await wish());
    refuses = true;
    await turn();
    expect(await ofLetters()).toMatchObject([
      {
        forOn: '2026-08-17',
        attempts: 1,
        finishedAt: null,
        failure: expect.stringContaining('The box is full'),
      },
    ]);
    expect(wordsOf((await pages.visitor.open('/jobs')).body)).toMatch(
      /Letter 2026-08-17 .*The box is full.* 1/,
    );

    refuses = false;
    await turn(at + 6 * minute);

    expect(await ofLetters()).toMatchObject([{ attempts: 2, finishedAt: at, failure: null }]);
  });

  it('are sent by one runner alone while its lease stands, and by the next when it has run out', async () => {
    worked(await wish());
    refuses = true;
    await turn();
    refuses = false;
    await pages.db
      .updateTable('job')
      .set({
        leased_until: at + 6 * minute + 20_000,
        turn_at: at + 6 * minute + 20_000,
        leased_by: 'another runner',
      })
      .where('kind', '=', 'letter')
      .execute();

    await turn(at + 6 * minute);
    expect(received).toHaveLength(0);
    await turn(at + 2 * minute);
    expect(received).toHaveLength(1);
  });

  it('are not held up by the work of the night', async () => {
    worked(await wish());
    await pages.db
      .insertInto('job')
      .values({
        kind: 'replan',
        subject: quinceYard,
        for_on: '2026-08-17',
        due_at: at,
        leased_until: at + day,
      })
      .execute();

    await turn();

    expect(received).toHaveLength(1);
  });

  it('are tried again at once when somebody asks, also after they were given up', async () => {
    worked(await wish());
    refuses = true;
    for (const wait of [0, 1, 2, 3, 4, 5, 6]) await turn(monday + wait * day + wait * minute);
    refuses = false;
    const [given] = await letters(pages.db, quinceYard, 1);

    worked(await tryLetterAgain({ ...pages.writer(), at: at + minute }, given?.id ?? ''));
    await turn(at + minute);

    expect(received).toHaveLength(1);
    expect(refusalOf(await tryLetterAgain({ ...pages.writer(), at }, given?.id ?? '')).code).toBe(
      'letter-not-waiting',
    );
  });
});

describe('no more letters', () => {
  it('are written, and none that waits is sent', async () => {
    worked(await wish());
    refuses = true;
    await turn();

    worked(await endMail(pages.writer()));
    refuses = false;
    await turn(at + 8 * day);

    expect(received).toEqual([]);
  });
});
