import type { FastifyPluginAsync } from 'fastify';
import { WordsPage } from '../../../views/pages/words/words-page.tsx';

const words: FastifyPluginAsync = async (app) => {
  app.get('/words', async (_request, reply) => reply.page(WordsPage, { frame: await reply.frame() }));
};

export default words;
