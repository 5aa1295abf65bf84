import type { FastifyPluginAsync } from 'fastify';
import { z } from 'zod';
import { ShelfwardError } from '../../../shared/problems.ts';
import { ShelfItemPage } from '../../../views/pages/shelf/shelf-item-page.tsx';
import { ShelfPage } from '../../../views/pages/shelf/shelf-page.tsx';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { historyOf, openJarsOfRequest } from '../../year/book-of-year.ts';
import { itemHead } from '../shared/item-head.ts';
import { mayKeepShelf, sayWhetherKept } from '../shared/own-device.ts';
import { sendTo } from '../shared/posting.ts';
import { presentUndo } from '../shared/present-undo.ts';
import { itemOn, shelfPicture } from '../shared/shelf-picture.ts';
import { shelfMessage } from './messages.ts';
import { presentShelfItem } from './present-item.ts';
import { presentConflicts, presentFamilies, shelfSummary } from './present-shelf.ts';

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

    return sayWhetherKept(request, reply).page(ShelfPage, {
      frame: await reply.frame(shelfMessage(said)),
      summary: shelfSummary(picture),
      undo: presentUndo(picture, () => reply.formKeys()),
      conflicts: presentConflicts(picture, () => reply.formKeys()),
      find,
      staysHere: mayKeepShelf(request),
      families: presentFamilies(picture, find, () => reply.formKeys()),
    });
  });

  app.get<{ Params: { item: string } }>('/shelf/:item', async (request, reply) => {
    const { lot, before, said } = itemQuery.parse(request.query);
    const picture = await shelfPicture(request);
    const item = itemOn(picture.shelf, request.params.item);
    const [head, history, open] = await Promise.all([
      itemHead(request, reply, item.item, 'shelf', { pickedLot: lot, shelf: picture }),
      historyOf(request, item.item.id),
      openJarsOfRequest(request, item.item.id),
    ]);

    return reply.page(ShelfItemPage, {
      frame: await reply.frame(shelfMessage(said)),
      head,
      ...presentShelfItem(picture, item, history, {
        offeredLot: head.take?.lotId ?? null,
        before,
        open,
        keys: () => reply.formKeys(),
      }),
    });
  });

  // What a label's code leads to: the item's page, offering that batch.
  app.get<{ Params: { lot: string } }>('/shelf/lots/:lot', async (request, reply) => {
    const [lot] = await lotsOf(app.db, request.household.id, { lotId: request.params.lot, empty: true });
    if (!lot) throw new ShelfwardError('not-found', `shelf: no lot ${request.params.lot}`);

    return sendTo(reply, `/shelf/${encodeURIComponent(lot.itemId)}?lot=${encodeURIComponent(lot.id)}`, 302);
  });
};

export default shelf;
