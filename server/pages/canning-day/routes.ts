import type { FastifyPluginAsync } from 'fastify';
import { z } from 'zod';
import { namesIn } from '../../../shared/hands.ts';
import { found, type Outcome, together } from '../../../shared/problems.ts';
import { batchCountField, sessionSettingForm } from '../../../shared/schemas/canning-session.ts';
import { readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { calendarDate, weekHolding } from '../../../shared/week.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { SessionSetting, SessionWork } from '../../../src/household/session.ts';
import { openSession, withdrawSession } from '../../records/canning/canning-session.ts';
import { changeWork } from '../../records/canning/canning-work.ts';
import { answerForm } from '../shared/answer-form.ts';
import { recordingOf, seeOther } from '../shared/posting.ts';
import { dayOf, type OfDay, sendDay, settingShown } from './day-answer.ts';
import { canningDayPicture, dayIn, weekIn } from './day-picture.ts';
import { weekPath } from './present-day.ts';
import { settingFieldsOf } from './present-setting.ts';

const canningDay: FastifyPluginAsync = async (app) => {
  app.get<{ Querystring: { day?: string } }>('/canning-day', async (request, reply) => {
    const asked = calendarDate.safeParse(request.query.day);
    const picture = await canningDayPicture(
      request,
      asked.success ? weekHolding(asked.data, request.reading.weekStartsOn) : null,
    );

    return sendDay(request, reply, picture, dayIn(picture, request.query.day));
  });

  app.get<{ Params: { week: string }; Querystring: Record<string, string> }>(
    '/canning-day/:week',
    async (request, reply) => {
      const picture = await canningDayPicture(request, weekIn(request.params.week));
      const day = dayIn(picture, request.query.day);
      const isAsked = request.query.time !== undefined;
      const asked = isAsked ? settingIn(typedValues(request.query)) : null;

      return sendDay(request, reply, picture, day, day?.session === null && asked?.ok ? asked.value : null);
    },
  );

  app.post<OfDay>('/canning-day/:week/:day', async (request, reply) => {
    const { picture, day } = await dayOf(request);
    const typed = typedValues(request.body);
    const path = `${weekPath(weekIn(request.params.week))}?day=${day.on}`;
    const asked = settingIn(typed);
    if (asked.ok && typed.ask === 'look' && day.session === null)
      return seeOther(reply, `${path}&${queryOf(asked.value)}#processed`);
    const outcome = asked.ok
      ? await openSession(recordingOf(request), { on: day.on, setting: asked.value, work: day.work })
      : asked;
    return answerForm(request, reply, outcome, {
      formId: 'setting',
      done: `${path}#loads`,
      again: (form) => sendDay(request, reply, picture, day, null, { form }),
    });
  });

  app.post<OfDay>('/canning-day/:week/:day/work', async (request, reply) => {
    const { picture, day } = await dayOf(request);
    const typed = typedValues(request.body);
    const asked = workIn(typed, day.work, picture.kitchen.recipes);
    const outcome = asked.ok
      ? await changeWork(recordingOf(request), { on: day.on, work: asked.value })
      : asked;
    return answerForm(request, reply, outcome, {
      formId: 'work',
      done: `${weekPath(weekIn(request.params.week))}?day=${day.on}#work`,
      again: (form) => sendDay(request, reply, picture, day, null, { form }),
    });
  });

  app.post<OfDay>('/canning-day/:week/:day/withdrawal', async (request, reply) => {
    const { picture, day } = await dayOf(request);
    const outcome = await withdrawSession(recordingOf(request), day.on);
    return answerForm(
      request,
      reply,
      outcome,
      settingShown(request, reply, picture, day, weekPath(weekIn(request.params.week))),
    );
  });
};

export default canningDay;

/** The setting a form or an address carries; a chosen printed row stands under `row-` and the recipe's id. */
function settingIn(typed: Readonly<Record<string, string>>): Outcome<SessionSetting> {
  const read = readForm(sessionSettingForm, typed);
  if (!read.ok) return read;
  const rows = Object.entries(typed).flatMap(([name, row]) =>
    name.startsWith('row-') ? [[name.slice('row-'.length), row] as const] : [],
  );
  const { who, people, ...setting } = read.value;
  const names = namesIn(who);
  // Who is named is at work; how many more there are says the number.
  return found({
    ...setting,
    people: Math.max(people, names.length),
    ...(names.length > 0 ? { who: names } : {}),
    rows: Object.fromEntries(rows),
  });
}

const queryOf = (setting: SessionSetting): string =>
  new URLSearchParams(settingFieldsOf(setting).map(({ name, value }) => [name, value])).toString();

/** How many of each batch, as the form of the day's work carries them; what is added comes last. */
function workIn(
  typed: Readonly<Record<string, string>>,
  work: readonly SessionWork[],
  recipes: readonly Recipe[],
): Outcome<readonly SessionWork[]> {
  const counts = readForm(
    z.object(Object.fromEntries(work.map(({ recipeId }) => [`batches-${recipeId}`, batchCountField]))),
    typed,
  );
  const added = recipes.find(({ id }) => id === typed.added);
  const more =
    added === undefined
      ? found({ addedBatches: 0 })
      : readForm(z.object({ addedBatches: batchCountField }), typed);
  const all = together(counts, more);
  if (!all.ok) return all;
  const [said, { addedBatches }] = all.value;
  const kept = work.map(({ recipeId }) => ({ recipeId, batches: said[`batches-${recipeId}`] ?? 0 }));
  return found(added === undefined ? kept : [...kept, { recipeId: added.id, batches: addedBatches }]);
}
