import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { HouseholdId } from '../../shared/ids.ts';
import { type JarKind, jarKind } from '../../shared/jar.ts';
import { feetPerMetre } from '../../shared/measures.ts';
import { found, type Outcome, type Problem, refused, ShelfwardError } from '../../shared/problems.ts';
import { firstOwnerForm } from '../../shared/schemas/account.ts';
import { appetiteOf, firstHourForm, readOften } from '../../shared/schemas/first-hour.ts';
import { readForm, typedValues } from '../../shared/schemas/form-fields.ts';
import { isTimeZone, type locales } from '../../shared/schemas/kitchen.ts';
import { dateInZone } from '../../shared/week.ts';
import { FirstHourPage } from '../../views/pages/start/first-hour-page.tsx';
import { addMember, closeHousehold, unfitOwner } from '../access/members.ts';
import { makeDemoHousehold } from '../demo/make-demo.ts';
import { chooseHousehold } from '../plugins/app/household.ts';
import { fieldProblems } from '../presenters/field-problems.ts';
import {
  type FirstHourSentBack,
  firstHourFields,
  presentFirstHour,
  regionTimeZone,
} from '../presenters/first-hour.ts';
import { households } from '../queries/household.ts';
import { madeUnder } from '../records/create-household.ts';
import { type FirstHour, startHousehold } from '../records/start-household.ts';
import { firstYear } from '../reference/first-year.ts';
import { seeOther, sentText, statusOf } from './posting.ts';
import { letIn } from './sign-in.ts';

/** Where the invented household lives, for the day it opens its book on. */
const demoTimeZone = 'America/New_York';

const start: FastifyPluginAsync = async (app) => {
  app.get('/start', async (request, reply) => sendStart(request, reply, null, 200));

  app.post('/start', async (request, reply) => {
    const [read, owner] = [readFirstHour(request), await readOwner(request)];
    const hour = read.ok && owner.ok ? read : refused(...problemsOf(read), ...problemsOf(owner));
    const outcome = hour.ok ? await begin(request, hour.value) : hour;
    if (outcome.ok) {
      const { householdId } = outcome.value;
      if (request.person !== null)
        await addMember(app.db, householdId, request.person.id, 'owner', app.now());
      const settled =
        owner.ok && owner.value !== null
          ? await settleOwner(request, reply, householdId, owner.value)
          : found(null);
      app.planJob?.start(householdId);
      const next = settled.ok ? '/?said=started' : '/people/owner';
      return seeOther(chooseHousehold(reply, householdId), next);
    }

    const values = typedValues(request.body);
    const liked = firstYear().preserves.map(({ recipeKey }) => `eats-${recipeKey}`);
    const problems = fieldProblems(outcome.problems, [...firstHourFields, ...ownerFields, ...liked]);
    return sendStart(request, reply, { values, problems }, statusOf(outcome.problems));
  });

  app.post('/start/demo', async (_request, reply) => {
    // The invented household has no owner, so it stays on this machine.
    if (app.beyondLoopback)
      throw new ShelfwardError('not-found', 'start: the demo is open on this machine only');
    const there = (await households(app.db)).find(({ isDemo }) => isDemo);
    const demo = there?.id ?? (await makeDemoHousehold(app.db, dateInZone(app.now(), demoTimeZone)));
    if (there === undefined) app.planJob?.start(demo);

    return seeOther(chooseHousehold(reply, demo), '/');
  });

  app.post<{ Params: { household: string } }>('/start/households/:household', async (request, reply) => {
    const wanted = request.visibleHouseholds.find(({ id }) => id === request.params.household);
    if (!wanted) throw new ShelfwardError('not-found', `start: no household ${request.params.household}`);

    return seeOther(chooseHousehold(reply, wanted.id), '/');
  });
};

export default start;

const begin = (request: FastifyRequest, hour: FirstHour) =>
  startHousehold(
    {
      db: request.server.db,
      reference: request.server.reference,
      key: sentText(request, 'key'),
      at: request.server.now(),
      today: dateInZone(request.server.now(), hour.household.timeZone),
    },
    hour,
  );

interface FirstOwner {
  readonly name: string;
  readonly passphrase: string;
}

const ownerFields = ['owner', 'passphrase'] as const;

const problemsOf = (outcome: Outcome<unknown>): readonly Problem[] => (outcome.ok ? [] : outcome.problems);

/** Who sets the household up and with which passphrase; null where neither is said, or somebody is signed in already. */
async function readOwner(request: FastifyRequest): Promise<Outcome<FirstOwner | null>> {
  const isSaid = ownerFields.some((field) => sentText(request, field) !== '');
  if (request.person !== null || !isSaid) return found(null);
  const asked = readForm(firstOwnerForm, request.body);
  if (!asked.ok) return asked;
  const { owner: name, passphrase } = asked.value;
  // Sent again, the name is in use because the first sending put it to use.
  if ((await madeUnder(request.server.db, sentText(request, 'key'))) !== null)
    return found({ name, passphrase });
  const unfit = await unfitOwner(request.server.db, { name, passphrase }, sentText(request, 'name'));
  if (unfit === null) return found({ name, passphrase });
  return refused({ ...unfit, path: unfit.path[0] === 'name' ? ['owner'] : unfit.path });
}

/** From now on nobody sees the household without signing in; this browser is signed in. Refused, it is still open. */
async function settleOwner(
  request: FastifyRequest,
  reply: FastifyReply,
  householdId: HouseholdId,
  owner: FirstOwner,
): Promise<Outcome<null>> {
  const closed = await closeHousehold(request.server.db, householdId, owner, request.server.now());
  // Sent twice: the first sending has settled it.
  if (!closed.ok)
    return closed.problems.some(({ code }) => code === 'household-closed') ? found(null) : closed;
  const { personId } = closed.value;
  await letIn(request, reply, personId);
  await request.noteSecurity('household-closed', { personId, householdId });
  return found(null);
}

const ownTimeZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The whole form, or everything in it that has to be mended. */
function readFirstHour(request: FastifyRequest): Outcome<FirstHour> {
  const asked = readForm(firstHourForm, request.body);
  const preserves = readPreserves(request);
  if (!asked.ok || !preserves.ok)
    return refused(...(asked.ok ? [] : asked.problems), ...(preserves.ok ? [] : preserves.problems));
  const said = asked.value;
  const region = said.region === '' ? null : said.region;
  const timeZone = said.timeZone || (regionTimeZone(region) ?? ownTimeZone());
  const problems: Problem[] = [];
  const mend = (field: string, message: string) =>
    problems.push({ code: 'form.field', path: [field], message });
  if (region !== null && !request.server.reference.harvestWindows.some((row) => row.region === region))
    mend('region', `Region must be one of the list; found “${region}”. Choose one, or leave it open.`);
  if (!isTimeZone(timeZone))
    mend(
      'timeZone',
      `Time zone must be a name like America/Chicago; you wrote “${timeZone}”. Correct it, or leave it empty.`,
    );
  else if (said.gaugeCheckedOn !== null && said.gaugeCheckedOn > dateInZone(request.server.now(), timeZone))
    mend(
      'gaugeCheckedOn',
      `Gauge checked on must be a day up to today; you wrote ${said.gaugeCheckedOn}. Say it when the gauge has been checked.`,
    );
  if (problems.length > 0) return refused(...problems);
  const feet =
    said.altitude === null || said.altitudeUnit === 'ft' ? said.altitude : said.altitude * feetPerMetre;
  return found({
    household: {
      name: said.name,
      people: said.people,
      timeZone,
      units: said.units,
      weekStartsOn: said.weekStartsOn,
      locale: said.locale,
      region,
    },
    altitudeFt: feet === null ? null : Math.round(feet * 1e6) / 1e6,
    boilingWater: said.boilingWater,
    pressure: said.pressure ? { gauge: said.gauge, checkedOn: said.gaugeCheckedOn } : null,
    jars: [
      { kind: kindOf('half-pint'), onHand: said.halfPints },
      { kind: kindOf('pint'), onHand: said.pints },
      { kind: kindOf('quart'), onHand: said.quarts },
    ],
    lids: said.lids,
    preserves: preserves.value,
    sourceKind: said.sourceKind,
    time: { sessionsPerWeek: said.sessionsPerWeek, hoursPerSession: said.hoursPerSession },
    fund: { now: said.fundNow, weekly: said.fundWeekly },
  });
}

const kindOf = (size: string): JarKind => jarKind.parse(`${size}/regular`);

function readPreserves(request: FastifyRequest): Outcome<FirstHour['preserves']> {
  const problems: Problem[] = [];
  const chosen = firstYear().preserves.flatMap(({ recipeKey, name }): FirstHour['preserves'] => {
    const field = `eats-${recipeKey}`;
    const read = readOften(name, sentText(request, field));
    if (!read.ok) {
      problems.push(...read.problems.map((problem) => ({ ...problem, path: [field] })));
      return [];
    }
    const appetite = appetiteOf(read.value.often);
    return appetite === null ? [] : [{ recipeKey, appetite }];
  });
  if (problems.length > 0) return refused(...problems);
  if (chosen.length > 0) return found(chosen);
  return refused({
    code: 'nothing-chosen',
    path: ['eats'],
    message:
      'Expected at least one thing you like to eat, so that there is something to plan; none was chosen. Say how often for one; more can be added any time.',
  });
}

/** How the country of the browser's first language writes dates: the month first in the United States, and unless it is said. */
function writingOf(languages: string | undefined): (typeof locales)[number] {
  const [first = 'en-US'] = (languages ?? 'en-US').split(/[,;]/);
  try {
    return new Intl.Locale(first.trim()).maximize().region === 'US' ? 'en-US' : 'en-GB';
  } catch {
    return 'en-US';
  }
}

async function sendStart(
  request: FastifyRequest,
  reply: FastifyReply,
  sentBack: FirstHourSentBack | null,
  status: number,
): Promise<FastifyReply> {
  const { reference } = request.server;
  const picture = {
    reference,
    beginning: firstYear(),
    others: request.visibleHouseholds,
    asksOwner: request.person === null,
    reading: request.reading,
    writes: writingOf(request.headers['accept-language']),
  };
  return reply.page(
    FirstHourPage,
    { frame: await reply.frame(), ...presentFirstHour(picture, () => reply.formKeys(), sentBack) },
    status,
  );
}
