import type { FastifyReply, FastifyRequest } from 'fastify';
import { ShelfwardError } from '../../../shared/problems.ts';
import type { SessionSetting } from '../../../src/household/session.ts';
import type { SessionDay } from '../../../src/planning/days/week-sessions.ts';
import { CanningDayPage } from '../../../views/pages/canning-day/canning-day-page.tsx';
import type { SentBack } from '../shared/answer-form.ts';
import { canningDayPicture, dayPicture, weekIn } from './day-picture.ts';
import { type CanningDayPicture, type DaySentBack, presentCanningDayPage } from './present-day.ts';

export type OfDay = { Params: { week: string; day: string } };

/** The day a path names; one without work is a page that does not exist. */
export async function dayOf(
  request: FastifyRequest<OfDay>,
): Promise<{ readonly picture: CanningDayPicture; readonly day: SessionDay }> {
  const picture = await canningDayPicture(request, weekIn(request.params.week));
  const day = picture.days.find(({ on }) => on === request.params.day);
  if (!day) throw new ShelfwardError('not-found', `dayOf: no canning day ${request.params.day}`);
  return { picture, day };
}

/** The page of a day; `ahead` lays a day that is not begun out another way. */
export async function sendDay(
  request: FastifyRequest,
  reply: FastifyReply,
  picture: CanningDayPicture,
  day: SessionDay | null,
  ahead: SessionSetting | null = null,
  sentBack: DaySentBack = {},
): Promise<FastifyReply> {
  const shown = day === null ? null : await dayPicture(request, picture, day, ahead);
  return reply.page(
    CanningDayPage,
    {
      frame: await reply.frame(),
      ...presentCanningDayPage(picture, shown, () => reply.formKeys(), sentBack),
    },
    sentBack.form?.status ?? sentBack.load?.status,
  );
}

/** The day again with what stands in the way of printing it or taking it back, beside how it is laid out; nothing was typed. */
export const settingShown = (
  request: FastifyRequest,
  reply: FastifyReply,
  picture: CanningDayPicture,
  day: SessionDay,
  done: string,
) => ({
  formId: 'setting',
  done,
  again: (sentBack: SentBack) =>
    sendDay(request, reply, picture, day, null, { form: { ...sentBack, typed: {} } }),
});
