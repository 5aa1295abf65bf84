import { readdirSync } from 'node:fs';
import { z } from 'zod';
import type { FieldBound } from '../../shared/schemas/form-fields.ts';

/** A field of a form that takes a number, a sum of money or a text. */
export interface SaidField {
  /** `cannerForm.quartJars` */
  readonly name: string;
  readonly says: FieldBound;
}

const inside = (schema: z.ZodType): readonly z.ZodType[] => {
  const { def } = schema as unknown as {
    readonly def: Readonly<Record<string, unknown>> & { readonly options?: readonly z.ZodType[] };
  };
  return [def.innerType, def.in, def.element, ...(def.options ?? [])].filter(
    (one): one is z.ZodType => one instanceof z.ZodType,
  );
};

function fieldsOf(schema: z.ZodType, name: string): readonly SaidField[] {
  const says = schema.meta()?.says as FieldBound | undefined;
  if (says !== undefined) return [{ name, says }];
  if (schema instanceof z.ZodObject)
    return Object.entries(schema.shape).flatMap(([field, one]) =>
      fieldsOf(one as z.ZodType, `${name}.${field}`),
    );
  return inside(schema).flatMap((one) => fieldsOf(one, name));
}

/** Every number, sum of money and text that a form under `shared/schemas/` takes, by the name of the form and its field. */
export async function saidFields(): Promise<readonly SaidField[]> {
  const folder = new URL('../../shared/schemas/', import.meta.url);
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
    (file) => file.endsWith('.ts') && !file.startsWith('reference'),
  );
  const found: SaidField[] = [];
  for (const file of files) {
    const exported = (await import(new URL(file, folder).href)) as Readonly<Record<string, unknown>>;
    for (const [name, value] of Object.entries(exported))
      if (value instanceof z.ZodType) found.push(...fieldsOf(value, name));
  }
  return found;
}
