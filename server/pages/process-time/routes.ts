import type { FastifyPluginAsync, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { jarSizes } from '../../../shared/jar.ts';
import { feetPerMetre } from '../../../shared/measures.ts';
import { found, type Outcome, refused, together } from '../../../shared/problems.ts';
import {
  choiceField,
  type FormValues,
  optionalChoiceField,
  optionalDateField,
  optionalTextField,
  readForm,
  typedValues,
} from '../../../shared/schemas/form-fields.ts';
import { decimalSignOf } from '../../../shared/typed-number.ts';
import { gaugeInDate } from '../../../src/preserving/canner.ts';
import { knownAltitude, lookUpLimits } from '../../../src/preserving/lookup/altitude-echo.ts';
import { foodConditions } from '../../../src/preserving/lookup/food-conditions.ts';
import { schedulesFor } from '../../../src/preserving/lookup/process-lookup.ts';
import { gauges, processMethods } from '../../../src/preserving/lookup/schedule.ts';
import { methodRefusal, unsafeMethods } from '../../../src/preserving/lookup/unsafe-methods.ts';
import { forbidden } from '../../../src/preserving/refusal.ts';
import {
  type ProcessAnswer,
  ProcessTimesPage,
} from '../../../views/pages/process-time/process-times-page.tsx';
import { plain } from '../../words/plain-number.ts';
import { helpFor } from '../../words/process-words.ts';
import { fieldsFrom } from '../shared/answer-form.ts';
import { lookUpChoices, namedRefusal, neverCanned, presentAnswer } from './present-process-times.ts';

const lookUpForm = z.object({
  food: optionalTextField('Food', 120),
  other: optionalTextField('Or another food', 120).prefault(''),
  style: optionalTextField('Style', 200).prefault(''),
  pack: choiceField('pack', ['hot', 'raw', 'none']),
  jar: choiceField('jar', jarSizes),
  method: choiceField('canner', [...processMethods, ...unsafeMethods]),
  gauge: optionalChoiceField('gauge', gauges).prefault(''),
  gaugeCheckedOn: optionalDateField('Dial gauge last checked').prefault(''),
  altitude: optionalTextField('Altitude of the kitchen', 40).prefault(''),
  unit: choiceField('unit', ['ft', 'm']).prefault('ft'),
  condition: optionalChoiceField('answer', foodConditions).prefault(''),
  row: optionalTextField('Schedule', 400).prefault(''),
});

const processTimes: FastifyPluginAsync = async (app) => {
  app.get('/process-times', async (request, reply) => {
    const typed = typedValues(request.query);
    const isAsked = typed.food !== undefined;
    const answer = isAsked ? lookUp(request, typed) : null;
    const problems = answer !== null && !answer.ok ? answer.problems : [];
    const form = fieldsFrom({ formId: 'look', typed, problems })('look', blankValues(request));
    const { values } = form;
    const noAltitude = problems.some(({ path }) => path[0] === 'altitude');

    return reply.page(
      ProcessTimesPage,
      {
        frame: await reply.frame(),
        form,
        ...lookUpChoices(app.reference, values.food),
        answer: answer?.ok ? answer.value : null,
        help: helpFor([
          ...(noAltitude || values.altitude === '' ? [{ code: '', path: ['altitudeFt'], message: '' }] : []),
          ...(values.method === 'pressure' && values.gauge === ''
            ? [{ code: '', path: ['gauge'], message: '' }]
            : []),
        ]),
        never: neverCanned,
      },
      answer !== null && !answer.ok ? 422 : 200,
    );
  });
};

export default processTimes;

/** The household's own altitude stands in the form, where it was said; nothing is assumed. */
function blankValues(request: FastifyRequest): FormValues<typeof lookUpForm, 'row'> {
  const { altitudeFt, units } = request.household;
  const isMetric = units === 'metric';
  return {
    food: '',
    other: '',
    style: '',
    pack: 'hot',
    jar: 'pint',
    method: 'boiling-water',
    gauge: '',
    gaugeCheckedOn: '',
    altitude: altitudeFt === null ? '' : plain(isMetric ? altitudeFt / feetPerMetre : altitudeFt),
    unit: isMetric ? 'm' : 'ft',
    condition: '',
  };
}

/** The food of the list, or the other one that was written. */
const foodIn = ({ food = '', other = '' }: Readonly<Record<string, string>>): Outcome<string> =>
  (other.trim() || food.trim()) === ''
    ? refused({
        code: 'food-missing',
        path: ['food'],
        message: 'Choose a food, or write another in your own words.',
      })
    : found(other.trim() || food.trim());

function altitudeIn(
  request: FastifyRequest,
  { altitude = '', unit = '' }: Readonly<Record<string, string>>,
): Outcome<number> {
  const known = knownAltitude(
    request.server.reference.processTimes,
    altitude.trim(),
    unit === 'm' ? 'm' : 'ft',
    {
      decimalSign: decimalSignOf(request.reading.locale),
      limits: lookUpLimits,
    },
  );
  return known.ok ? found(known.value.altitudeFt) : known;
}

/** The same look-up as the command's: one published row, or every rule against it. */
function lookUp(request: FastifyRequest, typed: Readonly<Record<string, string>>): Outcome<ProcessAnswer> {
  const asked = together(readForm(lookUpForm, typed), together(foodIn(typed), altitudeIn(request, typed)));
  if (!asked.ok) return asked;
  const [said, [food, altitudeFt]] = asked.value;
  const { style, pack, jar, gauge, gaugeCheckedOn, condition, row } = said;
  const unsafe = unsafeMethods.find((known) => known === said.method);
  const method = processMethods.find((known) => known === said.method) ?? 'boiling-water';
  const query = {
    foodKey: food,
    ...(style === '' ? {} : { style }),
    pack,
    jar,
    method,
    ...(gauge === null || method !== 'pressure' ? {} : { gauge }),
    altitudeFt,
    conditions: condition === null ? [] : [condition],
  };
  const { reference } = request.server;
  const rule = unsafe ? methodRefusal(unsafe) : namedRefusal(food);
  const ruling = rule
    ? forbidden(rule)
    : gaugeInDate(schedulesFor(reference, query), query, gaugeCheckedOn, request.today, reference);
  return {
    ok: true,
    value: presentAnswer(query, ruling, {
      foodName:
        reference.processTimes.find(({ foodKey }) => foodKey === food)?.food ?? food.replaceAll('-', ' '),
      chosenRow: row === '' ? null : row,
      choose: (rowKey) => `/process-times?${new URLSearchParams({ ...typed, row: rowKey })}#answer`,
      reading: request.reading,
      reference,
    }),
  };
}
