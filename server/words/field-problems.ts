import type { Problem } from '../../shared/problems.ts';
import type { FieldProblems } from '../../views/parts/form.tsx';

/**
 * Messages by the field they stand beside. `fields` are the names the form shows; what belongs to none of them stands at
 * the head of the form. `renamed` leads from a field of the record to the field a person sees.
 */
export function fieldProblems(
  problems: readonly Problem[],
  fields: readonly string[],
  renamed: Readonly<Record<string, string>> = {},
): FieldProblems {
  const messages: Record<string, string> = {};
  for (const { path, message } of problems) {
    const last = String(path.at(-1) ?? '');
    const name = renamed[last] ?? last;
    const place = fields.includes(name) ? name : '';
    messages[place] = messages[place] === undefined ? message : `${messages[place]} ${message}`;
  }
  return messages;
}
