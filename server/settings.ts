import { join } from 'node:path';
import { z } from 'zod';
import { found, type Outcome } from '../shared/problems.ts';
import { numberField, optionalTextField, readForm } from '../shared/schemas/form-fields.ts';

/** What the program is told by its environment; read once at the start. */
export interface Settings {
  /** The household's file. */
  readonly databaseFile: string;
  readonly port: number;
}

export const usualPort = 8137;

export const portField = numberField({
  label: 'Port',
  from: 0,
  to: 65_535,
  whole: true,
  example: String(usualPort),
});

const environment = z.object({
  SHELFWARD_DATABASE: optionalTextField('SHELFWARD_DATABASE', 1000),
  SHELFWARD_PORT: portField.prefault(String(usualPort)),
});

/** `SHELFWARD_DATABASE` names another file than `.shelfward/shelfward.sqlite` under the current folder. */
export function readSettings(
  given: Readonly<Record<string, string | undefined>>,
  folder: string,
): Outcome<Settings> {
  const read = readForm(environment, given);
  if (!read.ok) return read;
  const { SHELFWARD_DATABASE: file, SHELFWARD_PORT: port } = read.value;
  return found({ databaseFile: file === '' ? join(folder, '.shelfward', 'shelfward.sqlite') : file, port });
}
