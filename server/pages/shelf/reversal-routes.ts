import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { Message } from '../../../views/layout/frame.ts';
import { TakeAnswer } from '../../../views/pages/shelf/take-answer.tsx';
import { addressOfPart } from '../../../views/parts/item-parts.tsx';
import { undo } from '../../records/shelf/undo.ts';
import { answerForm, plainAnswer, whatIsWrong } from '../shared/answer-form.ts';
import { recordingOf, sentText } from '../shared/posting.ts';
import { presentUndo } from '../shared/present-undo.ts';
import { itemOn, shelfPicture } from '../shared/shelf-picture.ts';
import { wantsPart } from '../shared/wants-part.ts';
import { shelfMessage } from './messages.ts';
import { presentRow } from './present-shelf.ts';

const reversals: FastifyPluginAsync = async (app) => {
  app.post('/shelf/reversals', async (request, reply) => {
    const outcome = await undo(recordingOf(request), sentText(request, 'entry'));
    return answerForm(request, reply, outcome, {
      done: ({ itemId, byProductUsed }) => {
        const said = byProductUsed ? 'by-product-used' : '';
        if (wantsPart(request)) return sendRow(request, reply, itemId, shelfMessage(said), 200);
        const answers = sentText(request, 'answers');
        // What an undo leaves to be said is said on the shelf.
        const page = answers === 'row' ? '/shelf' : addressOfPart(said === '' ? answers : 'shelf', itemId);
        return `${page}${said === '' ? '' : `?said=${said}`}#undo`;
      },
      again: (sentBack) =>
        wantsPart(request)
          ? sendRow(request, reply, sentText(request, 'item'), whatIsWrong(sentBack), sentBack.status)
          : plainAnswer(reply, sentBack, {
              title: 'Nothing was undone',
              action: { words: 'Back to the shelf', href: '/shelf' },
            }),
    });
  });
};

export default reversals;

async function sendRow(
  request: FastifyRequest,
  reply: FastifyReply,
  itemId: string,
  message: Message | null,
  status: number,
): Promise<FastifyReply> {
  const picture = await shelfPicture(request);
  const { openNotices } = await reply.frame();
  return reply.part(
    TakeAnswer,
    {
      row: presentRow(picture, itemOn(picture.shelf, itemId), reply.formKeys()),
      undo: presentUndo(picture, () => reply.formKeys()),
      openNotices,
      message,
    },
    status,
  );
}
