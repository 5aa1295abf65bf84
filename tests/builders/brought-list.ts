import { type Answer, formOf, type Visitor } from './visitor.ts';

/** Sends a list to the page of files and, where it was read, takes it in as it was understood. */
export async function bringList(
  visitor: Visitor,
  content: string,
  kind: 'stock' | 'past use' = 'stock',
): Promise<Answer> {
  const { _csrf = '', key = '' } = formOf((await visitor.open('/files')).body, '/files/lists').values;
  const sent = await visitor.upload('/files/lists', { _csrf, key, kind }, content);
  return sent.status === 303
    ? visitor.submitOn(sent.location, { form: `${sent.location.split('?')[0]}/import` })
    : sent;
}
