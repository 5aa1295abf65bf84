import type { FastifyRequest } from 'fastify';
import type { z } from 'zod';
import { type Outcome, refused } from '../../../shared/problems.ts';
import { fitting, readForm } from '../../../shared/schemas/form-fields.ts';
import type { Reader, Rules } from '../../records/record.ts';

/** The household as it is while a form is read. */
export const readerOf = (request: FastifyRequest): Reader => ({
  trx: request.server.db,
  householdId: request.household.id,
  today: request.today,
});

/**
 * Reads a form by its schema. Where something cannot be read, what the rules of its record say of the rest is told along with it:
 * all that is wrong with a form is told at once. Where everything can be read the record asks its rules itself.
 */
export async function readByRules<Schema extends z.ZodType>(
  request: FastifyRequest,
  schema: Schema,
  body: unknown,
  rules: Rules<z.output<Schema>>,
): Promise<Outcome<z.output<Schema>>> {
  const asked = readForm(schema, body);
  if (asked.ok) return asked;
  return refused(...asked.problems, ...(await rules(readerOf(request), fitting(schema, body))));
}
