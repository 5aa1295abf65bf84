import { createHash } from 'node:crypto';
import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { counted } from '../../../shared/counting.ts';
import type { Problem } from '../../../shared/problems.ts';
import { numberField, readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import {
  commonSheets,
  type LabelGrid,
  labelGridIn,
  lengthIn,
  type Measure,
  papers,
} from '../../../shared/schemas/shelf/label-grid.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { LabelSheet } from '../../../views/pages/labels/label-sheet.tsx';
import { type LabelGridForm, LabelsPage } from '../../../views/pages/labels/labels-page.tsx';
import { formatDate } from '../../../views/words/format.ts';
import { addressHere } from '../../plugins/app/own-name.ts';
import { labelGrid } from '../../queries/shelf/label-grid.ts';
import { setLabelGrid } from '../../records/household/label-grid.ts';
import { labelSheetStyle, presentLabel, sheetsOf } from '../../words/label-sheet.ts';
import { amountOf } from '../../words/shelf-units.ts';
import { bookOfRequest, lotsOfRequest } from '../../year/book-of-year.ts';
import { answerForm, fieldsFrom, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { recordingOf, statusOf } from '../shared/posting.ts';

/** More would be a mistake, and a page nobody can print. */
const mostLabels = 1000;

const pageQuery = z.object({ said: z.string().max(20).catch('') });
const saved: Message = { tone: 'done', text: 'The sheet is saved. Labels are laid out on it from now on.' };
const labels: FastifyPluginAsync = async (app) => {
  app.get('/labels', async (request, reply) => {
    const { said } = pageQuery.parse(request.query);

    return sendPage(request, reply, said === 'saved' ? saved : null);
  });

  app.post('/labels/grid', async (request, reply) => {
    const typedIn = typedValues(request.body).measure === 'in' ? 'in' : 'mm';
    const asked = readForm(labelGridIn(typedIn), request.body);
    const outcome = asked.ok ? await setLabelGrid(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: 'grid',
      done: '/labels?said=saved',
      again: (sentBack) => sendPage(request, reply, null, sentBack),
    });
  });

  app.get('/labels/sheet.css', async (request, reply) =>
    reply
      .type('text/css; charset=utf-8')
      .header('cache-control', 'no-store')
      .send(labelSheetStyle(await labelGrid(app.db, request.household.id))),
  );

  app.get('/labels/sheet', async (request, reply) => {
    const { id } = request.household;
    const grid = await labelGrid(app.db, id);
    const asked = readSheet(request.query, grid);
    if (!asked.ok) {
      const typed = typedValues(request.query);
      const wanted = lotsWanted(typed);
      const problems = asked.problems.map((one) => besideLot(one, wanted));
      return sendPage(request, reply, null, {
        formId: 'labels',
        typed,
        problems,
        status: statusOf(problems),
      });
    }
    const { lots, items } = await bookOfRequest(request);
    const address = grid.address === '' ? addressHere(request) : grid.address;
    const all = asked.value.counts.flatMap(({ lotId, labels: count }) => {
      const lot = lots.find((one) => one.id === lotId);
      const item = items.find((one) => one.id === lot?.itemId);
      if (!lot || !item) return [];
      return new Array<ReturnType<typeof presentLabel>>(count).fill(
        presentLabel(item, lot, address, request.reading),
      );
    });
    const sheets = sheetsOf(all, grid, asked.value.start);
    const version = createHash('sha256').update(JSON.stringify(grid)).digest('base64url').slice(0, 8);
    return reply.page(LabelSheet, {
      locale: request.reading.locale,
      style: `/labels/sheet.css?v=${version}`,
      sheets,
      about: `${counted(all.length, 'label')} on ${counted(sheets.length, 'sheet')} of ${grid.paper}. Print at 100%, without margins or fitting to the page.`,
    });
  });
};

export default labels;

type Typed = Readonly<Record<string, string>>;

const lotsWanted = (fields: Typed): readonly (readonly [name: string, text: string])[] =>
  Object.entries(fields).filter(([name, text]) => name.startsWith('lot-') && text.trim() !== '');

/** What is wrong with one count stands beside the field of its batch. */
const besideLot = (one: Problem, wanted: ReturnType<typeof lotsWanted>): Problem => {
  const [list, place] = one.path;
  const [name] = list === 'counts' && typeof place === 'number' ? (wanted[place] ?? []) : [];
  return name === undefined ? one : { ...one, path: [name] };
};

/** How many labels of which lots, from which place of the first sheet on. */
function readSheet(query: unknown, { columns, rows }: LabelGrid) {
  const fields = typedValues(query);
  const wanted = lotsWanted(fields);
  const count = numberField({ label: 'The number', from: 0, to: mostLabels, whole: true, example: '12' });
  const start = numberField({
    label: 'Begin at label',
    from: 1,
    to: columns * rows,
    whole: true,
    example: '1',
  }).prefault('1');
  const sheet = z.object({
    start,
    counts: z
      .array(z.object({ lotId: z.string().max(80), labels: count }))
      .refine((all) => all.some(({ labels: many }) => many > 0), {
        message: 'All counts are empty or 0. Write how many labels beside a batch.',
      })
      .refine((all) => all.reduce((sum, { labels: many }) => sum + many, 0) <= mostLabels, {
        message: `${counted(mostLabels, 'label')} at once is the most. Print them in several goes.`,
      }),
  });
  return readForm(sheet, {
    ...(fields.start === undefined ? {} : { start: fields.start }),
    counts: wanted.map(([name, text]) => ({ lotId: name.slice('lot-'.length), labels: text })),
  });
}

async function sendPage(
  request: FastifyRequest,
  reply: FastifyReply,
  message: Message | null,
  sentBack: SentBack | null = null,
): Promise<FastifyReply> {
  const { db } = request.server;
  const { id } = request.household;
  const [grid, lots, { items }] = await Promise.all([
    labelGrid(db, id),
    lotsOfRequest(request),
    bookOfRequest(request),
  ]);
  const measure: Measure = request.reading.units === 'us' ? 'in' : 'mm';
  const lengthsIn = (of: LabelGrid) =>
    Object.fromEntries(
      Object.entries(of).map(([name, value]) => [
        name,
        String(typeof value === 'number' && name.endsWith('Mm') ? lengthIn(value, measure) : value),
      ]),
    ) as LabelGridForm['values'];
  const canned = lots.filter(({ origin, jarKind }) => origin === 'put-up' && jarKind !== null);
  const lastCanned = canned
    .map(({ madeOn }) => madeOn)
    .toSorted()
    .at(-1);
  const isOfLastDay = (lot: (typeof lots)[number]) => canned.includes(lot) && lot.madeOn === lastCanned;
  const countField = ({ id: lot }: (typeof lots)[number]) => `lot-${lot}`;
  const counts = fieldsFrom(sentBack)('labels', {
    start: '1',
    ...Object.fromEntries(
      lots.map((lot) => [countField(lot), isOfLastDay(lot) ? String(Math.ceil(lot.unitsLeft)) : '']),
    ),
  });
  const whole = counts.problems[''];
  return reply.page(
    LabelsPage,
    {
      frame: await reply.frame(whole === undefined ? message : { tone: 'problem', text: whole }),
      perSheet: grid.columns * grid.rows,
      counts,
      ownAddress: addressHere(request),
      grid: {
        form: statesFrom(() => reply.formKeys(), sentBack)('grid', lengthsIn(grid)),
        measure,
      },
      sheets: papersFirst(measure).flatMap((paper) =>
        commonSheets[paper]
          .map((sheet) => ({ ...grid, ...sheet, paper }))
          .filter((sheet) => JSON.stringify(sheet) !== JSON.stringify({ ...grid }))
          .map((sheet) => ({
            keys: reply.formKeys(),
            words: `${paper}: ${sheet.columns} across, ${sheet.rows} down, each ${lengthIn(sheet.widthMm, measure)} × ${lengthIn(sheet.heightMm, measure)} ${measure}`,
            values: lengthsIn(sheet),
          })),
      ),
      lots: lots
        .toSorted(
          (one, other) =>
            Number(isOfLastDay(other)) - Number(isOfLastDay(one)) ||
            (one.madeOn > other.madeOn ? -1 : one.madeOn < other.madeOn ? 1 : 0),
        )
        .flatMap((lot) => {
          const item = items.find((one) => one.id === lot.itemId);
          return item === undefined
            ? []
            : [
                {
                  id: lot.id,
                  item: { name: item.name, family: item.family },
                  words: `${lot.batchCode}, ${formatDate(lot.madeOn, request.reading)}, ${amountOf(item, lot.unitsLeft, request.reading, lot.jarKind)} left`,
                  field: countField(lot),
                },
              ];
        }),
    },
    sentBack?.status,
  );
}

/** The paper that goes with the measure first. */
const papersFirst = (measure: Measure) => (measure === 'in' ? papers.toReversed() : papers);
