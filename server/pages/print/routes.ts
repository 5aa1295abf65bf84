import type { FastifyPluginAsync } from 'fastify';
import { PrintPage } from '../../../views/pages/print/print-page.tsx';

const print: FastifyPluginAsync = async (app) => {
  app.get('/print', async (_request, reply) => reply.page(PrintPage, { frame: await reply.frame() }));
};

export default print;
