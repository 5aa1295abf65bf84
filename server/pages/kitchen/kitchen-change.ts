import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type Outcome, refused } from '../../../shared/problems.ts';
import { dateField, readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { weekHolding } from '../../../shared/week.ts';
import type { Recording } from '../../records/record.ts';
import { recordingOf } from '../shared/posting.ts';

type Params = Readonly<Record<string, string>>;

/** One form of the kitchen page: where it is sent, where it stands, and what it writes. */
export interface KitchenChange {
  readonly path: string;
  /** Name of the form, which keeps what was typed when it is sent back. */
  readonly form: (params: Params) => string;
  /** Part of the page it stands in. */
  readonly part: string;
  readonly fields: readonly string[];
  readonly renamed?: Readonly<Record<string, string>>;
  readonly write: (request: FastifyRequest, params: Params) => Promise<Outcome<unknown>>;
}

/** Reads the form by its schema and hands the values to the record. */
export const reading =
  <Schema extends z.ZodType>(
    schema: Schema,
    write: (recording: Recording, value: z.output<Schema>) => Promise<Outcome<unknown>>,
    extra: (request: FastifyRequest, params: Params) => object = () => ({}),
  ): KitchenChange['write'] =>
  async (request, params) => {
    const asked = readForm(schema, { ...typedValues(request.body), ...extra(request, params) });
    return asked.ok ? write(recordingOf(request), asked.value) : asked;
  };

const dayInWeek = z.object({ dayInWeek: dateField('Any day of the week') });

/** As `reading`; a person names the week by any day in it. */
export const readingWeek =
  <Schema extends z.ZodType>(
    schema: Schema,
    write: (recording: Recording, value: z.output<Schema>) => Promise<Outcome<unknown>>,
  ): KitchenChange['write'] =>
  async (request) => {
    const day = readForm(dayInWeek, request.body);
    const week = weekHolding(day.ok ? day.value.dayInWeek : request.today, request.reading.weekStartsOn);
    const asked = readForm(schema, { ...typedValues(request.body), week });
    if (!day.ok) return asked.ok ? day : refused(...day.problems, ...asked.problems);
    return asked.ok ? write(recordingOf(request), asked.value) : asked;
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
    fields: [],
    write: remove,
  },
];
