import type { FastifyPluginAsync } from 'fastify';
import { PlacesPage } from '../../views/pages/shelf/places-page.tsx';
import { formatDate } from '../../views/words/format.ts';
import { amountOf } from '../presenters/shelf-units.ts';
import { items } from '../queries/items.ts';
import { places } from '../queries/kitchen.ts';
import { type LotOnShelf, lots } from '../queries/shelf.ts';

const shelfPlaces: FastifyPluginAsync = async (app) => {
  app.get('/shelf/places', async (request, reply) => {
    const { household, reading } = request;
    const [stands, standing, kept] = await Promise.all([
      places(app.db, household.id),
      lots(app.db, household.id),
      items(app.db, household.id),
    ]);
    const lotsIn = (placeId: string | null) =>
      standing.filter((lot) => (lot.place?.id ?? null) === placeId).flatMap(lineOf);
    const lineOf = (lot: LotOnShelf) => {
      const item = kept.find(({ id }) => id === lot.itemId);
      return item === undefined
        ? []
        : [
            {
              id: lot.id,
              item: { name: item.name, family: item.family, href: `/shelf/${item.id}` },
              code: lot.batchCode,
              left: amountOf(item, lot.unitsLeft, reading, lot.jarKind),
              bestUntil: formatDate(lot.bestQualityUntil, reading),
            },
          ];
    };
    const nowhere = lotsIn(null);
    return reply.page(PlacesPage, {
      frame: await reply.frame(),
      places: [
        ...stands.map(({ id, name }) => ({ id, name, lots: lotsIn(id) })),
        ...(nowhere.length === 0 ? [] : [{ id: 'not-said', name: 'Place not said', lots: nowhere }]),
      ],
    });
  });
};

export default shelfPlaces;
