import type { FastifyPluginAsync } from 'fastify';
import { z } from 'zod';
import { SearchPage } from '../../../views/pages/search/search-page.tsx';
import { retiredItems } from '../../queries/household/items.ts';
import { bookOfRequest } from '../../year/book-of-year.ts';
import { presentSearch } from './present-search.ts';
import { search } from './search.ts';

const searchQuery = z.object({ q: z.string().trim().max(80).catch('') });

const searchRoute: FastifyPluginAsync = async (app) => {
  app.get('/search', async (request, reply) => {
    const { q } = searchQuery.parse(request.query);
    const { id } = request.household;
    const [{ items, lots }, retired] = await Promise.all([bookOfRequest(request), retiredItems(app.db, id)]);

    return reply.page(SearchPage, {
      frame: await reply.frame(),
      ...presentSearch(q, search({ items, retired, lots }, q), request.reading),
    });
  });
};

export default searchRoute;
