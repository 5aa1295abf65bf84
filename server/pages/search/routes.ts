import type { FastifyPluginAsync } from 'fastify';
import { z } from 'zod';
import { SearchPage } from '../../../views/pages/search/search-page.tsx';
import { search } from '../../queries/household/search.ts';
import { presentSearch } from './present-search.ts';

const searchQuery = z.object({ q: z.string().trim().max(80).catch('') });

const searchRoute: FastifyPluginAsync = async (app) => {
  app.get('/search', async (request, reply) => {
    const { q } = searchQuery.parse(request.query);
    const finding = await search(app.db, request.household.id, q);

    return reply.page(SearchPage, {
      frame: await reply.frame(),
      ...presentSearch(q, finding, request.reading),
    });
  });
};

export default searchRoute;
