import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { refused, ShelfwardError } from '../../../shared/problems.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import {
  type DeclaredUseRequest,
  declaredUseForm,
  handTargetForm,
} from '../../../shared/schemas/declared-use.ts';
import { readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { groupForm } from '../../../shared/schemas/item-group.ts';
import { jarWishForm } from '../../../shared/schemas/jar-wish.ts';
import { emergencyWishForm, servingsWantedForm } from '../../../shared/schemas/meals.ts';
import { occasionForm } from '../../../shared/schemas/occasion.ts';
import { recordedSinceForm } from '../../../shared/schemas/recorded-since.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { seasonForm } from '../../../shared/schemas/season.ts';
import { fullWeekForm, mostlyForm } from '../../../shared/schemas/use-answer.ts';
import type { Item } from '../../../src/household/item.ts';
import { type HouseholdYear, planningYearOf } from '../../../src/planning/year/household-year.ts';
import { walkOfItem } from '../../../src/planning/year/year-walk.ts';
import { type JarAdviceAsked, jarAdvice } from '../../../src/preserving/recipes/jar-advice.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { DeclaredUse, type WhatIfProps } from '../../../views/pages/targets/declared-use.tsx';
import { GroupTarget } from '../../../views/pages/targets/group-target.tsx';
import { TargetItemPage } from '../../../views/pages/targets/target-item-page.tsx';
import { TargetsPage } from '../../../views/pages/targets/targets-page.tsx';
import { sayEmergencyWish } from '../../records/year/emergency-wish.ts';
import { setGroupTarget } from '../../records/year/groups.ts';
import { wishForJars } from '../../records/year/jar-wishes.ts';
import { addOccasion, occasionRules, removeOccasion } from '../../records/year/occasions.ts';
import { sayRecordedSince } from '../../records/year/recorded-since.ts';
import { declareSeason } from '../../records/year/season.ts';
import { sayServingsWanted } from '../../records/year/servings-wanted.ts';
import { declaredUseRules, recordDeclaredUse, setHandTarget } from '../../records/year/targets.ts';
import { answerFullWeek, sayAllYearAlike } from '../../records/year/use-answers.ts';
import { vesselGuesses } from '../../reference/first-year.ts';
import { yearOfRequest } from '../../year/year-of-request.ts';

import { answerForm, type SentBack, sentBackOf, statesFrom } from '../shared/answer-form.ts';
import { itemHead } from '../shared/item-head.ts';
import { recordingOf, seeOther, sentText } from '../shared/posting.ts';
import { asCounted } from '../shared/produce/own-units.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { wantsPart } from '../shared/wants-part.ts';
import { askedWeek } from './full-week.ts';
import { presentDeclared } from './present-declared.ts';
import { presentTargetItem } from './present-item.ts';
import { declaredWords, groupFormId, presentGroup, presentTargets } from './present-targets.ts';
import { presentWhatIf } from './present-what-if.ts';
import type { TargetPicture } from './target-picture.ts';
import { gallonsTyped } from './water-amount.ts';

type OfItem = { Params: { item: string } };
const pageQuery = z.object({ said: z.string().max(20).catch('') });
const saved: Message = {
  tone: 'done',
  text: 'Saved. Plan again to see which weeks it changes.',
  action: { words: 'This week', href: '/' },
};
const messageFor = (said: string): Message | null =>
  said === 'saved'
    ? saved
    : ['emergency', 'servings'].includes(said)
      ? { tone: 'done', text: 'Saved.' }
      : null;

const targets: FastifyPluginAsync = async (app) => {
  app.get('/targets', async (request, reply) => {
    const { said } = pageQuery.parse(request.query);

    return sendTargets(request, reply, null, messageFor(said));
  });

  app.get<OfItem>('/targets/:item', async (request, reply) => {
    const { said } = pageQuery.parse(request.query);
    const picture = await targetPicture(request, request.params.item);

    return sendItem(request, reply, picture, { message: messageFor(said) });
  });

  app.post<OfItem>('/targets/:item/declared-use', async (request, reply) => {
    const picture = await targetPicture(request, request.params.item);
    const { values, asTyped } = unitsOfItem(request, picture.item, ['amount']);
    const read = await readByRules(request, declaredUseForm, values, declaredUseRules);
    const asked = read.ok ? read : refused(...read.problems.map(asTyped));
    const isTrial = sentText(request, 'intent') === 'try';
    if (asked.ok && isTrial) {
      const whatIf = tryOut(request, picture, asked.value);
      const tried = { ...sentBackOf(request, [], { formId: 'use' }), status: 200 };
      return sendDeclared(request, reply, picture, tried, whatIf);
    }
    const outcome = asked.ok ? await recordDeclaredUse(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: 'use',
      done: () => showSaved(request, reply, picture),
      again: (sentBack) => sendDeclared(request, reply, picture, sentBack, null),
    });
  });

  app.post<OfItem>('/targets/:item/jar-size', async (request, reply) => {
    const picture = await targetPicture(request, request.params.item);
    const asked = readForm(jarWishForm, { ...typedValues(request.body), itemId: picture.item.id });
    const outcome = asked.ok ? await wishForJars(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: 'jars',
      done: `/targets/${picture.item.id}?said=saved#jar-size`,
      again: (sentBack) => sendItem(request, reply, picture, { sentBack }),
    });
  });

  app.post<OfItem>('/targets/:item/season', async (request, reply) => {
    const picture = await targetPicture(request, request.params.item);
    const asked = readForm(seasonForm, { ...typedValues(request.body), itemId: picture.item.id });
    const outcome = asked.ok ? await declareSeason(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: 'season',
      done: `/targets/${picture.item.id}?said=saved#season`,
      again: (sentBack) => sendItem(request, reply, picture, { sentBack }),
    });
  });

  app.post<OfItem>('/targets/:item/season/mostly', async (request, reply) => {
    const { item } = await targetPicture(request, request.params.item);
    const asked = mostlyForm.safeParse(typedValues(request.body));
    if (asked.success)
      await declareSeason(recordingOf(request), { itemId: item.id, percentByMonth: asked.data });

    return seeOther(reply, `/targets/${item.id}?said=saved#season`);
  });

  app.post<OfItem>('/targets/:item/season/all-year', async (request, reply) => {
    const picture = await targetPicture(request, request.params.item);
    await sayAllYearAlike(recordingOf(request), picture.item.id);

    return seeOther(reply, `/targets/${picture.item.id}?said=saved#appetite`);
  });

  app.post<OfItem>('/targets/:item/full-week', async (request, reply) => {
    const picture = await targetPicture(request, request.params.item);
    const answered = fullWeekForm.safeParse(typedValues(request.body));
    const asked = askedWeek(picture);
    // A question that was answered already, or is of another week by now, is shown as it stands.
    if (answered.success && asked?.week === answered.data.week)
      await answerFullWeek(recordingOf(request), {
        ...{ itemId: picture.item.id, week: asked.week, on: asked.on, units: asked.units },
        answer: answered.data.answer,
      });

    return seeOther(reply, `/targets/${picture.item.id}?said=saved#appetite`);
  });

  app.post<OfItem>('/targets/:item/hand-target', async (request, reply) => {
    const picture = await targetPicture(request, request.params.item);
    const { values, asTyped } = unitsOfItem(request, picture.item, ['units']);
    const asked = readForm(handTargetForm, values);
    const outcome = asked.ok
      ? await setHandTarget(recordingOf(request), asked.value)
      : refused(...asked.problems.map(asTyped));
    return answerForm(request, reply, outcome, {
      formId: 'hand',
      done: () => showSaved(request, reply, picture),
      again: (sentBack) => sendItem(request, reply, picture, { sentBack }),
    });
  });

  app.post<OfItem>('/targets/:item/hand-target/release', async (request, reply) => {
    const picture = await targetPicture(request, request.params.item);
    await setHandTarget(recordingOf(request), { itemId: picture.item.id, units: null });

    return showSaved(request, reply, picture);
  });

  app.post<OfItem>('/targets/:item/occasions', async (request, reply) => {
    const picture = await targetPicture(request, request.params.item);
    const { values, asTyped } = unitsOfItem(request, picture.item, ['units']);
    const asked = await readByRules(request, occasionForm, values, occasionRules);
    const outcome = asked.ok
      ? await addOccasion(recordingOf(request), asked.value)
      : refused(...asked.problems.map(asTyped));
    return answerForm(request, reply, outcome, {
      formId: 'occasion',
      done: `/targets/${picture.item.id}?said=saved#occasions`,
      again: (sentBack) => sendItem(request, reply, picture, { sentBack }),
    });
  });

  app.post<{ Params: { item: string; occasion: string } }>(
    '/targets/:item/occasions/:occasion/removal',
    async (request, reply) => {
      const picture = await targetPicture(request, request.params.item);
      await removeOccasion(recordingOf(request), request.params.occasion);

      return seeOther(reply, `/targets/${picture.item.id}?said=saved#occasions`);
    },
  );

  app.post('/targets/recorded-since', async (request, reply) => {
    const asked = readForm(recordedSinceForm, request.body);
    const outcome = asked.ok ? await sayRecordedSince(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: 'recorded-since',
      done: '/targets?said=saved#recorded-since',
      again: (sentBack) => sendTargets(request, reply, sentBack),
    });
  });

  app.post('/targets/servings', async (request, reply) => {
    const asked = readForm(servingsWantedForm, request.body);
    const outcome = asked.ok ? await sayServingsWanted(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: 'servings',
      done: '/targets?said=servings#meals',
      again: (sentBack) => sendTargets(request, reply, sentBack),
    });
  });

  app.post('/targets/emergency', async (request, reply) => {
    const asked = readForm(emergencyWishForm, request.body);
    const outcome = asked.ok
      ? await sayEmergencyWish(recordingOf(request), {
          days: asked.value.days,
          waterGallons: asked.value.water === null ? null : gallonsTyped(asked.value.water, request.reading),
          filledOn: asked.value.filledOn,
        })
      : asked;
    return answerForm(request, reply, outcome, {
      formId: 'emergency',
      done: '/targets?said=emergency#emergency',
      again: (sentBack) => sendTargets(request, reply, sentBack),
    });
  });

  app.post<{ Params: { group: string } }>('/targets/groups/:group', async (request, reply) => {
    const asked = readForm(groupForm, { ...typedValues(request.body), groupId: request.params.group });
    const outcome = asked.ok ? await setGroupTarget(recordingOf(request), asked.value) : asked;
    const { group } = request.params;
    const asPart = async (sentBack: SentBack | null) => {
      const loaded = await yearOfHousehold(request);
      const changed = loaded.facts.groups.find(({ id }) => id === group);
      if (!changed) throw new ShelfwardError('not-found', `targets: no group ${group}`);
      const state = statesFrom(() => reply.formKeys(), sentBack);
      return reply.part(GroupTarget, presentGroup(loaded, changed, request.reading, state), sentBack?.status);
    };
    return answerForm(request, reply, outcome, {
      formId: groupFormId(group),
      done: () => (wantsPart(request) ? asPart(null) : `/targets?said=saved#group-${group}`),
      again: (sentBack) => (wantsPart(request) ? asPart(sentBack) : sendTargets(request, reply, sentBack)),
    });
  });
};

export default targets;

/** What was typed of an item, its amounts in what it is counted in; servings stay servings. */
const unitsOfItem = (request: FastifyRequest, item: Item, fields: readonly string[]) => {
  const typed = { ...typedValues(request.body), itemId: item.id };
  return asCounted(
    typed,
    sentText(request, 'countedIn') === 'servings' ? '' : item.unit,
    fields,
    request.reading,
  );
};

async function yearOfHousehold(request: FastifyRequest): Promise<HouseholdYear> {
  return (await yearOfRequest(request)).loaded;
}

async function targetPicture(request: FastifyRequest, itemId: string): Promise<TargetPicture> {
  const { loaded, plan } = await yearOfRequest(request);
  const item = loaded.facts.items.find(({ id, retiredOn }) => id === itemId && retiredOn === null);
  if (!item) throw new ShelfwardError('not-found', `targetPicture: no item ${itemId}`);
  const { reference } = request.server;
  return {
    item,
    loaded,
    published: reference.harvestWindows,
    reading: request.reading,
    jars: jarsFor({
      item,
      household: loaded.facts.household,
      canners: loaded.facts.canners,
      recipes: loaded.facts.recipes,
      jars: loaded.facts.jars,
      lids: loaded.facts.lids,
      jarWishes: loaded.facts.jarWishes,
      asOf: loaded.year.asOf,
      use: loaded.useByItem.get(item.id),
      reference,
    }),
    walk: walkOfItem(loaded, item.id, plan),
    hasPlan: plan !== null,
  };
}

// What is eaten of other items changes none of it.
const jarsFor = whileTheSame('item', ({ item, asOf, use, reference, ...facts }: JarsAsked) =>
  jarAdvice({ facts, asOf, use }, item, reference),
);
type JarsAsked = JarAdviceAsked['facts'] &
  Omit<JarAdviceAsked, 'facts'> & { readonly item: Item; readonly reference: ReferenceTables };

/** The year as it would be with these words; nothing is written. */
function tryOut(request: FastifyRequest, now: TargetPicture, words: DeclaredUseRequest): WhatIfProps {
  const { facts } = now.loaded;
  const said = { ...words, sinceOn: words.sinceOn ?? request.today };
  const declaredUses = new Map([...facts.declaredUses, [now.item.id, said] as const]);
  const { reference } = request.server;
  const then = planningYearOf({ ...facts, declaredUses }, request.today, reference, vesselGuesses());
  return presentWhatIf(
    now,
    { ...now, loaded: then, walk: walkOfItem(then, now.item.id, null) },
    declaredWords(now.item, said, now.reading),
  );
}

async function sendTargets(
  request: FastifyRequest,
  reply: FastifyReply,
  sentBack: SentBack | null,
  message: Message | null = null,
): Promise<FastifyReply> {
  const picture = await yearOfRequest(request);
  const props = presentTargets(
    picture,
    request.server.reference,
    request.reading,
    () => reply.formKeys(),
    sentBack,
  );
  return reply.page(TargetsPage, { frame: await reply.frame(message), ...props }, sentBack?.status);
}

/** What of the page of one item is not as it stands: a form that was sent back, words tried out, what was done. */
interface ItemAnswer {
  readonly sentBack?: SentBack | null;
  readonly whatIf?: WhatIfProps | null;
  readonly message?: Message | null;
}

async function sendItem(
  request: FastifyRequest,
  reply: FastifyReply,
  picture: TargetPicture,
  { sentBack = null, whatIf = null, message = null }: ItemAnswer,
): Promise<FastifyReply> {
  const props = presentTargetItem(picture, () => reply.formKeys(), sentBack, whatIf);
  const head = await itemHead(request, reply, picture.item, 'much');
  return reply.page(TargetItemPage, { frame: await reply.frame(message), head, ...props }, sentBack?.status);
}

/** The form with what was typed: the part alone, or in its page. */
async function sendDeclared(
  request: FastifyRequest,
  reply: FastifyReply,
  picture: TargetPicture,
  sentBack: SentBack,
  whatIf: WhatIfProps | null,
): Promise<FastifyReply> {
  if (!wantsPart(request)) return sendItem(request, reply, picture, { sentBack, whatIf });
  const state = statesFrom(() => reply.formKeys(), sentBack);
  return reply.part(DeclaredUse, presentDeclared(picture, state, whatIf), sentBack.status);
}

/** After a change of the item every part of its page may differ: htmx takes the whole main part of it. */
async function showSaved(
  request: FastifyRequest,
  reply: FastifyReply,
  { item }: TargetPicture,
): Promise<FastifyReply> {
  if (!wantsPart(request)) return seeOther(reply, `/targets/${item.id}?said=saved`);
  reply.header('hx-retarget', '#main').header('hx-reselect', '#main').header('hx-reswap', 'outerHTML');
  return sendItem(request, reply, await targetPicture(request, item.id), { message: saved });
}
