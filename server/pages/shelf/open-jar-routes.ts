import type { FastifyPluginAsync } from 'fastify';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { finishedJarForm } from '../../../shared/schemas/shelf/finished-jar.ts';
import { OpenJarsPage } from '../../../views/pages/shelf/open-jars-page.tsx';
import { finishJar } from '../../records/shelf/finish-jar.ts';
import { openJarsOfRequest } from '../../year/book-of-year.ts';
import { answerForm, plainAnswer } from '../shared/answer-form.ts';
import { recordingOf, sentText } from '../shared/posting.ts';
import { presentUndo } from '../shared/present-undo.ts';
import { shelfPicture } from '../shared/shelf-picture.ts';
import { presentOpenJars } from './present-open-jars.ts';

const openJars: FastifyPluginAsync = async (app) => {
  app.get('/shelf/open', async (request, reply) => {
    const keys = () => reply.formKeys();
    const [open, picture] = await Promise.all([openJarsOfRequest(request), shelfPicture(request)]);

    return reply.page(OpenJarsPage, {
      frame: await reply.frame(),
      undo: presentUndo(picture, keys, 'shelf'),
      jars: presentOpenJars(open, keys, request.reading),
    });
  });

  app.post('/shelf/finished-jars', async (request, reply) => {
    const asked = readForm(finishedJarForm, request.body);
    const outcome = asked.ok ? await finishJar(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      done: ({ itemId }) =>
        sentText(request, 'answers') === 'item' ? `/shelf/${itemId}#undo` : '/shelf/open#undo',
      again: (sentBack) =>
        plainAnswer(reply, sentBack, {
          title: 'Nothing was written down',
          action: { words: 'Open jars', href: '/shelf/open' },
        }),
    });
  });
};

export default openJars;
