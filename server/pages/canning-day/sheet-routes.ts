import type { FastifyPluginAsync } from 'fastify';
import { ShelfwardError } from '../../../shared/problems.ts';
import { SheetPage } from '../../../views/pages/canning-day/sheet-page.tsx';
import { printSheet } from '../../records/canning/canning-session.ts';
import { answerForm } from '../shared/answer-form.ts';
import { recordingOf } from '../shared/posting.ts';
import { dayOf, type OfDay, settingShown } from './day-answer.ts';
import { dayPicture, weekIn } from './day-picture.ts';
import { dayPath, daysOnPaper, weekPath } from './present-day.ts';
import { presentSheet, voidWords } from './present-sheet.ts';
import { presentTimeline } from './present-timeline.ts';

const canningSheets: FastifyPluginAsync = async (app) => {
  app.post<OfDay>('/canning-day/:week/:day/sheets', async (request, reply) => {
    const { picture, day } = await dayOf(request);
    const { here } = await dayPicture(request, picture, day, null);
    const outcome = await printSheet(recordingOf(request), day.on, here.basis);
    return answerForm(request, reply, outcome, {
      ...settingShown(request, reply, picture, day, ''),
      done: ({ number }) => `${dayPath(day, weekIn(request.params.week))}/sheets/${number}`,
    });
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
        ? presentTimeline(
            here,
            here.timeline.value,
            { on: here.on, reading, timeZone: household.timeZone },
            cannerNames,
          )
        : null;

      return reply.page(SheetPage, {
        frame: await reply.frame(),
        title: `Sheet ${sheet.number}`,
        back: `${weekPath(weekIn(request.params.week))}?day=${day.on}`,
        voidBecause,
        sheet:
          voidBecause === null
            ? presentSheet(here, timeline, {
                household: household.name,
                number: sheet.number,
                reading,
                days: daysOnPaper(picture, day.on),
              })
            : null,
      });
    },
  );
};

export default canningSheets;
