import type { FastifyPluginAsync, FastifyRequest } from 'fastify';
import { DateTime } from 'luxon';
import { z } from 'zod';
import { fahrenheitFrom } from '../../../shared/measures.ts';
import { found, type Outcome, refused, together } from '../../../shared/problems.ts';
import {
  choiceField,
  optionalNumberField,
  readForm,
  tickField,
  typedValues,
} from '../../../shared/schemas/form-fields.ts';
import {
  type Appliance,
  type ChilledFood,
  chilledFoods,
  type FoodSeen,
  type PowerCut,
  powerCutAdvice,
  type Verdict,
} from '../../../src/preserving/afterwards/power-cut.ts';
import { inWords } from '../../../src/preserving/citation.ts';
import { type FoodAdvice, PowerCutPage } from '../../../views/pages/power-cut/power-cut-page.tsx';
import type { Choice } from '../../../views/parts/form.tsx';
import { formatMinutes, withCelsius } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { fieldsFrom } from '../shared/answer-form.ts';

const appliances: readonly Choice[] = [
  { value: 'refrigerator', words: 'The refrigerator' },
  { value: 'freezer-full', words: 'A freezer, full' },
  { value: 'freezer-half-full', words: 'A freezer, half full or less' },
];
const sights: readonly Choice[] = [
  { value: 'not-looked', words: 'Not looked yet' },
  { value: 'ice', words: 'Ice crystals' },
  { value: 'thawed', words: 'No ice left' },
];

const cutForm = z.object({
  appliance: choiceField<Appliance>('refrigerator or freezer', [
    'refrigerator',
    'freezer-full',
    'freezer-half-full',
  ]),
  doorKeptShut: tickField(),
  seen: choiceField('answer', ['not-looked', 'ice', 'thawed']).prefault('not-looked'),
});
/** A reading in the unit the household measures in. */
const warmest = {
  us: { label: 'Warmest reading, if you took one', from: -60, to: 150, unit: '°F', example: '38' },
  metric: { label: 'Warmest reading, if you took one', from: -50, to: 65, unit: '°C', example: '3' },
} as const;

const powerCut: FastifyPluginAsync = async (app) => {
  app.get('/power-cut', async (request, reply) => {
    const typed = typedValues(request.query);
    const isAsked = typed.startedAt !== undefined;
    const cut = isAsked ? cutIn(request, typed) : null;
    const form = fieldsFrom({ formId: 'cut', typed, problems: cut === null || cut.ok ? [] : cut.problems })(
      'cut',
      {
        appliance: 'freezer-full',
        startedAt: '',
        endedAt: '',
        doorKeptShut: true,
        seen: 'not-looked',
        warmest: '',
      },
    );

    return reply.page(
      PowerCutPage,
      {
        frame: await reply.frame(),
        form,
        unit: warmest[request.reading.units].unit,
        appliances,
        sights,
        lasted: cut?.ok
          ? `Without power for ${formatMinutes((cut.value.cut.endedAt - cut.value.cut.startedAt) / 60_000)}`
          : null,
        advice: cut?.ok ? adviceOn(cut.value, request.reading) : [],
      },
      cut !== null && !cut.ok ? 422 : 200,
    );
  });
};

export default powerCut;

interface Cut {
  readonly cut: PowerCut;
  readonly seen: Omit<FoodSeen, 'food'>;
}

function cutIn(request: FastifyRequest, typed: Readonly<Record<string, string>>): Outcome<Cut> {
  const { units } = request.reading;
  const { timeZone } = request.household;
  const asked = readForm(cutForm.extend({ warmest: optionalNumberField(warmest[units]) }), typed);
  const read = together(asked, spanIn(typed, timeZone));
  if (!read.ok) return read;
  const [{ appliance, doorKeptShut, seen, warmest: reading }, [startedAt, endedAt]] = read.value;
  const warmestF = reading === null || units === 'us' ? reading : fahrenheitFrom(reading);
  return found({
    cut: { appliance, startedAt, endedAt, doorKeptShut },
    seen: { iceCrystals: seen === 'not-looked' ? null : seen === 'ice', warmestF },
  });
}

/** From when to when, in milliseconds; each of the two that cannot be read is said. */
function spanIn(
  { startedAt = '', endedAt = '' }: Readonly<Record<string, string>>,
  zone: string,
): Outcome<readonly [number, number]> {
  const span = together(instantIn(startedAt, 'startedAt', zone), instantIn(endedAt, 'endedAt', zone));
  if (!span.ok || span.value[1] > span.value[0]) return span;
  return refused({
    code: 'ends-before-start',
    path: ['endedAt'],
    message: 'The power cannot have come back before it went out. Choose a later time.',
  });
}

function instantIn(text: string, field: string, zone: string): Outcome<number> {
  const read = DateTime.fromISO(text.trim().replace(' ', 'T'), { zone });
  return read.isValid && text.includes(':')
    ? found(read.toMillis())
    : refused({
        code: 'time-unreadable',
        path: [field],
        message:
          text.trim() === ''
            ? 'Choose the day and the time.'
            : `“${text.slice(0, 40)}” is no day and time. Choose both, like August 17, 2:30 PM.`,
      });
}

const inFreezer: readonly ChilledFood[] = [
  'frozen-vegetables',
  'frozen-fruit-or-juice',
  'meat-fish-poultry',
  'cooked-dishes-and-soups',
];
const inRefrigerator: readonly ChilledFood[] = chilledFoods.filter((food) => !food.startsWith('frozen'));

const adviceOn = ({ cut, seen }: Cut, reading: Reading): readonly FoodAdvice[] =>
  (cut.appliance === 'refrigerator' ? inRefrigerator : inFreezer).map((food) => {
    const { verdict, text, source } = powerCutAdvice(cut, { food, ...seen });
    return {
      key: food,
      food: foodWords[food],
      verdict: verdictWords[verdict],
      text: withCelsius(text, reading),
      source: inWords(source),
    };
  });

const verdictWords: Readonly<Record<Verdict, string>> = {
  keep: 'Keep',
  refreeze: 'Refreeze',
  'cook-or-refreeze': 'Refreeze or cook',
  discard: 'Discard',
};

const foodWords: Readonly<Record<ChilledFood, string>> = {
  'meat-fish-poultry': 'meat, fish and poultry',
  'cooked-dishes-and-soups': 'cooked dishes, soups and stock',
  'opened-low-acid-jar': 'opened jars of vegetables, beans or meat',
  'cut-vegetables': 'cut vegetables',
  'frozen-vegetables': 'frozen vegetables',
  'frozen-fruit-or-juice': 'frozen fruit and juice',
  'jam-pickles-condiments': 'jam, pickles and condiments',
};
