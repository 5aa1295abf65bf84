import { z } from 'zod';
import { chooseOne, typed } from './form-fields.ts';

type Read<Value> = { readonly value: Value } | { readonly problem: string };

/** How a key that a person types by hand looks: `a week like 2026-W34`. */
type Like = { readonly like: string };

function readKey<Schema extends z.ZodType>(
  label: string,
  schema: Schema,
  text: string,
  written: Like | undefined,
): Read<z.output<Schema>> {
  const parsed = schema.safeParse(text);
  if (parsed.success) return { value: parsed.data };
  const what = label.toLowerCase();
  const echo = `“${text.slice(0, 40)}”`;
  if (written !== undefined)
    return {
      problem:
        text === ''
          ? `${label} is empty. Write ${written.like}.`
          : `${label} cannot be ${echo}. Write ${written.like}.`,
    };
  return { problem: text === '' ? chooseOne(what) : `There is no ${what} ${echo}. ${chooseOne(what)}` };
}

const keyed = <Value>(read: (text: string) => Read<Value>) =>
  typed.transform((text, context): Value => {
    const answer = read(text);
    if ('value' in answer) return answer.value;
    context.issues.push({ code: 'custom', message: answer.problem, input: text });
    return z.NEVER;
  });

/** An id (or another closed key) that a form sends along; a made-up one is named in the message. */
export const idField = <Schema extends z.ZodType>(label: string, schema: Schema, written?: Like) =>
  keyed((text) => readKey(label, schema, text, written));

/** Empty reads as null: none was chosen. */
export const optionalIdField = <Schema extends z.ZodType>(label: string, schema: Schema, written?: Like) =>
  keyed<z.output<Schema> | null>((text) =>
    text === '' ? { value: null } : readKey(label, schema, text, written),
  );
