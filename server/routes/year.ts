import type { FastifyPluginAsync, FastifyRequest } from 'fastify';
import { ShelfwardError } from '../../shared/problems.ts';
import { YearItemPage } from '../../views/pages/year/year-item-page.tsx';
import { YearPage } from '../../views/pages/year/year-page.tsx';
import { presentPlanStatus } from '../presenters/plan-status.ts';
import { presentHours, presentMoney } from '../presenters/weeks-against-limit.ts';
import { presentGaveWay, presentPicture, presentRows, yearSummary } from '../presenters/year.ts';
import { presentYearItem } from '../presenters/year-item.ts';
import type { YearReader } from '../presenters/year-words.ts';
import { yearPicture } from '../year/year-picture.ts';
import { planNow } from './plan-now.ts';

const year: FastifyPluginAsync = async (app) => {
  app.get('/year', async (request, reply) => {
    const [reader, planned] = await Promise.all([readerOf(request), planNow(request)]);
    const { picture, reading } = reader;

    return reply.page(YearPage, {
      frame: await reply.frame(),
      summary: yearSummary(picture),
      preserves: presentRows(reader, 'preserve'),
      staples: presentRows(reader, 'staple'),
      picture: presentPicture(
        reader,
        picture.items.filter(({ item }) => item.kind === 'preserve'),
      ),
      gaveWay: presentGaveWay(reader),
      hours: presentHours(planned.plan, request.today, reading),
      money: presentMoney(planned.plan, request.today, reading),
      plan: presentPlanStatus(planned, reply.formKeys(), '/year'),
    });
  });

  app.get<{ Params: { item: string } }>('/year/:item', async (request, reply) => {
    const reader = await readerOf(request);
    const itemYear = reader.picture.items.find(({ item }) => item.id === request.params.item);
    if (itemYear === undefined) throw new ShelfwardError('not-found', `year: no item ${request.params.item}`);

    return reply.page(YearItemPage, {
      frame: await reply.frame(),
      ...presentYearItem(itemYear, reader),
    });
  });
};

export default year;

const readerOf = async (request: FastifyRequest): Promise<YearReader> => ({
  picture: await yearPicture(
    request.server.db,
    request.household.id,
    request.today,
    request.server.reference,
  ),
  reading: request.reading,
  crops: request.server.reference.harvestWindows,
});
