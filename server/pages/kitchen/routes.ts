import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { typedValues } from '../../../shared/schemas/form-fields.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { KitchenPage } from '../../../views/pages/kitchen/kitchen-page.tsx';
import { fieldProblems } from '../../words/field-problems.ts';
import { seeOther, statusOf } from '../shared/posting.ts';
import { kitchenChanges } from './kitchen-changes.ts';
import { kitchenPicture } from './load-kitchen.ts';
import { presentKitchen, type SentBack } from './present-kitchen.ts';

const pageQuery = z.object({ saved: z.string().max(20).nullable().catch(null) });
const savedWords: Message = {
  tone: 'done',
  text: 'Saved. The plan was made before this; plan again to see what it changes.',
  action: { words: 'This week', href: '/' },
};

const kitchen: FastifyPluginAsync = async (app) => {
  app.get('/kitchen', async (request, reply) => {
    const { saved } = pageQuery.parse(request.query);

    return sendKitchen(request, reply, null, saved, 200);
  });

  for (const change of kitchenChanges) {
    app.post<{ Params: Record<string, string> }>(change.path, async (request, reply) => {
      const outcome = await change.write(request, request.params);
      if (outcome.ok) return seeOther(reply, `/kitchen?saved=${change.part}#${change.part}`);

      const sentBack = {
        form: change.form(request.params),
        values: typedValues(request.body),
        problems: fieldProblems(outcome.problems, change.fields, change.renamed),
      };
      return sendKitchen(request, reply, sentBack, null, statusOf(outcome.problems));
    });
  }
};

export default kitchen;

async function sendKitchen(
  request: FastifyRequest,
  reply: FastifyReply,
  sentBack: SentBack | null,
  saved: string | null,
  status: number,
): Promise<FastifyReply> {
  const picture = await kitchenPicture(request);
  return reply.page(
    KitchenPage,
    {
      frame: await reply.frame(),
      saved: saved === null ? null : { part: saved, message: savedWords },
      ...presentKitchen(picture, () => reply.formKeys(), sentBack),
    },
    status,
  );
}
