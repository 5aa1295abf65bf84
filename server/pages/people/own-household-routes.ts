import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { HouseholdId } from '../../../shared/ids.ts';
import type { Problem } from '../../../shared/problems.ts';
import { householdRemovalForm } from '../../../shared/schemas/account.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { DeleteHouseholdPage } from '../../../views/pages/people/delete-household-page.tsx';
import { OwnHouseholdsPage } from '../../../views/pages/people/own-households-page.tsx';
import { mayBegin } from '../../access/begin-permission.ts';
import { guessesWait } from '../../access/passphrase-change.ts';
import { checkPresent } from '../../access/sign-in-check.ts';
import { chooseHousehold } from '../../plugins/app/household.ts';
import { type DeletedHousehold, deletedHouseholds } from '../../queries/household/household.ts';
import {
  bringHouseholdBack,
  deletedStaysMs,
  deleteHousehold,
} from '../../records/household/household-deletion.ts';
import { clockWords } from '../../words/clock-words.ts';
import { sentBackOf, statesFrom } from '../shared/answer-form.ts';
import { seeOther, statusOf } from '../shared/posting.ts';

/** The households somebody belongs to, how one is deleted, and how it comes back within seven days. */
const ownHouseholds: FastifyPluginAsync = async (app) => {
  app.get('/households', (request, reply) => sendList(request, reply));

  app.get('/households/removal', async (request, reply) =>
    request.household.isDemo ? reply.callNotFound() : sendRemoval(request, reply),
  );

  app.post('/households/removal', async (request, reply) => {
    const { household, person } = request;
    // The invented household is there to look around in; it is made once and stays.
    if (household.isDemo) return reply.callNotFound();
    const asked = readForm(householdRemovalForm, request.body);
    if (!asked.ok) return sendRemoval(request, reply, asked.problems);
    if (asked.value.name.trim() !== household.name) return sendRemoval(request, reply, [otherName]);
    if (person !== null) {
      const known = await checkPresent(app.db, person, asked.value.present, app.now());
      if (known.answer !== 'known')
        return sendRemoval(request, reply, [known.answer === 'wait' ? guessesWait : otherPassphrase]);
    }
    await app.planJob?.cancel(household.id);
    await deleteHousehold(app.db, household.id, person?.name ?? 'whoever sits at this machine', app.now());
    await request.noteSecurity('household-deleted', { householdId: household.id });
    return seeOther(reply, '/households');
  });

  app.post<{ Params: { household: string } }>('/households/:household/return', async (request, reply) => {
    const wanted = (await deletedFor(request)).find(({ id }) => id === request.params.household);
    if (wanted === undefined || !owns(request, wanted.id)) return reply.callNotFound();
    const back = await bringHouseholdBack(app.db, wanted.id, app.now());
    if (!back.ok) return reply.callNotFound();
    await request.noteSecurity('household-returned', { householdId: wanted.id });
    return seeOther(chooseHousehold(reply, wanted.id), '/');
  });
};

export default ownHouseholds;

const otherName: Problem = {
  code: 'name-other',
  path: ['name'],
  message: 'That is not the name of this household as it is written above. Nothing was deleted.',
};
const otherPassphrase: Problem = {
  code: 'passphrase-wrong',
  path: ['present'],
  message: 'That is not your present passphrase. Nothing was deleted.',
};

/** What was deleted and is this person's to know: as a member, or on this machine alone where nobody owns it. */
async function deletedFor({ server, person }: FastifyRequest): Promise<readonly DeletedHousehold[]> {
  const all = await deletedHouseholds(server.db);
  return all.filter(({ id, hasMembers }) =>
    hasMembers ? person?.roleIn.has(id) === true : !server.beyondLoopback,
  );
}

const owns = ({ person }: FastifyRequest, id: HouseholdId): boolean => {
  const role = person?.roleIn.get(id);
  return role === undefined || role === 'owner';
};

async function sendList(request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  const { server, person, visibleHouseholds } = request;
  const clock = clockWords(request);
  return reply.page(OwnHouseholdsPage, {
    frame: await reply.frame(),
    households: visibleHouseholds.map(({ id, name }) => ({ id, name, keys: reply.formKeys() })),
    deleted: (await deletedFor(request)).map(({ id, name, by, at }) => ({
      id,
      name,
      words: `${name} was deleted by ${by} on ${clock(at)}. It is kept until ${clock(at + deletedStaysMs)} and then gone.`,
      keys: owns(request, id) ? reply.formKeys() : null,
    })),
    mayBegin: await mayBegin(server.db, person, server.beyondLoopback),
  });
}

async function sendRemoval(
  request: FastifyRequest,
  reply: FastifyReply,
  problems: readonly Problem[] = [],
): Promise<FastifyReply> {
  return reply.page(
    DeleteHouseholdPage,
    {
      frame: await reply.frame(),
      name: request.household.name,
      asksPassphrase: request.person !== null,
      form: statesFrom(() => reply.formKeys(), sentBackOf(request, problems, { formId: 'removal' }))(
        'removal',
        { name: '', present: '' },
      ),
    },
    problems.length === 0 ? 200 : statusOf(problems),
  );
}
