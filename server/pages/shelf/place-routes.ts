import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { counted } from '../../../shared/counting.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { moveForm } from '../../../shared/schemas/shelf/move.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { PlacesPage } from '../../../views/pages/shelf/places-page.tsx';
import { moveLots } from '../../records/shelf/move-lots.ts';
import { presentPlaces } from '../../words/places.ts';
import { lotsOfRequest } from '../../year/book-of-year.ts';
import { factsOfRequest } from '../../year/year-of-request.ts';
import { answerForm, whatIsWrong } from '../shared/answer-form.ts';
import { recordingOf } from '../shared/posting.ts';
import { presentUndo } from '../shared/present-undo.ts';
import { shelfPicture } from '../shared/shelf-picture.ts';

const pageQuery = z.object({ moved: z.coerce.number().int().min(0).max(500).catch(0) });

const shelfPlaces: FastifyPluginAsync = async (app) => {
  app.get('/shelf/places', (request, reply) => {
    const { moved } = pageQuery.parse(request.query);
    return sendPlaces(request, reply, moved === 0 ? null : movedMessage(moved), 200);
  });

  app.post('/shelf/moves', async (request, reply) => {
    const asked = readForm(moveForm, request.body);
    const outcome = asked.ok ? await moveLots(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      done: ({ lotIds, place }) => `/shelf/places?moved=${lotIds.length}#place-${place.id}`,
      again: (sentBack) => sendPlaces(request, reply, whatIsWrong(sentBack), sentBack.status),
    });
  });
};

export default shelfPlaces;

const movedMessage = (count: number): Message => ({
  tone: 'done',
  text: `${counted(count, 'batch is', 'batches are')} in another place now.`,
});

async function sendPlaces(
  request: FastifyRequest,
  reply: FastifyReply,
  message: Message | null,
  status: number,
): Promise<FastifyReply> {
  const { reading } = request;
  const keys = () => reply.formKeys();
  const [{ places, items }, lots, picture] = await Promise.all([
    factsOfRequest(request),
    lotsOfRequest(request),
    shelfPicture(request),
  ]);
  return reply.page(
    PlacesPage,
    {
      frame: await reply.frame(message),
      undo: presentUndo(picture, keys, 'shelf'),
      places: presentPlaces({ places, lots, items, reading, keys }),
    },
    status,
  );
}
