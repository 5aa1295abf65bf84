import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '../../shared/problems.ts';
import { invitationForm, passphraseForm } from '../../shared/schemas/account.ts';
import { readForm } from '../../shared/schemas/form-fields.ts';
import { PeoplePage } from '../../views/pages/people/people-page.tsx';
import { changePassphrase, invite, membersOf, removeMember } from '../access/members.ts';
import { roles, roleWords } from '../access/roles.ts';
import { checkSignIn } from '../access/sign-ins.ts';
import { fieldProblems } from '../presenters/field-problems.ts';
import { seeOther, statusOf } from './posting.ts';

const people: FastifyPluginAsync = async (app) => {
  app.get('/people', (request, reply) => send(request, reply));

  app.post('/people/invitations', async (request, reply) => {
    const asked = readForm(invitationForm, request.body);
    if (!asked.ok) return send(request, reply, { problems: asked.problems, status: 422 });
    if (request.person === null) return seeOther(reply, '/people');
    const token = await invite(app.db, request.household.id, asked.value.role, app.now());
    return send(request, reply, {
      link: `${request.protocol}://${request.host}/invitations/${token}`,
    });
  });

  app.post<{ Params: { person: string } }>('/people/:person/removal', async (request, reply) => {
    const removed = await removeMember(app.db, request.household.id, request.params.person);
    if (removed.ok) return seeOther(reply, '/people');
    const [first] = removed.problems;
    if (first?.code === 'member-unknown') return reply.callNotFound();
    return send(request, reply, { problems: removed.problems, status: statusOf(removed.problems) });
  });

  app.post('/people/self/passphrase', async (request, reply) => {
    const { person } = request;
    if (person === null) return seeOther(reply, '/people');
    const asked = readForm(passphraseForm, request.body);
    if (!asked.ok) return send(request, reply, { problems: asked.problems, status: 422 });
    const { present, passphrase } = asked.value;
    const checked = await checkSignIn(
      app.db,
      { name: person.name, passphrase: present, address: request.ip },
      app.now(),
    );
    if (checked.answer !== 'known') {
      const problem = {
        code: 'passphrase-wrong',
        path: ['present'],
        message: 'Expected your present passphrase; this is another. Nothing was changed.',
      };
      return send(request, reply, { problems: [problem], status: 422 });
    }
    await changePassphrase(app.db, person.id, passphrase);
    return seeOther(reply, '/sign-in');
  });
};

export default people;

interface Shown {
  readonly link?: string;
  readonly problems?: readonly Problem[];
  readonly status?: number;
}

async function send(
  request: FastifyRequest,
  reply: FastifyReply,
  { link, problems = [], status = 200 }: Shown = {},
): Promise<FastifyReply> {
  const { db } = request.server;
  const members = await membersOf(db, request.household.id);
  const isOpen = members.length === 0;
  const owns = !isOpen && request.role === 'owner';
  const keys = reply.formKeys();
  const fields = fieldProblems(problems, ['present', 'passphrase']);
  const whole = fields[''];
  return reply.page(
    PeoplePage,
    {
      frame: await reply.frame(whole === undefined ? null : { tone: 'problem', text: whole }),
      line: isOpen
        ? 'Whoever sits at this machine sees this household; nobody elsewhere does. A passphrase closes it to others.'
        : 'Only its members see this household.',
      isOpen: isOpen && !request.household.isDemo,
      members: members.map(({ personId, name, role }) => ({
        id: personId,
        name,
        role: roleWords[role],
        keys: owns ? keys : null,
      })),
      invite: owns ? { keys, roles: roles.map((value) => ({ value, words: roleWords[value] })) } : null,
      link: link ?? null,
      self: request.person === null ? null : { name: request.person.name, keys },
      problems: fields,
    },
    status,
  );
}
