import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { removeMember } from '../../../../server/access/members.ts';
import { householdText, restoreHousehold } from '../../../../server/files/household-file.ts';

import { ledgerOf } from '../../../../server/queries/shelf/ledger.ts';
import { deliverTakes } from '../../../../server/records/shelf/waiting-takes.ts';
import type { JarEvent } from '../../../../src/household/ledger.ts';
import { reference } from '../../../builders/canning-pages.ts';
import { member } from '../../../builders/furnished-household.ts';
import { worked } from '../../../builders/outcomes.ts';
import { plumJam, quinceYard, shelve, today } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { Thing } from '../../../builders/thing.ts';
import { Visitor, wordsOf } from '../../../builders/visitor.ts';

// Who took a jar: asked nowhere while the household does not want to know; else said by every way of taking.

let pages: QuinceYardPages;
let wilma: Visitor;
beforeEach(async () => {
  pages = await quinceYardPages();
  await shelve(pages.db, {
    id: 'jam-of-spring',
    itemId: plumJam,
    units: 30,
    madeOn: '2026-04-10',
    bestQualityUntil: '2027-04-10',
  });
  wilma = await comes('Wilma', 'owner');
});
afterEach(() => pages.close());

const comes = async (id: string, role: 'owner' | 'helper') =>
  new Visitor(pages.app, { 'sign-in': await member(pages.db, quinceYard, { id, role }, pages.app.now()) });
const wantsToKnow = async () => {
  const otto = await comes('Otto', 'helper');
  expect((await wilma.submitOn('/people', { form: '/people/who-took' })).location).toBe('/people#who-took');
  return otto;
};
const takes = async (): Promise<readonly JarEvent[]> =>
  (await ledgerOf(pages.db, quinceYard, { itemId: plumJam })).filter(({ units }) => units < 0);
const takers = async () => (await takes()).map(({ takenBy }) => takenBy);
const one = { form: '/shelf/plum-jam/takes', fill: { outcome: 'took-one' } };

/** Every way a unit leaves the shelf, said by nobody in particular and, where it can be, for another. */
const ways: Readonly<Record<string, (otto: Visitor) => Promise<unknown>>> = {
  'the shelf': () => wilma.submitOn('/shelf', one),
  'the item’s page': () => wilma.submitOn('/shelf/plum-jam', one),
  'a label’s code': () => wilma.submitOn('/shelf/plum-jam?lot=jam-of-spring', one),
  'another’s own phone': (otto) => otto.submitOn('/shelf', { ...one, asPart: true }),
  'given away': () => wilma.submitOn('/shelf', { ...one, fill: { outcome: 'given-away' } }),
  'a jar found unsealed': () =>
    wilma.submitOn('/found-unsealed?lot=jam-of-spring', {
      form: '/found-unsealed',
      fill: { lotId: 'jam-of-spring', units: '1', state: 'swollen' },
    }),
  'for another, on the shelf': () =>
    wilma.submitOn('/shelf', { ...one, fill: { who: 'Otto', units: '2', day: 'yesterday' } }),
  'for another, on the item’s page': () =>
    wilma.submitOn('/shelf/plum-jam', { ...one, fill: { who: 'Otto' } }),
};

describe('who took a jar', () => {
  it('is asked nowhere and kept nowhere while nobody wants to know', async () => {
    const otto = await comes('Otto', 'helper');
    for (const way of Object.values(ways)) await way(otto);

    expect(await takers()).toEqual(Object.keys(ways).map(() => null));
    for (const address of ['/shelf', '/shelf/plum-jam', '/look-back'])
      expect(wordsOf((await wilma.open(address)).body)).not.toMatch(/Otto|took it|who took/i);
  });

  it('takes a second member, and an owner who wants it', async () => {
    expect((await wilma.open('/people')).body).not.toContain('/people/who-took');
    const alone = await wilma.post(await wilma.open('/people'), '/people/who-took', { wanted: 'yes' });
    expect(alone.status).toBe(422);
    expect(wordsOf(alone.body)).toContain('To say who took a jar takes two members');

    const otto = await comes('Otto', 'helper');
    const refused = await otto.post(await otto.open('/people'), '/people/who-took', { wanted: 'yes' });
    expect(refused.status).toBe(403);
    await wilma.submitOn('/people', { form: '/people/who-took' });
    expect(wordsOf((await otto.open('/people')).body)).toContain('Each take says who took it');
    await wilma.submitOn('/people', { form: '/people/who-took' });
    expect(wordsOf((await otto.open('/people')).body)).toContain('Nothing says who took a jar');
  });

  it('is said by every way of taking, the one signed in unless another is named', async () => {
    const otto = await wantsToKnow();
    for (const way of Object.values(ways)) await way(otto);

    expect(await takers()).toEqual([...'WWWOWWOO'].map((letter) => (letter === 'W' ? 'Wilma' : 'Otto')));
    expect((await takes()).map(({ units, kind }) => `${units} ${kind}`)).toEqual([
      ...['-1 taken', '-1 taken', '-1 taken', '-1 taken', '-1 given away', '-1 discarded'],
      ...['-2 taken', '-1 taken'],
    ]);
    expect((await takes()).every(({ trainsUse, kind }) => trainsUse === (kind === 'taken'))).toBe(true);
  });

  it('is one tap more for another: each other member stands under More, and nobody stands there twice', async () => {
    const otto = await wantsToKnow();
    const buttons = ({ body }: { readonly body: string }) => [
      ...new Set([...body.matchAll(/name="who" value="([^"]+)"/g)].map(([, name]) => name)),
    ];

    expect(buttons(await wilma.open('/shelf'))).toEqual(['Otto']);
    expect(buttons(await otto.open('/shelf'))).toEqual(['Wilma']);
    expect(buttons(await otto.open('/shelf/plum-jam'))).toEqual(['Wilma']);
  });

  it('refuses somebody who is no member, beside the form, and takes nothing', async () => {
    await wantsToKnow();
    const answer = await wilma.submitOn('/shelf', { ...one, fill: { who: 'Gundula' } });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(
      'Who took it is a member of this household, not “Gundula”. Choose one of: Otto, Wilma.',
    );
    expect(await takes()).toEqual([]);
  });

  it('is told where it was just taken, in the item’s history, on Look back and in both files', async () => {
    await wantsToKnow();
    await wilma.submitOn('/shelf', one);
    await wilma.submitOn('/shelf', { ...one, fill: { who: 'Otto', units: '2' } });
    await wilma.submitOn('/shelf', { ...one, fill: { who: 'Otto' } });

    expect(wordsOf((await wilma.open('/shelf')).body)).toContain('Otto took 1 half-pint of Plum jam');
    const item = wordsOf((await wilma.open('/shelf/plum-jam')).body);
    expect(item).toContain('who took it');
    expect(item).toMatch(/taken −2 jam-of-spring Otto/);
    expect(wordsOf((await wilma.open('/look-back')).body)).toContain('Who took it: Otto 2 and Wilma 1');
    expect((await wilma.open('/files/ledger.csv')).body).toMatch(/taken,-2,yes,,,Otto\r\n/);
    expect(await householdText(pages.db, quinceYard)).toContain('"taken_by":"Otto"');
  });

  it('keeps the name of a member who is gone, and comes back with the household’s file', async () => {
    await wantsToKnow();
    await wilma.submitOn('/shelf', { ...one, fill: { who: 'Otto' } });
    const text = await householdText(pages.db, quinceYard);
    worked(await removeMember(pages.db, quinceYard, 'Otto'));

    expect(wordsOf((await wilma.open('/shelf/plum-jam')).body)).toContain('Otto took 1 half-pint');
    expect((await wilma.open('/shelf')).body).not.toContain('value="Otto"');
    worked(await restoreHousehold(pages.writer(), Buffer.from(text), { reference }));
    expect(await takers()).toEqual(['Otto']);
  });

  it('comes with what waited on a device, also for a member who has gone meanwhile', async () => {
    await wantsToKnow();
    const waiting = (at: number, over: Record<string, unknown>) => ({
      key: `device-take-${at}`,
      household: quinceYard,
      person: 'Wilma',
      itemId: plumJam,
      lotId: null,
      units: '1',
      outcome: 'taken',
      occurredOn: today,
      deviceAt: at,
      ...over,
    });
    worked(await removeMember(pages.db, quinceYard, 'Otto'));
    const states = await deliverTakes(
      { ...pages.writer(), by: 'Wilma' },
      [waiting(1, { outcome: 'took-one' }), waiting(2, { who: 'Otto' }), waiting(3, { who: '' })],
      'Wilma',
    );

    expect(states.map(({ state }) => state)).toEqual(['counted', 'counted', 'counted']);
    expect(await takers()).toEqual(['Wilma', 'Otto', 'Wilma']);
  });

  it('is taken from a connected thing as it says, a member however the name is spelled, else as it was sent', async () => {
    const thing = await Thing.of(pages.app, pages.db, quinceYard, { name: 'Hall clock' });
    await thing.write('/takes', { item: plumJam, who: 'Otto' });
    await wantsToKnow();
    for (const who of [{ who: 'otto' }, { who: 'Grandmother' }, {}])
      expect((await thing.write('/takes', { item: plumJam, ...who })).status).toBe(201);

    expect(await takers()).toEqual([null, 'Otto', 'Grandmother', null]);
  });
});
