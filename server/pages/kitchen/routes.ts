import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Message } from '../../../views/layout/frame.ts';
import { KitchenPage } from '../../../views/pages/kitchen/kitchen-page.tsx';
import { answerForm, type SentBack } from '../shared/answer-form.ts';
import { kitchenChanges } from './kitchen-changes.ts';
import { kitchenPicture } from './load-kitchen.ts';
import { presentKitchen } from './present-kitchen.ts';

const pageQuery = z.object({ saved: z.string().max(20).nullable().catch(null) });
const savedWords: Message = {
  tone: 'done',
  text: 'Saved. The plan was made before this; plan again to see what it changes.',
  action: { words: 'This week', href: '/' },
};

const kitchen: FastifyPluginAsync = async (app) => {
  app.get('/kitchen', async (request, reply) => {
    const { saved } = pageQuery.parse(request.query);

    return sendKitchen(request, reply, null, saved);
  });

  for (const change of kitchenChanges) {
    app.post<{ Params: Record<string, string> }>(change.path, async (request, reply) => {
      const outcome = await change.write(request, request.params);
      return answerForm(request, reply, outcome, {
        formId: change.form(request.params),
        renamed: change.renamed,
        done: `/kitchen?saved=${change.part}#${change.part}`,
        again: (sentBack) => sendKitchen(request, reply, sentBack, null),
      });
    });
  }
};

export default kitchen;

async function sendKitchen(
  request: FastifyRequest,
  reply: FastifyReply,
  sentBack: SentBack | null,
  saved: string | null,
): Promise<FastifyReply> {
  const picture = await kitchenPicture(request);
  return reply.page(
    KitchenPage,
    {
      frame: await reply.frame(),
      saved: saved === null ? null : { part: saved, message: savedWords },
      ...presentKitchen(picture, () => reply.formKeys(), sentBack),
    },
    sentBack?.status,
  );
}
