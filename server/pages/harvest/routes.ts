import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { bounds } from '../../../shared/bounds.ts';
import { counted } from '../../../shared/counting.ts';
import { dateWords } from '../../../shared/date-words.ts';
import type { CropKey } from '../../../shared/ids.ts';
import { asCents } from '../../../shared/money.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import {
  choiceField,
  dateField,
  fitting,
  readForm,
  typedValues,
} from '../../../shared/schemas/form-fields.ts';
import { groundForm, latenessForm } from '../../../shared/schemas/ground.ts';
import { harvestWindowForm, sourceAsTyped } from '../../../shared/schemas/harvest.ts';
import { type CalendarDate, daysBetween, yearOf } from '../../../shared/week.ts';
import { findGround } from '../../../src/harvest/find-ground.ts';
import { longestShiftDays } from '../../../src/harvest/season.ts';
import type { Source } from '../../../src/household/source.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { HarvestPage } from '../../../views/pages/harvest/harvest-page.tsx';
import { SourcePage } from '../../../views/pages/harvest/source-page.tsx';
import { SourceRow } from '../../../views/pages/harvest/source-row.tsx';
import { problemsIn } from '../../records/record.ts';
import {
  harvestWindowRules,
  retireSource,
  saveHarvestWindow,
  saveSource,
  sayFirstPicked,
} from '../../records/year/harvest.ts';
import { renewSeasons, saveGround, saveLateness, sayFailed } from '../../records/year/seasons.ts';
import { answerForm, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { cropChoices } from '../shared/crop-choices.ts';
import { recordingOf, seeOther, sentText } from '../shared/posting.ts';
import { inPounds } from '../shared/produce/typed.ts';
import { pricedUnitChoices, produceUnitChoices } from '../shared/produce/units.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { wantsPart } from '../shared/wants-part.ts';
import { harvestPicture, sourceOf } from './harvest-picture.ts';
import { pickedForm, presentHarvest, presentSource } from './present-harvest.ts';
import { blankSource, presentWindows, sourceValues } from './present-source.ts';

type OfSource = { Params: { source: string } };
const harvestQuery = z.object({ said: z.string().max(20).catch(''), open: z.string().max(80).catch('') });

/** The page at a source's row, opened. */
const rowOf = ({ id }: Pick<Source, 'id'>, more = '') =>
  `/harvest?open=${encodeURIComponent(id)}${more}#source-${encodeURIComponent(id)}`;
const saved: Message = { tone: 'done', text: 'Saved. Plan again to see what it changes.' };

/** A crop that a page missed, chosen already. */
const cropAsked = (request: FastifyRequest): string =>
  z.object({ crop: z.string().max(60).catch('') }).parse(request.query).crop;

const harvest: FastifyPluginAsync = async (app) => {
  app.get('/harvest', async (request, reply) => {
    const { said, open } = harvestQuery.parse(request.query);
    const picture = await harvestPicture(request);

    return reply.page(HarvestPage, {
      frame: await reply.frame(said === 'saved' ? saved : null),
      ...presentHarvest(picture, () => reply.formKeys(), { open }),
    });
  });

  app.post('/harvest-ground', async (request, reply) => {
    return answerForm(request, reply, await writeGround(request), {
      formId: 'ground',
      done: '/harvest?said=saved',
      again: (sentBack) => sendHarvest(request, reply, sentBack),
    });
  });

  app.post('/harvest-year', async (request, reply) => {
    await writeLateness(request, null);
    return seeOther(reply, '/harvest?said=saved');
  });

  app.post<OfSource>('/harvest/:source/lateness', async (request, reply) => {
    const source = sourceOf(await harvestPicture(request), request.params.source);
    await writeLateness(request, source.crop);
    return seeOther(reply, rowOf(source, '&said=saved'));
  });

  app.post<OfSource>('/harvest/:source/failure', async (request, reply) => {
    const source = sourceOf(await harvestPicture(request), request.params.source);
    const failed = sentText(request, 'failed') === 'yes';
    await sayFailed(recordingOf(request), { sourceId: source.id, failed });
    return seeOther(reply, rowOf(source, '&said=saved'));
  });

  app.get('/harvest/new', (request, reply) => sendSource(request, reply, null, null));

  app.get<OfSource>('/harvest/:source', async (request, reply) => {
    const source = sourceOf(await harvestPicture(request), request.params.source);

    return sendSource(request, reply, source, null);
  });

  app.post('/harvest', async (request, reply) => {
    return answerForm(request, reply, await writeSource(request, ''), {
      formId: 'source',
      done: ({ sourceId }) => `/harvest/${sourceId}`,
      again: (sentBack) => sendSource(request, reply, null, sentBack),
    });
  });

  app.post<OfSource>('/harvest/:source', async (request, reply) => {
    const source = sourceOf(await harvestPicture(request), request.params.source);
    const outcome = await writeSource(request, source.id);
    if (outcome.ok) {
      // A garden's dates are guessed otherwise than a market's.
      const recording = recordingOf(request);
      await renewSeasons({ ...recording, key: `${recording.key} seasons` }, request.server.reference);
    }
    return answerForm(request, reply, outcome, {
      formId: 'source',
      done: rowOf(source, '&said=saved'),
      again: (sentBack) => sendSource(request, reply, source, sentBack),
    });
  });

  app.post<OfSource>('/harvest/:source/retirement', async (request, reply) => {
    const source = sourceOf(await harvestPicture(request), request.params.source);
    await retireSource(recordingOf(request), source.id);

    return seeOther(reply, '/harvest?said=saved');
  });

  app.post<{ Params: { source: string; year: string } }>(
    '/harvest/:source/windows/:year',
    async (request, reply) => {
      const source = sourceOf(await harvestPicture(request), request.params.source);
      const year = Number(request.params.year);
      return answerForm(request, reply, await writeWindow(request, source, year), {
        formId: `window-${year}`,
        done: rowOf(source, '&said=saved'),
        again: (sentBack) => sendSource(request, reply, source, sentBack),
      });
    },
  );

  app.post<OfSource>('/harvest/:source/first-picking', async (request, reply) => {
    const source = sourceOf(await harvestPicture(request), request.params.source);
    const asPart = async (sentBack: SentBack | null) => {
      const picture = await harvestPicture(request);
      const row = presentSource(picture, sourceOf(picture, source.id), () => reply.formKeys(), sentBack);
      return reply.part(SourceRow, row, sentBack?.status);
    };
    return answerForm(request, reply, await writeFirstPicked(request, source), {
      formId: pickedForm(source),
      renamed: { firstPickedOn: 'date' },
      done: () => (wantsPart(request) ? asPart(null) : rowOf(source)),
      again: (sentBack) => (wantsPart(request) ? asPart(sentBack) : sendHarvest(request, reply, sentBack)),
    });
  });
};

export default harvest;

const nothingSaid = { town: '', station: '', lastFrost: null, firstFrost: null, strawberriesFrom: null };

async function writeGround(request: FastifyRequest): Promise<Outcome<unknown>> {
  const asked = readForm(groundForm, request.body);
  const { reference } = request.server;
  const said = { ...nothingSaid, ...fitting(groundForm, request.body) };
  const ground = findGround(said, request.household.altitudeFt, reference);
  return asked.ok && ground.ok
    ? saveGround(recordingOf(request), ground.value, reference)
    : refused(...problemsIn(asked, ground));
}

/** A choice that is not on the list says nothing. */
async function writeLateness(request: FastifyRequest, crop: CropKey | null): Promise<void> {
  const asked = readForm(latenessForm, request.body);
  if (!asked.ok) return;
  const { days } = asked.value;
  await saveLateness(recordingOf(request), {
    year: yearOf(request.today),
    crop,
    days: days === '' ? null : Number(days),
  });
}

async function writeSource(
  request: FastifyRequest,
  sourceId: string,
): Promise<Outcome<{ sourceId: string }>> {
  const typed = typedValues(request.body);
  const { values, problems, pricedIn, asTyped } = inPounds(request, typed, typed.crop ?? '', [
    { field: 'pricePerLb', unitField: 'priceUnit', isPrice: true },
    { field: 'lbPerPlant', unitField: 'plantUnit', most: bounds.lbPerPlant.to },
  ]);
  const asked = readForm(sourceAsTyped, { ...values, sourceId });
  if (!asked.ok || problems.length > 0)
    return refused(...(asked.ok ? [] : asked.problems.map(asTyped)), ...problems);
  const { poorYearsInTen, poorYearPercent, ...source } = asked.value;
  return saveSource(recordingOf(request), {
    ...source,
    pricedIn: pricedIn === null ? null : { measure: pricedIn.measure, cents: asCents(pricedIn.price * 100) },
    poorYearChance: poorYearsInTen / 10,
    poorYearShare: poorYearPercent / 100,
  });
}

async function writeWindow(request: FastifyRequest, source: Source, year: number): Promise<Outcome<unknown>> {
  const { values, problems, asTyped } = inPounds(request, typedValues(request.body), source.crop, [
    { field: 'lbPerWeek', unitField: 'amountUnit', most: bounds.lbPerWeek.to },
  ]);
  const sent = { ...values, sourceId: source.id };
  const asked = await readByRules(request, harvestWindowForm, sent, harvestWindowRules);
  const { beginsOn } = fitting(harvestWindowForm, sent);
  const inYear = beginsOn === undefined ? found(null) : beginsIn(year, beginsOn);
  if (asked.ok && inYear.ok && problems.length === 0)
    return saveHarvestWindow(recordingOf(request), asked.value);
  return refused(...problemsIn(asked, inYear).map(asTyped), ...problems);
}

const beginsIn = (year: number, beginsOn: CalendarDate): Outcome<null> =>
  yearOf(beginsOn) === year
    ? found(null)
    : refused({
        code: 'window-of-another-year',
        path: ['beginsOn'],
        message: `This is the harvest of ${year}, and that day is in ${yearOf(beginsOn)}. Write a day of ${year}, or use the form of the other year.`,
      });

const pickedDay = z.object({ day: choiceField('day', ['today', 'other', 'none']) });
const otherDay = z.object({ date: dateField('First picked on') });

async function writeFirstPicked(request: FastifyRequest, source: Source): Promise<Outcome<unknown>> {
  const day = readForm(pickedDay, request.body);
  if (!day.ok) return day;
  const on = day.value.day === 'none' ? found(null) : dayPicked(request, source, day.value.day);
  if (!on.ok) return on;
  return sayFirstPicked(recordingOf(request), {
    sourceId: source.id,
    year: yearOf(on.value ?? request.today),
    firstPickedOn: on.value,
  });
}

function dayPicked(request: FastifyRequest, source: Source, which: 'today' | 'other'): Outcome<CalendarDate> {
  const read = which === 'today' ? found({ date: request.today }) : readForm(otherDay, request.body);
  if (!read.ok) return read;
  const { date } = read.value;
  const window = source.windows.find(({ year }) => year === yearOf(date));
  if (!window || Math.abs(daysBetween(window.beginsOn, date)) <= longestShiftDays) return found(date);
  return refused({
    code: 'first-picked-too-far',
    path: ['firstPickedOn'],
    message: `${dateWords(date)} is more than ${counted(longestShiftDays, 'day')} from the usual begin, ${dateWords(window.beginsOn)}. Check the date, or change the usual dates of this source.`,
  });
}

async function sendHarvest(
  request: FastifyRequest,
  reply: FastifyReply,
  sentBack: SentBack,
): Promise<FastifyReply> {
  const props = presentHarvest(await harvestPicture(request), () => reply.formKeys(), { sentBack });
  return reply.page(HarvestPage, { frame: await reply.frame(), ...props }, sentBack.status);
}

async function sendSource(
  request: FastifyRequest,
  reply: FastifyReply,
  source: Source | null,
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const { recipes, published, today, reading, ground } = await harvestPicture(request);
  const form = statesFrom(() => reply.formKeys(), sentBack)(
    'source',
    source === null
      ? { ...blankSource(reading), crop: cropAsked(request) }
      : sourceValues(source, reading, request.server.reference),
  );
  const action = source === null ? '/harvest' : `/harvest/${source.id}`;
  return reply.page(
    SourcePage,
    {
      frame: await reply.frame(),
      title: source?.name ?? 'A new source',
      source: {
        action,
        form,
        crops: cropChoices(recipes, published, form.values.crop, 'Choose a crop'),
        units: produceUnitChoices,
        pricedUnits: pricedUnitChoices,
        save: source === null ? 'Add, then write down its dates' : 'Save the source',
      },
      windows:
        source === null
          ? []
          : presentWindows(source, {
              ground,
              today,
              reading,
              keys: () => reply.formKeys(),
              sentBack,
            }),
      retire: source === null ? null : { action: `${action}/retirement`, keys: reply.formKeys() },
    },
    sentBack?.status,
  );
}
