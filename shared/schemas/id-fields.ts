import { z } from 'zod';

const sent = z.preprocess((raw) => {
  const last = Array.isArray(raw) ? raw.at(-1) : raw;
  return last === undefined || last === null ? '' : String(last).trim();
}, z.string());

const read = <Schema extends z.ZodType>(label: string, schema: Schema) =>
  sent.transform((text, context): z.output<Schema> => {
    const parsed = schema.safeParse(text);
    if (parsed.success) return parsed.data;
    const reason = parsed.error.issues[0]?.message ?? 'Expected another value';
    context.issues.push({
      code: 'custom',
      message: `${label}: ${reason}; found “${text.slice(0, 40)}”. Choose one from the list.`,
      input: text,
    });
    return z.NEVER;
  });

/** An id (or another closed key) that a form sends along; a made-up one is named in the message. */
export const idField = <Schema extends z.ZodType>(label: string, schema: Schema) => read(label, schema);

/** Empty reads as null: none was chosen. */
export const optionalIdField = <Schema extends z.ZodType>(label: string, schema: Schema) =>
  z.union([sent.pipe(z.literal('')).transform(() => null), read(label, schema)]);
