import type { AddressInfo } from 'node:net';
import PostalMime from 'postal-mime';
import { SMTPServer } from 'smtp-server';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { letters, mailWish } from '../../../server/queries/notices/letters.ts';
import { addressAsked } from '../../../server/records/notices/mail-confirmation.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { mailTurn } from '../../builders/mail-turn.ts';
import { settledQuinceYard } from '../../builders/planned-quince-yard.ts';
import { quinceYard } from '../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';
import { Visitor, wordsOf } from '../../builders/visitor.ts';

// Nothing but one letter with a link is sent to an address that nobody there has confirmed. Letters are read by postal-mime,
// an independent reader.

const reference = loadReferenceTables();
const day = 24 * 60 * 60_000;

let pages: QuinceYardPages;
let server: SMTPServer;
let received: { to: string; subject: string; text: string; html: string }[];
let at: number;
beforeEach(async () => {
  pages = await settledQuinceYard();
  at = pages.app.now();
  received = [];
  server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onData(stream, session, done) {
      const parts: Buffer[] = [];
      stream.on('data', (part: Buffer) => parts.push(part));
      stream.on('end', async () => {
        const { subject = '', text = '', html = '' } = await PostalMime.parse(Buffer.concat(parts));
        const to = session.envelope.rcptTo.map(({ address }) => address).join(' ');
        received.push({ to, subject, text, html });
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

/** One turn of the job that sends letters; answers what came, and where. */
async function turn(later = 0): Promise<readonly (readonly [to: string, subject: string])[]> {
  at += later;
  received = [];
  const { port } = server.server.address() as AddressInfo;
  await mailTurn(pages.db, at, port);
  return received.map(({ to, subject }) => [to, subject]);
}

const say = (address: string) =>
  pages.visitor.submitOn('/notices/settings', {
    form: '/notices/letters',
    fill: { address, weekday: '1', weekly: 'yes' },
  });
const ask = 'Shall letters of a Shelfward pantry come here?';
/** The link of the last letter. */
const link = () =>
  /http:\/\/pantry\.test\/mail-address#[\w-]{43}/.exec(received.at(-1)?.text ?? '')?.[0] ?? '';
const confirm = async (sent: string) => {
  const stranger = new Visitor(pages.app);
  const page = await stranger.openLink(sent);
  return page.status === 200 ? stranger.submit(page, { form: '/mail-address/confirmation' }) : page;
};

test('an address gets one letter, which says nothing that was typed, and all others once its link was opened', async () => {
  await say('first@example.org');

  expect(await turn()).toEqual([['first@example.org', ask]]);
  expect(received[0]?.text).not.toContain('Quince');
  expect(received[0]?.html).not.toContain('Quince');
  const first = link();
  expect(await turn(day)).toEqual([]);
  const file = JSON.stringify([
    await pages.db.selectFrom('letter').selectAll().execute(),
    await pages.db.selectFrom('mail_confirmation').selectAll().execute(),
  ]);
  expect(file).not.toContain(first.split('#')[1] ?? 'nothing');

  expect(wordsOf((await confirm(first)).body)).toContain('go to first@example.org from now on');

  expect((await turn()).map(([to]) => to)).toEqual(['first@example.org']);
  expect(received[0]?.subject).toMatch(/^Quince Yard: the week/);
  expect((await confirm(first)).status).toBe(404);
});

test('another address is asked while letters go where they went; then the last one is told, once', async () => {
  await say('first@example.org');
  await turn();
  await confirm(link());
  await turn();

  await say('second@example.org');
  expect(await turn()).toEqual([['second@example.org', ask]]);
  const second = link();
  expect((await turn(7 * day)).map(([to]) => to)).toEqual(['first@example.org']);
  // By then the link has ended: three days.
  expect(await addressAsked(pages.db, second.split('#')[1] ?? '', at)).toBeNull();
  const mail = { server: 'mail.example.org', from: 'us', look: () => undefined };
  const app = await buildApp({ db: pages.db, reference, now: () => at, mail });
  await new Visitor(app).submitOn('/notices/settings', { form: '/notices/letters/confirmation' });
  await app.close();
  await turn();
  expect((await confirm(link())).status).toBe(200);

  expect(await turn()).toEqual([['first@example.org', 'Quince Yard: letters go elsewhere now']]);
  expect((await turn(7 * day)).map(([to]) => to)).toEqual(['second@example.org']);
  expect(await mailWish(pages.db, quinceYard)).toMatchObject({
    address: 'second@example.org',
    isConfirmed: true,
  });
});

test('addresses of others are asked at most three times in a day, whoever types how many', async () => {
  const sent: string[] = [];
  for (let one = 0; one < 8; one += 1) {
    await say(`someone-${one}@example.org`);
    sent.push(...(await turn(60_000)).map(([to]) => to));
  }

  expect(sent).toEqual(['someone-0@example.org', 'someone-1@example.org', 'someone-2@example.org']);
  // The day after, the last one is asked.
  expect((await turn(day)).map(([to]) => to)).toEqual(['someone-7@example.org']);
});

test('the link of an address that was taken back opens nothing', async () => {
  await say('first@example.org');
  await turn();
  const first = link();

  await say('second@example.org');
  expect((await confirm(first)).status).toBe(404);
  await turn();
  const second = link();
  await pages.visitor.submitOn('/notices/settings', { form: '/notices/letters/end' });

  expect((await confirm(second)).status).toBe(404);
  expect(await turn(7 * day)).toEqual([]);
});

test('a letter that waits for an address nobody has confirmed stays where it is', async () => {
  await say('first@example.org');
  await turn();
  await confirm(link());
  await turn();
  await pages.db.updateTable('mail_wish').set({ confirmed_at: null }).execute();
  await pages.db.updateTable('letter').set({ sent_at: null }).execute();
  await pages.db
    .updateTable('job')
    .set({ finished_at: null, due_at: at })
    .where('kind', '=', 'letter')
    .execute();

  expect(await turn()).toEqual([]);
  expect((await letters(pages.db, quinceYard, 1))[0]?.failure).toBe(
    'Not sent yet: the address is not confirmed.',
  );
});
