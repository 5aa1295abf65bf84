import type { FastifyPluginAsync } from 'fastify';
import { counted } from '../../../shared/counting.ts';
import { SafetyPage } from '../../../views/pages/safety/safety-page.tsx';
import { presentCautions } from '../../words/process-words.ts';
import { lotsOfRequest } from '../../year/book-of-year.ts';

const safety: FastifyPluginAsync = async (app) => {
  app.get('/safety', async (request, reply) => {
    const lots = await lotsOfRequest(request);
    const aside = lots.filter((lot) => lot.setAside !== null && lot.unitsLeft > 0).length;
    return reply.page(SafetyPage, {
      frame: await reply.frame(),
      setAside: aside === 0 ? '' : `Set aside now: ${counted(aside, 'batch')}.`,
      cautions: presentCautions([]),
    });
  });
};

export default safety;
