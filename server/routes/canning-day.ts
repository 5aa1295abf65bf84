import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { ShelfwardError } from '../../shared/problems.ts';
import { sessionSettingForm } from '../../shared/schemas/canning-session.ts';
import { readForm, typedValues } from '../../shared/schemas/form-fields.ts';
import { calendarDate, weekOf } from '../../shared/week.ts';
import { sessionSteps } from '../../src/preserving/session-steps.ts';
import { CanningDayPage } from '../../views/pages/canning-day/canning-day-page.tsx';
import { LoadCard } from '../../views/pages/canning-day/load-card.tsx';
import { SheetPage } from '../../views/pages/canning-day/sheet-page.tsx';
import {
  type CanningDayPicture,
  type DaySentBack,
  dayPath,
  presentCanningDayPage,
  weekPath,
} from '../presenters/canning-day.ts';
import { presentLoad } from '../presenters/canning-loads.ts';
import { presentSheet, voidWords } from '../presenters/canning-sheet.ts';
import { presentTimeline } from '../presenters/canning-timeline.ts';
import { fieldProblems } from '../presenters/field-problems.ts';
import type { SessionSetting } from '../queries/canning-sessions.ts';
import {
  type Interruption,
  interruptClock,
  openSession,
  printSheet,
  startClock,
  tickStep,
  withdrawSession,
} from '../records/canning-session.ts';
import type { BatchHere, LoadHere } from '../year/session-here.ts';
import type { SessionDay } from '../year/week-sessions.ts';
import { canningDayPicture, dayIn, dayPicture, usualSetting, weekIn } from './canning-day-picture.ts';
import { recordingOf, seeOther, sentText, statusOf } from './posting.ts';
import { wantsPart } from './wants-part.ts';

type OfDay = { Params: { week: string; day: string } };
type OfLoad = { Params: { week: string; day: string; load: string } };

const settingFields = ['by', 'time', 'people', 'burners'];

const canningDay: FastifyPluginAsync = async (app) => {
  app.get<{ Querystring: { day?: string } }>('/canning-day', async (request, reply) => {
    const asked = calendarDate.safeParse(request.query.day);
    const picture = await canningDayPicture(request, asked.success ? weekOf(asked.data) : null);

    return sendDay(request, reply, picture, dayIn(picture, request.query.day));
  });

  app.get<{ Params: { week: string }; Querystring: Record<string, string> }>(
    '/canning-day/:week',
    async (request, reply) => {
      const picture = await canningDayPicture(request, weekIn(request.params.week));
      const day = dayIn(picture, request.query.day);
      const asked = settingIn(request.query);

      return sendDay(request, reply, picture, day, day?.session === null && asked.ok ? asked.value : null);
    },
  );

  app.post<OfDay>('/canning-day/:week/:day', async (request, reply) => {
    const { picture, day } = await dayOf(request);
    const typed = typedValues(request.body);
    const asked = settingIn(typed);
    if (!asked.ok) {
      const values = { by: 'start', time: '', people: '', burners: '', ...typed };
      const problems = fieldProblems(asked.problems, settingFields);
      return sendDay(request, reply, picture, day, null, { setting: { values, problems } }, 422);
    }
    const path = `${weekPath(weekIn(request.params.week))}?day=${day.on}`;
    if (typed.ask === 'look' && day.session === null)
      return seeOther(reply, `${path}&${queryOf(asked.value)}#timeline`);

    const outcome = await openSession(recordingOf(request), {
      on: day.on,
      setting: asked.value,
      work: day.work,
    });
    if (outcome.ok) return seeOther(reply, `${path}#loads`);
    const values = { by: 'start', time: '', people: '', burners: '', ...typed };
    const problems = fieldProblems(outcome.problems, settingFields);
    return sendDay(
      request,
      reply,
      picture,
      day,
      null,
      { setting: { values, problems } },
      statusOf(outcome.problems),
    );
  });

  app.post<OfDay>('/canning-day/:week/:day/withdrawal', async (request, reply) => {
    const { picture, day } = await dayOf(request);
    const outcome = await withdrawSession(recordingOf(request), day.on);
    if (outcome.ok) return seeOther(reply, weekPath(weekIn(request.params.week)));

    const { by, time, people, burners } = day.session?.setting ?? usualSetting(request.household.people);
    const values = { by, time, people: String(people), burners: String(burners) };
    const problems = fieldProblems(outcome.problems, settingFields);
    return sendDay(
      request,
      reply,
      picture,
      day,
      null,
      { setting: { values, problems } },
      statusOf(outcome.problems),
    );
  });

  app.post<OfLoad>('/canning-day/:week/:day/loads/:load/ticks', async (request, reply) => {
    const found = await loadOf(request);
    const [step = '', done] = sentText(request, 'tick').split(':');
    const outcome = await tickStep(recordingOf(request), found.ofSession, { step, done: done === 'yes' });

    return answerLoad(request, reply, outcome.ok ? null : outcome.problems);
  });

  app.post<OfLoad>('/canning-day/:week/:day/loads/:load/clock', async (request, reply) => {
    const { ofSession, minutes } = await loadOf(request);
    const event = sentText(request, 'event');
    const why = interruptions.find((known) => known === event);
    const outcome =
      why === undefined
        ? await startClock(recordingOf(request), ofSession, minutes)
        : await interruptClock(recordingOf(request), ofSession, minutes, why);

    return answerLoad(request, reply, outcome.ok ? null : outcome.problems);
  });

  app.post<OfDay>('/canning-day/:week/:day/sheets', async (request, reply) => {
    const { picture, day } = await dayOf(request);
    const { here } = await dayPicture(request, picture, day, null);
    const outcome = await printSheet(recordingOf(request), day.on, here.basis);
    if (outcome.ok)
      return seeOther(reply, `${dayPath(day, weekIn(request.params.week))}/sheets/${outcome.value.number}`);

    const [first] = outcome.problems;
    const problems = { '': first?.message ?? '' };
    const { by, time, people, burners } = here.setting;
    const values = { by, time, people: String(people), burners: String(burners) };
    return sendDay(
      request,
      reply,
      picture,
      day,
      null,
      { setting: { values, problems } },
      statusOf(outcome.problems),
    );
  });

  app.get<{ Params: { week: string; day: string; number: string } }>(
    '/canning-day/:week/:day/sheets/:number',
    async (request, reply) => {
      const { picture, day } = await dayOf(request);
      const { here, sheets } = await dayPicture(request, picture, day, null);
      const sheet = sheets.find(({ number }) => String(number) === request.params.number);
      if (!sheet) throw new ShelfwardError('not-found', `sheets: no sheet ${request.params.number}`);
      const voidBecause = voidWords(sheet.basis, here.basis);
      const { reading, household } = request;
      const cannerNames = new Map<string, string>(picture.kitchen.canners.map(({ id, name }) => [id, name]));
      const timeline = here.timeline?.ok
        ? presentTimeline(here, here.timeline.value, { on: here.on, reading }, cannerNames)
        : null;

      return reply.page(SheetPage, {
        frame: await reply.frame(),
        title: `Sheet ${sheet.number}`,
        back: `${weekPath(weekIn(request.params.week))}?day=${day.on}`,
        voidBecause,
        sheet:
          voidBecause === null
            ? presentSheet(here, timeline, { household: household.name, number: sheet.number, reading })
            : null,
      });
    },
  );
};

export default canningDay;

const interruptions: readonly Interruption[] = ['boil-stopped', 'pressure-dropped', 'power-cut'];

/** The setting a form or an address carries; a chosen printed row stands under `row-` and the recipe's id. */
const settingIn = (typed: Readonly<Record<string, string>>) => {
  const read = readForm(sessionSettingForm, typed);
  if (!read.ok) return read;
  const rows = Object.entries(typed).flatMap(([name, row]) =>
    name.startsWith('row-') ? [[name.slice('row-'.length), row] as const] : [],
  );
  return {
    ok: true as const,
    value: { ...read.value, rows: Object.fromEntries(rows) } satisfies SessionSetting,
  };
};

const queryOf = ({ by, time, people, burners, rows }: SessionSetting): string =>
  new URLSearchParams({
    by,
    time,
    people: String(people),
    burners: String(burners),
    ...Object.fromEntries(Object.entries(rows).map(([recipe, row]) => [`row-${recipe}`, row])),
  }).toString();

/** The day a path names; one without work is a page that does not exist. */
export async function dayOf(
  request: FastifyRequest<OfDay>,
): Promise<{ readonly picture: CanningDayPicture; readonly day: SessionDay }> {
  const picture = await canningDayPicture(request, weekIn(request.params.week));
  const day = picture.days.find(({ on }) => on === request.params.day);
  if (!day) throw new ShelfwardError('not-found', `dayOf: no canning day ${request.params.day}`);
  return { picture, day };
}

async function loadOf(request: FastifyRequest<OfLoad>) {
  const { picture, day } = await dayOf(request);
  const { here, loads } = await dayPicture(request, picture, day, null);
  for (const batch of here.batches) {
    if (batch.canned?.ok !== true) continue;
    const load = batch.canned.value.loads.find(({ key }) => key === request.params.load);
    if (!load) continue;
    const { schedule } = batch.canned.value;
    return {
      picture,
      day,
      batch: batch satisfies BatchHere,
      load: load satisfies LoadHere,
      loads,
      minutes: schedule.minutes,
      ofSession: { on: day.on, loadKey: load.key, steps: sessionSteps(schedule) },
    };
  }
  throw new ShelfwardError('not-found', `loadOf: no load ${request.params.load}`);
}

async function answerLoad(
  request: FastifyRequest<OfLoad>,
  reply: FastifyReply,
  problems: Parameters<typeof statusOf>[0] | null,
): Promise<FastifyReply> {
  const { picture, day, batch, load, loads } = await loadOf(request);
  const problem =
    problems === null ? null : { loadKey: load.key, words: problems.map(({ message }) => message).join(' ') };
  if (wantsPart(request)) {
    const props = presentLoad(batch, load, {
      path: dayPath(day, weekIn(request.params.week)),
      loads,
      now: picture.now,
      timeZone: request.household.timeZone,
      reading: request.reading,
      keys: () => reply.formKeys(),
      problem,
    });
    return reply.part(LoadCard, { load: props }, problems === null ? 200 : statusOf(problems));
  }
  if (problems === null || problem === null) {
    const anchor = `load-${load.key.replaceAll('.', '-')}`;
    return seeOther(reply, `${weekPath(weekIn(request.params.week))}?day=${day.on}#${anchor}`);
  }
  return sendDay(request, reply, picture, day, null, { load: problem }, statusOf(problems));
}

export async function sendDay(
  request: FastifyRequest,
  reply: FastifyReply,
  picture: CanningDayPicture,
  day: SessionDay | null,
  ahead: SessionSetting | null = null,
  sentBack: DaySentBack = {},
  status = 200,
): Promise<FastifyReply> {
  const shown = day === null ? null : await dayPicture(request, picture, day, ahead);
  return reply.page(
    CanningDayPage,
    {
      frame: await reply.frame(),
      clockScript: request.server.assets.urls.clock,
      ...presentCanningDayPage(picture, shown, () => reply.formKeys(), sentBack),
    },
    status,
  );
}
