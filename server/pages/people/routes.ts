import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { counted, isOrAre } from '../../../shared/counting.ts';
import type { Outcome, Problem } from '../../../shared/problems.ts';
import { factorRequirementForm, invitationForm, whoTookForm } from '../../../shared/schemas/account.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { AccountEventsPage } from '../../../views/pages/people/account-events-page.tsx';
import { PeoplePage } from '../../../views/pages/people/people-page.tsx';
import { listed } from '../../../views/words/sentences.ts';
import { type ThingOnList, thingsOf } from '../../access/connected-things.ts';
import { askFactor, factorRequirement } from '../../access/factor-requirement.ts';
import { invite } from '../../access/invitations.ts';
import { linkPages, linkTo } from '../../access/links.ts';
import { changeRole, membersOf, removeMember } from '../../access/members.ts';
import { roles, roleWords } from '../../access/roles.ts';
import { securityEventsOf } from '../../access/security-events.ts';
import { addressHere } from '../../plugins/app/own-name.ts';
import { sayWhoTook } from '../../records/household/say-who-took.ts';
import { clockWords } from '../../words/clock-words.ts';
import { fieldsFrom, sentBackOf, statesFrom } from '../shared/answer-form.ts';
import { recordingOf, seeOther, statusOf } from '../shared/posting.ts';
import { isSelf } from './own-account-routes.ts';

/** So many of the last events are shown. */
const eventsShown = 200;

const people: FastifyPluginAsync = async (app) => {
  app.get('/people', (request, reply) => send(request, reply, { message: said[sentQuery(request)] ?? null }));

  app.get('/people/events', async (request, reply) => {
    const clock = clockWords(request);
    const events = await securityEventsOf(app.db, request.household.id, eventsShown);
    return reply.page(AccountEventsPage, {
      frame: await reply.frame(),
      events: events.map(({ seq, at, who, words, device, address }) => ({
        id: String(seq),
        when: clock(at),
        who: who ?? 'somebody',
        what: words,
        from: `${device}, ${address}`,
      })),
    });
  });

  app.post('/people/invitations', async (request, reply) => {
    const asked = readForm(invitationForm, request.body);
    if (!asked.ok) return send(request, reply, { problems: asked.problems, status: 422 });
    if (request.person === null) return seeOther(reply, '/people');
    const token = await invite(app.db, request.household.id, asked.value.role, app.now());
    await request.noteSecurity('invited', { householdId: request.household.id });
    return send(request, reply, { link: linkTo(addressHere(request), linkPages.invitation, token) });
  });

  app.post('/people/second-factor', async (request, reply) => {
    const { person, household } = request;
    if (person === null) return seeOther(reply, '/people');
    const asked = readForm(factorRequirementForm, request.body);
    const known = asked.ok ? await isSelf(request, person, asked.value.present) : asked;
    if (!asked.ok || !known.ok)
      return send(request, reply, { problems: asked.ok ? problemsOf(known) : asked.problems, status: 422 });
    const wanted = asked.value.wanted === 'yes';
    const done = await askFactor(app.db, household.id, person, { wanted, now: app.now() });
    if (!done.ok) return send(request, reply, { problems: done.problems, status: 422 });
    await request.noteSecurity(wanted ? 'factor-required' : 'factor-not-required', {
      householdId: household.id,
    });
    return seeOther(reply, '/people#second-factor');
  });

  app.post('/people/who-took', async (request, reply) => {
    const asked = readForm(whoTookForm, request.body);
    const done = asked.ok ? await sayWhoTook(recordingOf(request), asked.value.wanted === 'yes') : asked;
    if (!done.ok) return send(request, reply, { problems: done.problems, status: statusOf(done.problems) });
    return seeOther(reply, '/people#who-took');
  });

  app.post<{ Params: { person: string } }>('/people/:person/role', async (request, reply) => {
    const asked = readForm(invitationForm, request.body);
    if (!asked.ok) return send(request, reply, { problems: asked.problems, status: 422 });
    const { id } = request.household;
    const changed = await changeRole(app.db, id, request.params.person, asked.value.role);
    if (changed.ok) {
      await request.noteSecurity('role-changed', { householdId: id });
      if (changed.value.thingsWithdrawn === 0) return seeOther(reply, '/people');
      await request.noteSecurity('thing-withdrawn', { householdId: id });
      return seeOther(reply, '/people?said=withdrawn');
    }
    if (changed.problems[0]?.code === 'member-unknown') return reply.callNotFound();
    return send(request, reply, { problems: changed.problems, status: statusOf(changed.problems) });
  });

  app.post<{ Params: { person: string } }>('/people/:person/removal', async (request, reply) => {
    const removed = await removeMember(app.db, request.household.id, request.params.person);
    if (removed.ok) {
      await request.noteSecurity('member-removed', { householdId: request.household.id });
      const { calendarRenewed, thingsWithdrawn } = removed.value;
      if (thingsWithdrawn > 0)
        await request.noteSecurity('thing-withdrawn', { householdId: request.household.id });
      const told = `${calendarRenewed ? 'renewed' : ''}${thingsWithdrawn > 0 ? 'withdrawn' : ''}`;
      return seeOther(reply, told === '' ? '/people' : `/people?said=${told}`);
    }
    const [first] = removed.problems;
    if (first?.code === 'member-unknown') return reply.callNotFound();
    return send(request, reply, { problems: removed.problems, status: statusOf(removed.problems) });
  });
};

export default people;

const problemsOf = (outcome: Outcome<unknown>): readonly Problem[] => (outcome.ok ? [] : outcome.problems);

const seeThings = { words: 'See what is connected', href: '/connected-things' };
const said: Readonly<Record<string, Message>> = {
  renewed: {
    tone: 'done',
    text: 'That member no longer belongs here. The calendar has a new address, because the member may know the last one; tell it to your calendar programs.',
    action: { words: 'See the new address', href: '/calendar' },
  },
  withdrawn: {
    tone: 'done',
    text: 'What that member had connected is withdrawn, because the member may have kept its access tokens. Connect again what should go on.',
    action: seeThings,
  },
  renewedwithdrawn: {
    tone: 'done',
    text: 'That member no longer belongs here. What the member had connected is withdrawn, and the calendar has a new address; connect things again, and tell the address to your calendar programs.',
    action: seeThings,
  },
};

const sentQuery = ({ url }: FastifyRequest): string =>
  new URL(url, 'http://localhost').searchParams.get('said') ?? '';

const thingsWords = (things: readonly ThingOnList[]): string =>
  things.length === 0
    ? 'A display on the fridge or a home server can read the shelf. Nothing is connected.'
    : `${counted(things.length, 'thing')} of your own ${isOrAre(things.length)} connected: ${listed(things.map(({ name }) => name))}.`;

interface Shown {
  readonly link?: string;
  readonly message?: Message | null;
  readonly problems?: readonly Problem[];
  readonly status?: number;
}

async function send(
  request: FastifyRequest,
  reply: FastifyReply,
  { link, message = null, problems = [], status = 200 }: Shown = {},
): Promise<FastifyReply> {
  const { db } = request.server;
  const members = await membersOf(db, request.household.id);
  const isOpen = members.length === 0;
  const requirement = await factorRequirement(db, request.household.id);
  const clock = clockWords(request);
  const owns = !isOpen && request.role === 'owner';
  const keys = reply.formKeys();
  const sentBack = sentBackOf(request, problems, { formId: 'second-factor' });
  const whole = fieldsFrom(sentBack)('second-factor', {}).problems[''];
  return reply.page(
    PeoplePage,
    {
      frame: await reply.frame(whole === undefined ? message : { tone: 'problem', text: whole }),
      line: isOpen
        ? 'Anyone at this computer sees this household; nobody elsewhere does. Set a passphrase to keep others out.'
        : 'Only its members see this household.',
      isOpen: isOpen && !request.household.isDemo,
      members: members.map(({ personId, name, role }) => ({
        id: personId,
        name,
        role: roleWords[role],
        roles: owns ? { value: role, choices: roles.map((value) => ({ value, words: value })) } : null,
        keys: owns ? keys : null,
      })),
      invite: owns ? { keys, roles: roles.map((value) => ({ value, words: roleWords[value] })) } : null,
      factor: isOpen
        ? null
        : {
            words:
              requirement === null
                ? 'Each member chooses whether a code is asked for beside the passphrase.'
                : `A second factor is asked of every member, as ${requirement.byName} said on ${clock(requirement.requiredAt)}.`,
            isAsked: requirement !== null,
            form:
              owns && request.person !== null
                ? statesFrom(() => reply.formKeys(), sentBack)('second-factor', { present: '' })
                : null,
          },
      whoTook:
        !request.household.saysWhoTook && members.length < 2
          ? null
          : {
              isSaid: request.household.saysWhoTook,
              keys: owns ? reply.formKeys() : null,
            },
      things: request.role === 'owner' ? thingsWords(await thingsOf(db, request.household.id)) : null,
      link: link ?? null,
      self: request.person === null ? null : { name: request.person.name, keys },
    },
    status,
  );
}
