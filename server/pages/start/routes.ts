import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { dateWords } from '../../../shared/date-words.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import { type JarKind, jarKind } from '../../../shared/jar.ts';
import { found, type Outcome, type Problem, refused, ShelfwardError } from '../../../shared/problems.ts';
import { firstOwnerForm } from '../../../shared/schemas/account.ts';
import { appetiteOf, firstHourForm, readOften } from '../../../shared/schemas/first-hour.ts';
import { fitting, readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { isTimeZone, type locales } from '../../../shared/schemas/kitchen.ts';
import { readTypedAltitude } from '../../../shared/typed-altitude.ts';
import { decimalSignOf } from '../../../shared/typed-number.ts';
import { timeZoneOfState } from '../../../shared/us-states.ts';
import { dateInZone } from '../../../shared/week.ts';
import { findGround } from '../../../src/harvest/find-ground.ts';
import { cannerSizes } from '../../../src/preserving/canner-sizes.ts';
import { confirmedAltitude } from '../../../src/preserving/lookup/altitude-echo.ts';
import { FirstHourPage } from '../../../views/pages/start/first-hour-page.tsx';
import { pageNames } from '../../../views/words/page-names.ts';
import { mayBegin } from '../../access/begin-permission.ts';
import { membersOf, unfitOwner } from '../../access/members.ts';
import { hashPassphrase } from '../../access/passphrase.ts';
import { hasSecondFactor } from '../../access/second-factor.ts';
import { checkSignIn } from '../../access/sign-in-check.ts';
import { makeDemoHousehold } from '../../demo/make-demo.ts';
import { chooseHousehold, NotAllowed } from '../../plugins/app/household.ts';
import { demoHousehold } from '../../queries/household/household.ts';
import { type Founder, madeUnder } from '../../records/household/create-household.ts';
import { type FirstHour, startHousehold } from '../../records/household/start-household.ts';
import { firstYear } from '../../reference/first-year.ts';
import { regionTimeZone } from '../../words/regions.ts';
import { answerForm, type SentBack } from '../shared/answer-form.ts';
import { seeOther, sentText } from '../shared/posting.ts';
import { letIn } from '../shared/sign-in-of-browser.ts';
import { likedField, presentFirstHour } from './present-first-hour.ts';

/** Where the invented household lives, for the day it opens its book on. */
const demoTimeZone = 'America/New_York';

const start: FastifyPluginAsync = async (app) => {
  app.get('/start', async (request, reply) =>
    (await mayBegin(app.db, request.person, app.beyondLoopback))
      ? sendStart(request, reply, null)
      : seeOther(reply, '/households'),
  );

  app.post('/start', async (request, reply) => {
    if (!(await mayBegin(app.db, request.person, app.beyondLoopback))) throw new NotAllowed();
    const [read, owner] = [readFirstHour(request), await readOwner(request)];
    const outcome =
      read.ok && owner.ok
        ? await begin(request, reply, read.value, owner.value)
        : refused(...problemsOf(read), ...problemsOf(owner));
    return answerForm(request, reply, outcome, {
      formId: 'start',
      done: '/?said=started',
      again: (sentBack) => {
        const isAsked = sentBack.problems.some(({ code }) => code === 'altitude-unconfirmed');
        const again = isAsked && sentText(request, 'passphrase') !== '' ? [passphraseAgain] : [];
        return sendStart(request, reply, { ...sentBack, problems: [...sentBack.problems, ...again] });
      },
    });
  });

  app.post('/start/demo', async (_request, reply) => {
    // The invented household has no owner, so it stays on this machine.
    if (app.beyondLoopback)
      throw new ShelfwardError('not-found', 'start: the demo is open on this machine only');
    const there = await demoHousehold(app.db);
    const demo = there?.id ?? (await makeDemoHousehold(app.db, dateInZone(app.now(), demoTimeZone)));
    if (there === null) await app.planJob?.start(demo);

    return seeOther(chooseHousehold(reply, demo), '/');
  });

  app.post<{ Params: { household: string } }>('/start/households/:household', async (request, reply) => {
    const wanted = request.visibleHouseholds.find(({ id }) => id === request.params.household);
    if (!wanted) throw new ShelfwardError('not-found', `start: no household ${request.params.household}`);

    return seeOther(chooseHousehold(reply, wanted.id), '/');
  });
};

export default start;

/**
 * Sets the household up with its owner and looks at it from now on. The same form sent again adds nobody: it goes on with
 * the household only for whom it belongs to, and to others says no more than where pages begin.
 */
async function begin(
  request: FastifyRequest,
  reply: FastifyReply,
  hour: FirstHour,
  owner: FirstOwner | null,
): Promise<Outcome<null>> {
  const { db, reference, now, planJob } = request.server;
  const founder = await founderOf(request, owner, hour.household.name);
  if (!founder.ok) return founder;
  const made = await startHousehold(
    {
      db,
      reference,
      key: sentText(request, 'key'),
      at: now(),
      today: dateInZone(now(), hour.household.timeZone),
      founder: founder.value,
      mayGoOn: (householdId) => belongsTo(request, reply, owner, householdId),
    },
    hour,
  );
  if (!made.ok) return made.problems.some(({ code }) => code === 'name-taken') ? underOwner(made) : made;
  const { householdId, ownerId, repeated } = made.value;
  if (ownerId !== null && request.person === null) {
    await letIn(request, reply, ownerId);
    await request.noteSecurity('household-closed', { personId: ownerId, householdId });
  }
  if (!repeated || (await mayLook(request, householdId))) chooseHousehold(reply, householdId);
  if (!repeated) await planJob?.start(householdId);
  return found(null);
}

interface FirstOwner {
  readonly name: string;
  readonly passphrase: string;
}

/** What a page never carries back. */
const passphraseAgain: Problem = {
  code: 'form.field',
  path: ['passphrase'],
  message: 'Write the passphrase again: a page never carries it back.',
};

const ownerFields = ['owner', 'passphrase'] as const;

const problemsOf = (outcome: Outcome<unknown>): readonly Problem[] => (outcome.ok ? [] : outcome.problems);

/** What is wrong with the owner's name stands beside the field of the set-up. */
const underOwner = (outcome: { readonly problems: readonly Problem[] }): Outcome<never> =>
  refused(
    ...outcome.problems.map((problem) =>
      problem.path[0] === 'name' ? { ...problem, path: ['owner'] } : problem,
    ),
  );

/** Who sets the household up and with which passphrase; null where neither is said, or somebody is signed in already. */
async function readOwner(request: FastifyRequest): Promise<Outcome<FirstOwner | null>> {
  const isSaid = ownerFields.some((field) => sentText(request, field) !== '');
  if (request.person !== null || !isSaid) return found(null);
  const asked = readForm(firstOwnerForm, request.body);
  if (!asked.ok) return asked;
  const { owner: name, passphrase } = asked.value;
  // Sent again, the name is in use because the first sending put it to use.
  if ((await madeUnder(request.server.db, '', sentText(request, 'key'))) !== null)
    return found({ name, passphrase });
  const unfit = await unfitOwner(request.server.db, { name, passphrase }, sentText(request, 'name'));
  return unfit === null ? found({ name, passphrase }) : underOwner({ problems: [unfit] });
}

async function founderOf(
  { person, server, body }: FastifyRequest,
  owner: FirstOwner | null,
  householdName: string,
): Promise<Outcome<Founder>> {
  if (person !== null) return found({ personId: person.id });
  if (owner === null) return found(null);
  const key = typedValues(body).key ?? '';
  // Nobody is added by a form sent again, and the passphrase is not hashed for it.
  if ((await madeUnder(server.db, '', key)) !== null) return found(null);
  const hash = await hashPassphrase(owner.passphrase, [owner.name, householdName]);
  return hash.ok ? found({ name: owner.name, passphraseHash: hash.value }) : hash;
}

/** Whether that household is the asker's own: an owner's who is signed in or proves it, or still open on this machine. */
async function belongsTo(
  request: FastifyRequest,
  reply: FastifyReply,
  owner: FirstOwner | null,
  householdId: HouseholdId,
): Promise<boolean> {
  const { db, now, beyondLoopback } = request.server;
  const members = await membersOf(db, householdId);
  if (members.length === 0) return !beyondLoopback;
  const owns = (personId: string) =>
    members.some((member) => member.personId === personId && member.role === 'owner');
  if (request.person !== null) return owns(request.person.id);
  if (owner === null) return false;
  const checked = await checkSignIn(db, { ...owner, address: request.ip }, now());
  if (checked.answer !== 'known' || !owns(checked.personId)) return false;
  if (await hasSecondFactor(db, checked.personId)) return false;
  await letIn(request, reply, checked.personId);
  return true;
}

/** Whether the household is open to the asker as it stands; the cookie of the answer chooses nothing else. */
async function mayLook({ person, server }: FastifyRequest, householdId: HouseholdId): Promise<boolean> {
  const members = await membersOf(server.db, householdId);
  if (members.length === 0) return !server.beyondLoopback;
  return members.some(({ personId }) => personId === person?.id);
}

const ownTimeZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** What is judged before the whole form can be read, where its field cannot. */
const whileUnread = {
  altitude: '',
  altitudeUnit: 'ft',
  locale: 'en-US',
  town: '',
  station: '',
  region: '',
  timeZone: '',
  lastFrost: null,
  firstFrost: null,
  potSize: '',
  pressureSize: '',
  gaugeCheckedOn: null,
} as const;

/** The whole form, or everything in it that has to be mended. */
function readFirstHour(request: FastifyRequest): Outcome<FirstHour> {
  const asked = readForm(firstHourForm, request.body);
  const preserves = readPreserves(request);
  // What can be read is judged also while something else cannot.
  const said = { ...whileUnread, ...fitting(firstHourForm, request.body) };
  const problems: Problem[] = [...problemsOf(asked), ...problemsOf(preserves)];
  const mend = (field: string, message: string) =>
    problems.push({ code: 'form.field', path: [field], message });
  const altitude =
    said.altitude === ''
      ? null
      : confirmedAltitude(request.server.reference.processTimes, said.altitude, said.altitudeUnit, {
          decimalSign: decimalSignOf(said.locale),
          mark: sentText(request, 'altitudeSeen'),
        });
  const altitudeFt = altitude?.ok ? altitude.value.altitudeFt : null;
  const about = readTypedAltitude(said.altitude, said.altitudeUnit, decimalSignOf(said.locale));
  const dates = { lastFrost: said.lastFrost, firstFrost: said.firstFrost, strawberriesFrom: null };
  const ground = findGround(
    { town: said.town, station: said.station, ...dates },
    about.kind === 'altitude' ? about.altitudeFt : null,
    request.server.reference,
  );
  if (!ground.ok) problems.push(...ground.problems);
  const region = said.region !== '' ? said.region : ground.ok ? (ground.value.region ?? null) : null;
  const state = ground.ok ? ground.value.state : null;
  const timeZone =
    said.timeZone ||
    (regionTimeZone(region) ?? (state === null ? null : timeZoneOfState(state)) ?? ownTimeZone());
  if (region !== null && !request.server.reference.harvestWindows.some((row) => row.region === region))
    mend('region', `There is no region “${region.slice(0, 40)}”. Choose one of the list, or leave it open.`);
  for (const [field, method] of [
    ['potSize', 'boiling-water'],
    ['pressureSize', 'pressure'],
  ] as const) {
    const sizes = cannerSizes(request.server.reference.cannerFacts).filter((size) => size.method === method);
    if (said[field] !== '' && !sizes.some(({ key }) => key === said[field]))
      mend(
        field,
        `There is no size “${said[field]}”. Choose one of the list; ${pageNames.kitchen} takes any other.`,
      );
  }
  if (!isTimeZone(timeZone))
    mend(
      'timeZone',
      `Time zone cannot be “${timeZone}”. Write a name like America/Chicago, or leave it blank.`,
    );
  else if (said.gaugeCheckedOn !== null && said.gaugeCheckedOn > dateInZone(request.server.now(), timeZone))
    mend(
      'gaugeCheckedOn',
      `${dateWords(said.gaugeCheckedOn)} is still to come. Say it when the gauge has been checked.`,
    );
  if (altitude?.ok === false) problems.push(...altitude.problems);
  if (problems.length > 0 || !asked.ok || !preserves.ok) return refused(...problems);
  const all = asked.value;
  return found({
    household: {
      name: all.name,
      people: all.people,
      timeZone,
      units: all.units,
      weekStartsOn: all.weekStartsOn,
      locale: all.locale,
      currency: all.currency,
      region,
    },
    altitudeFt,
    ...(ground.ok && (ground.value.town ?? ground.value.lastFrost ?? ground.value.firstFrost) !== null
      ? { ground: { ...ground.value, region } }
      : {}),
    boilingWater: all.boilingWater ? { size: all.potSize } : null,
    pressure: all.pressure
      ? {
          size: all.pressureSize,
          gauge: all.gauge,
          checkedOn: all.gaugeCheckedOn,
          off: { at5: all.gaugeOffAt5, at10: all.gaugeOffAt10, at15: all.gaugeOffAt15 },
        }
      : null,
    jars: [
      { kind: kindOf('half-pint'), onHand: all.halfPints },
      { kind: kindOf('pint'), onHand: all.pints },
      { kind: kindOf('quart'), onHand: all.quarts },
    ],
    lids: all.lids,
    preserves: preserves.value,
    sourceKind: all.sourceKind,
    time: { sessionsPerWeek: all.sessionsPerWeek, hoursPerSession: all.hoursPerSession },
    fund: { now: all.fundNow, weekly: all.fundWeekly },
  });
}

const kindOf = (size: string): JarKind => jarKind.parse(`${size}/regular`);

function readPreserves(request: FastifyRequest): Outcome<FirstHour['preserves']> {
  const problems: Problem[] = [];
  const chosen = firstYear().preserves.flatMap(({ recipeKey, name }): FirstHour['preserves'] => {
    const field = likedField({ recipeKey });
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
      'Choose at least one thing you like to eat and say how often, so that there is something to plan. More can be added any time.',
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
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const { reference } = request.server;
  const picture = {
    reference,
    beginning: firstYear(),
    others: request.visibleHouseholds,
    asksOwner: request.person === null,
    writes: writingOf(request.headers['accept-language']),
  };
  return reply.page(
    FirstHourPage,
    { frame: await reply.frame(), ...presentFirstHour(picture, () => reply.formKeys(), sentBack) },
    sentBack?.status,
  );
}
