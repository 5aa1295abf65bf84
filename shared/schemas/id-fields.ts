import { z } from 'zod';
import { typed } from './form-fields.ts';

type Read<Value> = { readonly value: Value } | { readonly problem: string };

function readKey<Schema extends z.ZodType>(
  label: string,
  schema: Schema,
  text: string,
): Read<z.output<Schema>> {
  const parsed = schema.safeParse(text);
  if (parsed.success) return { value: parsed.data };
  const reason = parsed.error.issues[0]?.message ?? 'Expected another value';
  return { problem: `${label}: ${reason}; found “${text.slice(0, 40)}”. Choose one from the list.` };
}

const keyed = <Value>(read: (text: string) => Read<Value>) =>
  typed.transform((text, context): Value => {
    const answer = read(text);
    if ('value' in answer) return answer.value;
    context.issues.push({ code: 'custom', message: answer.problem, input: text });
    return z.NEVER;
  });

/** An id (or another closed key) that a form sends along; a made-up one is named in the message. */
export const idField = <Schema extends z.ZodType>(label: string, schema: Schema) =>
  keyed((text) => readKey(label, schema, text));

/** Empty reads as null: none was chosen. */
export const optionalIdField = <Schema extends z.ZodType>(label: string, schema: Schema) =>
  keyed<z.output<Schema> | null>((text) => (text === '' ? { value: null } : readKey(label, schema, text)));
