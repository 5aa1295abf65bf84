import multipart from '@fastify/multipart';
import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { counted, oneOrMore, wordFor } from '../../../shared/counting.ts';
import { found, type Outcome, type Problem, ShelfwardError } from '../../../shared/problems.ts';
import { choiceField, readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { FilesPage } from '../../../views/pages/files/files-page.tsx';
import { ListPage } from '../../../views/pages/files/list-page.tsx';
import { formatNumber } from '../../../views/words/format.ts';
import { csvText } from '../../files/csv-text.ts';
import { householdText, restoreHousehold } from '../../files/household-file.ts';
import { largestFileInBytes } from '../../files/household-reading.ts';
import { buyingCsv, ledgerCsv, planCsv, shelfCsv } from '../../files/household-tables.ts';
import { type ImportDraft, importDraft, importList, keepDraft } from '../../files/keep-list.ts';
import { dateOrders } from '../../files/list-cells.ts';
import {
  type CheckedList,
  listFields,
  type Mapping,
  type ReadList,
  unitsByItem,
} from '../../files/list-import.ts';
import { mostColumns } from '../../files/list-table.ts';
import { calledAlsoIn, type NewListItem, readNewItems } from '../../files/new-list-items.ts';
import { readingProcess } from '../../files/reading-process.ts';
import { itemsOf } from '../../queries/household/items.ts';
import { placesOf } from '../../queries/household/kitchen.ts';
import { recipesNotBelieved } from '../../queries/household/recipes.ts';
import { standingPlanOf } from '../../queries/year/plans.ts';
import { problem } from '../../records/record.ts';
import { amountOf } from '../../words/shelf-units.ts';
import { fieldsFrom, type SentBack, sentBackOf } from '../shared/answer-form.ts';
import { plannedNames } from '../shared/planned-names.ts';
import { recordingOf, seeOther, sentText, statusOf } from '../shared/posting.ts';
import { weightUnit } from '../shared/produce/units.ts';
import { presentFaults, presentNewNames } from './list-preview.ts';

/** A household or a list, and the few bytes of the form around it. */
const largestBodyInBytes = largestFileInBytes + 65_536;

const listKinds = ['stock', 'past use'] as const;
const kindForm = z.object({ kind: choiceField('kind of list', listKinds) });
const pageQuery = z.object({
  said: z.string().max(20).catch(''),
  rows: z.coerce.number().int().catch(0),
  added: z.coerce.number().int().catch(0),
});

const files: FastifyPluginAsync = async (app) => {
  await app.register(multipart, {
    attachFieldsToBody: 'keyValues',
    limits: { fileSize: largestFileInBytes, files: 1, fields: 10, fieldSize: 10_000 },
  });

  app.get('/files', async (request, reply) => {
    const { said, rows, added } = pageQuery.parse(request.query);
    const notCanned = said === 'restored' ? await recipesNotBelieved(app.db, request.household.id) : [];
    return sendFiles(reply, messageOf(said, formatNumber(rows, request.reading), added, notCanned));
  });

  for (const [name, text] of Object.entries(listsOut)) {
    app.get(`/files/${name}.csv`, async (request, reply) =>
      download(reply, 'text/csv; charset=utf-8', `${name}-${request.today}.csv`, await text(request)),
    );
  }

  app.get('/files/household.json', async (request, reply) =>
    download(
      reply,
      'application/json; charset=utf-8',
      `household-${request.today}.json`,
      await householdText(app.db, request.household.id),
    ),
  );

  app.post('/files/household', { bodyLimit: largestBodyInBytes }, async (request, reply) => {
    const outcome =
      sentText(request, 'sure') === ''
        ? refusedWith('sure', 'Tick the box first: everything here is replaced.')
        : await restoreHousehold(recordingOf(request), sentFile(request), { reference: app.reference });
    if (outcome.ok) return seeOther(reply, `/files?said=restored&rows=${outcome.value.rows}`);
    return sendFiles(reply, null, 'household', outcome.problems);
  });

  app.post('/files/lists', { bodyLimit: largestBodyInBytes }, async (request, reply) => {
    const kind = readForm(kindForm, { kind: sentText(request, 'kind') });
    const content = sentFile(request);
    const read = kind.ok ? await readingProcess().read('list', { content, question: null }) : kind;
    if (!kind.ok || !read.ok) return sendFiles(reply, null, 'list', read.ok ? [] : read.problems);

    const id = await keepDraft(
      app.db,
      request.household.id,
      { kind: kind.value.kind, fileName: 'Your list', content: content.toString('utf8') },
      app.now(),
    );
    return seeOther(reply, `/files/lists/${id}`);
  });

  app.get<{ Params: { id: string } }>('/files/lists/:id', async (request, reply) => {
    const looked = await lookAt(request, request.params.id, typedValues(request.query));
    if (!looked.ok) return sendFiles(reply, null, 'list', looked.problems);
    return sendList(request, reply, looked.value, null);
  });

  app.get<{ Params: { id: string } }>('/files/lists/:id/problems.csv', async (request, reply) => {
    const looked = await lookAt(request, request.params.id, typedValues(request.query));
    if (!looked.ok) return sendFiles(reply, null, 'list', looked.problems);
    const text = csvText(
      ['line', 'column', 'what is wrong'],
      looked.value.checked.problems.map(({ line, column, message }) => [line, column, message]),
    );
    return download(reply, 'text/csv; charset=utf-8', 'to-be-mended.csv', text);
  });

  app.post<{ Params: { id: string } }>('/files/lists/:id/import', async (request, reply) => {
    const { id } = request.params;
    const values = typedValues(request.body);
    const newItems = readNewItems(values, await itemsOf(app.db, request.household.id));
    const draft = await importDraft(app.db, request.household.id, id);
    const outcome =
      newItems.ok && draft !== null
        ? await importList(recordingOf(request), {
            draftId: id,
            mapping: mappingIn(values, draft),
            dates: dateOrders.find((order) => order === values.dates) ?? 'year first',
            newItems: newItems.value,
          })
        : newItems;
    if (outcome.ok && 'rows' in outcome.value)
      return seeOther(
        reply,
        `/files?said=imported&rows=${outcome.value.rows}&added=${newItems.ok ? newItems.value.filter(({ sameAs }) => sameAs === null).length : 0}`,
      );

    const problems = outcome.ok ? [] : outcome.problems;
    const asked = await lookAt(request, id, values);
    const looked = newItems.ok && asked.ok ? await lookAt(request, id, values, newItems.value) : asked;
    if (!looked.ok || !asked.ok) return sendFiles(reply, null, 'list', looked.ok ? [] : looked.problems);
    // What is new stays to be asked about: nothing of it is kept yet.
    const shown = {
      ...looked.value,
      checked: { ...looked.value.checked, unknown: asked.value.checked.unknown },
    };
    return sendList(request, reply, shown, sentBackOf(request, problems, { formId: 'list' }));
  });
};

export default files;

const listsOut: Readonly<Record<string, (request: FastifyRequest) => Promise<string>>> = {
  shelf: ({ server, household }) => shelfCsv(server.db, household.id),
  ledger: ({ server, household }) => ledgerCsv(server.db, household.id),
  plan: async (request) =>
    planCsv(await standingPlanOf(request.server.db, request.household.id), await plannedNames(request)),
  buying: async (request) =>
    buyingCsv(
      await standingPlanOf(request.server.db, request.household.id),
      await plannedNames(request),
      request.household.currency,
    ),
};

const refusedWith = (field: string, message: string): Outcome<never> => ({
  ok: false,
  problems: [problem('file-refused', field, message)],
});

const download = (reply: FastifyReply, type: string, name: string, text: string): FastifyReply =>
  reply
    .type(type)
    .header('cache-control', 'no-store')
    .header('content-disposition', `attachment; filename="${name}"`)
    .send(text);

function messageOf(said: string, rows: string, added: number, notCanned: readonly string[]): Message | null {
  if (said === 'imported')
    return {
      tone: 'done',
      text: `${counted(rows, 'row was', 'rows were')} brought in${added === 0 ? '' : `, and ${oneOrMore(added, 'item was', 'items were')} added to what you keep`}.`,
      action: { words: 'Shelf', href: '/shelf' },
    };
  if (said === 'restored')
    return {
      tone: 'done',
      text: `The household was restored: ${counted(rows, 'row')}. ${notCannedWords(notCanned)}Plan again to see its year.`,
      action: { words: 'This week', href: '/' },
    };
  return null;
}

const notCannedWords = (names: readonly string[]): string =>
  names.length === 0
    ? ''
    : `Not canned, because the process in the file is not one tested for them: ${names.join(', ')}. Why stands on the page of each item. `;

/** The one file that was sent; empty when none was. */
function sentFile({ body }: FastifyRequest): Buffer {
  if (typeof body !== 'object' || body === null || !('file' in body)) return Buffer.alloc(0);
  const { file } = body;
  return Buffer.isBuffer(file) ? file : Buffer.from(typeof file === 'string' ? file : '');
}

/** Rows that are told one by one; the rest is counted. */
const rowsShown = 20;

async function sendFiles(
  reply: FastifyReply,
  message: Message | null,
  form: 'list' | 'household' | null = null,
  problems: readonly Problem[] = [],
): Promise<FastifyReply> {
  const rows = problems.filter(({ code }) => code === 'row-unfit').map((one) => one.message);
  const others = problems.filter(({ code }) => code !== 'row-unfit');
  const more = rows.length - rowsShown;
  const count = oneOrMore(formatNumber(rows.length, reply.request.reading), 'value does', 'values do');
  const summary =
    rows.length === 0
      ? []
      : [
          problem(
            'rows-unfit',
            'file',
            `In this saved household ${count} not fit. Nothing was changed. Change them in the file, or save that household again, and send it once more.`,
          ),
        ];
  const fields = fieldsFrom({ formId: form ?? '', typed: {}, problems: [...summary, ...others] });
  return reply.page(
    FilesPage,
    {
      frame: await reply.frame(message),
      keys: () => reply.formKeys(),
      list: fields('list', { file: '' }),
      household: fields('household', { file: '', sure: false }),
      unfitRows: [
        ...rows.slice(0, rowsShown),
        ...(more > 0 ? [`And ${formatNumber(more, reply.request.reading)} more.`] : []),
      ],
    },
    form === null ? 200 : statusOf(problems),
  );
}

interface LookedAt {
  readonly draft: ImportDraft;
  readonly list: ReadList;
  readonly dates: (typeof dateOrders)[number];
  readonly items: readonly Item[];
  readonly checked: CheckedList;
}

/** A list as its columns are named now; as they look like before anybody named them. */
async function lookAt(
  request: FastifyRequest,
  id: string,
  values: Readonly<Record<string, string>>,
  said: readonly NewListItem[] = [],
): Promise<Outcome<LookedAt>> {
  const { db } = request.server;
  const draft = await importDraft(db, request.household.id, id);
  if (draft === null) throw new ShelfwardError('not-found', `files: no list ${id}`);
  const named = listFields[draft.kind].some(({ name }) => values[name] !== undefined);
  const dates = dateOrders.find((order) => order === values.dates) ?? 'year first';
  const [items, places] = await Promise.all([
    itemsOf(db, request.household.id),
    placesOf(db, request.household.id),
  ]);
  const read = await readingProcess().read('list', {
    content: draft.content,
    question: {
      kind: draft.kind,
      mapping: named ? mappingIn(values, draft) : null,
      dates,
      items,
      calledAlso: calledAlsoIn(said, items),
      places,
      today: request.today,
      weighs: weightUnit(request.reading),
    },
  });
  if (!read.ok) return read;
  const { checked } = read.value;
  if (checked === null) throw new Error('files: expected a list that was checked');
  return found({ draft, list: read.value, dates, items, checked });
}

const mappingIn = (values: Readonly<Record<string, string>>, { kind }: ImportDraft): Mapping =>
  Object.fromEntries(
    listFields[kind].flatMap(({ name }) => {
      const column = Number(values[name] === '' ? Number.NaN : values[name]);
      return Number.isInteger(column) && column >= 0 && column < mostColumns ? [[name, column]] : [];
    }),
  );

const dateWords = {
  'year first': '2026-08-17',
  'month first': '8/17/2026',
  'day first': '17.8.2026',
} as const;

async function sendList(
  request: FastifyRequest,
  reply: FastifyReply,
  { draft, list, dates, items: kept, checked }: LookedAt,
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const { reading } = request;
  const count = (units: number): string => formatNumber(units, reading);
  const bad = checked.unfitLines;
  const { mapping } = list;
  const columns = new URLSearchParams([
    ...Object.entries(mapping).map(([name, column]): [string, string] => [name, String(column ?? '')]),
    ['dates', dates],
  ]);
  return reply.page(
    ListPage,
    {
      frame: await reply.frame(),
      id: draft.id,
      fileName: draft.fileName,
      kindWords: draft.kind === 'stock' ? 'What stands on the shelf' : 'What was eaten before',
      fields: listFields[draft.kind].map(({ name, words, isNeeded }) => ({
        name,
        words: isNeeded ? words : `${words} (if there is one)`,
        value: mapping[name] === undefined ? '' : String(mapping[name]),
      })),
      columns: [
        { value: '', words: 'none' },
        ...list.header.map((heading, column) => ({
          value: String(column),
          words: heading === '' ? `column ${column + 1}` : heading,
        })),
      ],
      dates: {
        value: dates,
        choices: dateOrders.map((order) => ({ value: order, words: `like ${dateWords[order]}` })),
      },
      summary: summaryOf(count, { rows: list.rowCount, bad, unknown: checked.unknown.length }),
      message: sentBack?.problems.find(({ code }) => !askedAbout.has(code))?.message ?? null,
      faults: presentFaults(checked.problems),
      faultsHref: `/files/lists/${draft.id}/problems.csv?${columns}`,
      newNames: presentNewNames(checked.unknown, kept, sentBack, reading),
      preview: [...unitsByItem(checked.rows).values()].map(({ item, rows, units }) => ({
        key: item.id,
        name: item.name,
        words: `${amountOf({ ...item, usualJar: null }, units, reading)} in ${counted(count(rows), 'row')}`,
      })),
      bringIn:
        checked.problems.length > 0 && sentBack === null
          ? null
          : { words: `Bring in ${counted(count(list.rowCount), 'row')}`, keys: reply.formKeys() },
    },
    sentBack?.status,
  );
}

/** Said beside the rows and names they belong to. */
const askedAbout = new Set(['row-unfit', 'item-unknown', 'form.field']);

function summaryOf(
  count: (units: number) => string,
  { rows, bad, unknown }: { readonly rows: number; readonly bad: number; readonly unknown: number },
): string {
  const names = oneOrMore(count(unknown), 'name is', 'names are');
  if (bad === 0 && unknown === 0)
    return `${counted(count(rows), 'row')}, and ${wordFor(count(rows), 'it fits', 'all of them fit')}.`;
  if (bad === 0) return `${counted(count(rows), 'row')}; ${names} not kept yet.`;
  const lines = `${counted(count(bad), 'line does', 'lines do')} not fit`;
  return `${counted(count(rows), 'row')}; ${lines}${unknown === 0 ? '' : `, and ${names} not kept yet`}.`;
}
