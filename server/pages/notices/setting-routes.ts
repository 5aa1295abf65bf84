import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { dateFormatter } from '../../../shared/formatters.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { mailWishForm, noticeLeadForm } from '../../../shared/schemas/notice-settings.ts';
import { dateInZone } from '../../../shared/week.ts';
import { defaultNoticeSettings } from '../../../src/notices/notice.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { NoticeSettingsPage } from '../../../views/pages/notices/notice-settings-page.tsx';
import { formatDate } from '../../../views/words/format.ts';
import { trialLetter } from '../../mail/trial-letter.ts';
import {
  addressToConfirm,
  type Letter,
  letters,
  lettersOfADay,
  mailWish,
  mostTrialsADay,
} from '../../queries/notices/letters.ts';
import { noticeSettingsOf } from '../../queries/notices/notice-settings.ts';
import { tryLetterAgain, writeLetter } from '../../records/notices/letters.ts';
import { askAgain } from '../../records/notices/mail-confirmation.ts';
import {
  endMail,
  type KindWithLead,
  leadFieldOf,
  setMailWish,
  setNoticeLeads,
} from '../../records/notices/notice-settings.ts';
import { noticeWords } from '../../words/notice-lines.ts';
import { answerForm, type SentBack, statesFrom, whatIsWrong } from '../shared/answer-form.ts';
import { recordingOf, seeOther, sentText } from '../shared/posting.ts';

const lettersShown = 10;
const pageQuery = z.object({ said: z.string().max(20).catch('') });
const said: Readonly<Record<string, Message>> = {
  saved: { tone: 'done', text: 'Saved.' },
  asked: {
    tone: 'done',
    text: 'Saved. The address gets one letter with a link; other letters go there once it is opened.',
  },
  ended: { tone: 'done', text: 'No more letters are sent.' },
  again: {
    tone: 'done',
    text: 'The letter is tried again now. Load the page in a moment to see whether it went.',
  },
  trial: {
    tone: 'done',
    text: 'A letter to try it is on its way. Load the page in a moment to see whether it went.',
  },
};

const triedEnough: Message = {
  tone: 'problem',
  text: `${mostTrialsADay} letters to try it a day is the most, and so many were sent. Look whether one has come, or try again tomorrow.`,
};

/** Kinds that matter until they are mended: on or off, with no days before. */
type OnOrOff = 'target not met' | 'appetite changed';
const leadHints: Readonly<Record<Exclude<KindWithLead, OnOrOff>, string>> = {
  'best by near': 'Before the last day of best quality.',
  'runs out': 'Before you likely run out.',
  'harvest opens': 'Before the first day.',
  'harvest closes': 'Before the last day.',
  'buy for a session': 'Before the canning week.',
  'stage due': 'Before the day of a soak, a brine or a drain.',
  'may be canned': 'Before what was begun may be canned.',
  'gauge check': 'Before a year is over.',
  'upkeep due': 'Before a device is due.',
};

const settings: FastifyPluginAsync = async (app) => {
  app.get('/notices/settings', (request, reply) =>
    sendSettings(request, reply, said[pageQuery.parse(request.query).said] ?? null, null),
  );

  app.post('/notices/settings', async (request, reply) => {
    const asked = readForm(noticeLeadForm, request.body);
    const outcome = asked.ok ? await setNoticeLeads(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: 'leads',
      done: '/notices/settings?said=saved',
      again: (sentBack) => sendSettings(request, reply, null, sentBack),
    });
  });

  app.post('/notices/letters', async (request, reply) => {
    const asked = readForm(mailWishForm, request.body);
    const outcome = asked.ok ? await setMailWish(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: 'mail',
      done: async () => {
        app.mail?.look();
        const asks = await addressToConfirm(app.db, request.household.id);
        return `/notices/settings?said=${asks === null ? 'saved' : 'asked'}#letters`;
      },
      again: (sentBack) => sendSettings(request, reply, null, sentBack),
    });
  });

  app.post<{ Params: { letter: string } }>('/notices/letters/:letter/attempts', async (request, reply) => {
    const outcome = await tryLetterAgain(recordingOf(request), request.params.letter);
    return answerForm(request, reply, outcome, {
      done: () => {
        app.mail?.look();
        return '/notices/settings?said=again#written';
      },
      again: (sentBack) => sendSettings(request, reply, whatIsWrong(sentBack), null, sentBack.status),
    });
  });

  app.post('/notices/letters/trial', async (request, reply) => {
    const { household, today } = request;
    const wish = await mailWish(app.db, household.id);
    if (wish?.isConfirmed === true && app.mail !== null) {
      const letter = trialLetter(household, wish.address, sentText(request, 'key'));
      const at = app.now();
      const written = await writeLetter(
        app.db,
        household.id,
        letter,
        { at, today },
        async (trx) => (await lettersOfADay(trx, household.id, 'trial', at)) < mostTrialsADay,
      );
      if (!written) return sendSettings(request, reply, triedEnough, null, 429);
      app.mail.look();
    }
    return seeOther(reply, '/notices/settings?said=trial#written');
  });

  app.post('/notices/letters/confirmation', async (request, reply) => {
    const outcome = await askAgain(recordingOf(request));
    return answerForm(request, reply, outcome, {
      done: () => {
        app.mail?.look();
        return '/notices/settings?said=asked#letters';
      },
      again: (sentBack) => sendSettings(request, reply, whatIsWrong(sentBack), null, sentBack.status),
    });
  });

  app.post('/notices/letters/end', async (request, reply) => {
    await endMail(recordingOf(request));
    return seeOther(reply, '/notices/settings?said=ended#letters');
  });
};

export default settings;

async function sendSettings(
  request: FastifyRequest,
  reply: FastifyReply,
  message: Message | null,
  sentBack: SentBack | null,
  status = 200,
): Promise<FastifyReply> {
  const { db } = request.server;
  const { id } = request.household;
  const [{ leadDays }, wish, asked, written] = await Promise.all([
    noticeSettingsOf(db, id),
    mailWish(db, id),
    addressToConfirm(db, id),
    letters(db, id, lettersShown),
  ]);
  const state = statesFrom(() => reply.formKeys(), sentBack);
  return reply.page(
    NoticeSettingsPage,
    {
      frame: await reply.frame(message),
      leads: {
        form: state('leads', {
          bestByNear: daysTyped(leadDays['best by near']),
          runsOut: daysTyped(leadDays['runs out']),
          harvestOpens: daysTyped(leadDays['harvest opens']),
          harvestCloses: daysTyped(leadDays['harvest closes']),
          buyForSession: daysTyped(leadDays['buy for a session']),
          stageDue: daysTyped(leadDays['stage due']),
          mayBeCanned: daysTyped(leadDays['may be canned']),
          gaugeCheck: daysTyped(leadDays['gauge check']),
          upkeepDue: daysTyped(leadDays['upkeep due']),
          targetNotMet: leadDays['target not met'] !== null,
          appetiteChanged: leadDays['appetite changed'] !== null,
        }),
        fields: (Object.keys(leadHints) as (keyof typeof leadHints)[]).map((kind) => {
          return {
            name: leadFieldOf(kind),
            label: noticeWords(kind),
            hint: `${leadHints[kind]} Usually ${defaultNoticeSettings.leadDays[kind] ?? 0}.`,
          };
        }),
      },
      mail: {
        form: state('mail', {
          address: asked?.address ?? wish?.address ?? '',
          weekly: wish?.weekly ?? true,
          weekday: String(wish?.weekday ?? 5),
          urgent: wish?.urgent ?? true,
        }),
        waits:
          asked === null
            ? null
            : {
                words: `${asked.address} was asked by a letter with a link, which works for three days. ${wish?.isConfirmed ? `Until somebody there opens it, letters go to ${wish.address}.` : 'No other letter is sent until somebody there opens it.'}`,
                again: request.server.mail === null ? null : reply.formKeys(),
              },
        end: wish === null ? null : reply.formKeys(),
        server: mailServerWords(request),
        trial: wish?.isConfirmed !== true || request.server.mail === null ? null : reply.formKeys(),
      },
      letters: written.map((letter) => ({
        key: letter.id,
        subject: letter.subject,
        written: formatDate(dateInZone(letter.writtenAt, request.household.timeZone), request.reading),
        standing: standingOf(letter, request),
        again: isToTryAgain(letter) && request.server.mail !== null ? reply.formKeys() : null,
      })),
    },
    sentBack?.status ?? status,
  );
}

const daysTyped = (days: number | null): string => (days === null ? '' : String(days));

const mailServerWords = ({ server }: FastifyRequest): string | null =>
  server.mail === null ? null : `Letters go through ${server.mail.server}, from ${server.mail.from}.`;

/** Failed once at least, and not gone since. */
const isToTryAgain = ({ sentAt, failure }: Letter): boolean => sentAt === null && failure !== null;

function standingOf(
  { sentAt, tryAt, failure }: Letter,
  { household, reading }: Pick<FastifyRequest, 'household' | 'reading'>,
): string {
  const moment = (at: number): string =>
    dateFormatter(reading.locale, {
      timeZone: household.timeZone,
      dateStyle: 'medium',
      timeStyle: 'short',
    }).format(new Date(at));
  if (sentAt !== null) return `sent ${moment(sentAt)}`;
  if (tryAt === null) return failure?.startsWith('Not sent') ? failure : `given up. ${failure ?? ''}`;
  return failure === null
    ? 'waits to be sent'
    : `could not be sent: ${failure} Tried again ${moment(tryAt)}.`;
}
