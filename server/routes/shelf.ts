import type { FastifyPluginAsync } from 'fastify';
import { z } from 'zod';
import { ShelfItemPage } from '../../views/pages/shelf/shelf-item-page.tsx';
import { ShelfPage } from '../../views/pages/shelf/shelf-page.tsx';
import { presentFamilies, presentUndo, shelfSummary } from '../presenters/shelf.ts';
import { presentShelfItem } from '../presenters/shelf-item.ts';
import { ledger } from '../queries/ledger.ts';
import { shelfMessage } from './shelf-messages.ts';
import { itemOn, shelfPicture } from './shelf-picture.ts';

const shelfQuery = z.object({ find: z.string().max(120).catch(''), said: z.string().max(40).catch('') });
const itemQuery = z.object({
  lot: z.string().max(80).nullable().catch(null),
  before: z.coerce.number().int().positive().nullable().catch(null),
  said: z.string().max(40).catch(''),
});

const shelf: FastifyPluginAsync = async (app) => {
  app.get('/shelf', async (request, reply) => {
    const { find, said } = shelfQuery.parse(request.query);
    const picture = await shelfPicture(request);

    return reply.page(ShelfPage, {
      frame: await reply.frame(shelfMessage(said)),
      summary: shelfSummary(picture),
      undo: presentUndo(picture, () => reply.formKeys()),
      find,
      families: presentFamilies(picture, find, () => reply.formKeys()),
    });
  });

  app.get<{ Params: { item: string } }>('/shelf/:item', async (request, reply) => {
    const { lot, before, said } = itemQuery.parse(request.query);
    const picture = await shelfPicture(request);
    const item = itemOn(picture.shelf, request.params.item);
    const history = await ledger(app.db, request.household.id, { itemId: item.item.id });

    return reply.page(ShelfItemPage, {
      frame: await reply.frame(shelfMessage(said)),
      ...presentShelfItem(picture, item, history, { pickedLot: lot, before, keys: () => reply.formKeys() }),
    });
  });
};

export default shelf;
