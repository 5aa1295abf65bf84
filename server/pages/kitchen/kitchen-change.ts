import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type Outcome, refused } from '../../../shared/problems.ts';
import { dateField, readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { weekHolding } from '../../../shared/week.ts';
import { problemsIn, type Recording, type Rules } from '../../records/record.ts';
import { recordingOf } from '../shared/posting.ts';
import { readByRules, readerOf } from '../shared/read-by-rules.ts';

type Params = Readonly<Record<string, string>>;

/** One form of the kitchen page: where it is sent, where it stands, and what it writes. */
export interface KitchenChange {
  readonly path: string;
  /** Id of the form, which keeps what was typed when it is sent back. */
  readonly form: (params: Params) => string;
  /** Part of the page it stands in. */
  readonly part: string;
  readonly renamed?: Readonly<Record<string, string>>;
  readonly write: (request: FastifyRequest, params: Params) => Promise<Outcome<unknown>>;
}

interface Further<Asked> {
  /** Values of a form that nobody types. */
  readonly extra?: (request: FastifyRequest, params: Params) => object;
  /** What the record holds against it beside the schema. */
  readonly rules?: Rules<Asked>;
}

/** Reads the form by its schema and hands the values to the record. */
export const reading =
  <Schema extends z.ZodType>(
    schema: Schema,
    write: (recording: Recording, value: z.output<Schema>) => Promise<Outcome<unknown>>,
    { extra = () => ({}), rules = () => [] }: Further<z.output<Schema>> = {},
  ): KitchenChange['write'] =>
  async (request, params) => {
    const typed = { ...typedValues(request.body), ...extra(request, params) };
    const asked = await readByRules(request, schema, typed, rules);
    return asked.ok ? write(recordingOf(request), asked.value) : asked;
  };

const dayInWeek = z.object({ dayInWeek: dateField('Any day of the week') });

/** As `reading`; a person names the week by any day in it. */
export const readingWeek =
  <Schema extends z.ZodType>(
    schema: Schema,
    write: (recording: Recording, value: z.output<Schema>) => Promise<Outcome<unknown>>,
    rules: Rules<z.output<Schema>> = () => [],
  ): KitchenChange['write'] =>
  async (request) => {
    const day = readForm(dayInWeek, request.body);
    const week = weekHolding(day.ok ? day.value.dayInWeek : request.today, request.reading.weekStartsOn);
    const sent = { ...typedValues(request.body), week };
    const asked = await readByRules(request, schema, sent, rules);
    if (asked.ok && day.ok) return write(recordingOf(request), asked.value);
    const besides = asked.ok ? await rules(readerOf(request), asked.value) : [];
    const told = [...problemsIn(day, asked), ...besides];
    // Of a week that cannot be read nothing more is told.
    return refused(...(day.ok ? told : told.filter(({ path }) => path[0] !== 'week')));
  };

/** A list of a part: one form adds to it, and each line can be taken off it again. */
export const listChanges = (
  list: Omit<KitchenChange, 'form' | 'write'> & { readonly form: string },
  add: KitchenChange['write'],
  line: string,
  remove: KitchenChange['write'],
): readonly KitchenChange[] => [
  { ...list, form: () => list.form, write: add },
  {
    path: `${list.path}/${line}/removal`,
    form: () => list.form,
    part: list.part,
    write: remove,
  },
];
