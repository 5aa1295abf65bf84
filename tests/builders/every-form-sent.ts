import type { Asker } from './asker.ts';
import { attribute } from './html-text.ts';
import { filled, type TwoHouseholds } from './two-households.ts';
import { formOf } from './visitor.ts';

const endsTheAsking = /start\/demo|sign-out|sign-ins|\/people\/.*removal|deletion|passphrase/;

/** Opens every page as its owner and sends every form on it, each as it stands there; how many. */
export async function everyFormSent(
  both: TwoHouseholds,
  asker: Asker,
  after: (sentTo: string) => Promise<unknown> = async () => {},
): Promise<number> {
  const sentTo = new Set<string>();
  for (const route of both.app.servedRoutes) {
    if (route.method !== 'GET') continue;
    const url = filled(route.url, (kind) => both.medlar[kind] ?? '1');
    const { body } = await asker.ask('medlar-owner', { method: 'GET', url });
    for (const form of body.match(/<form\b[\s\S]*?<\/form>/g) ?? []) {
      const action = attribute(form, 'action') ?? '';
      if (attribute(form, 'method') !== 'post' || sentTo.has(action) || endsTheAsking.test(action)) continue;
      sentTo.add(action);
      const { _csrf, key, ...values } = formOf(form, action).values;
      await asker.ask('medlar-owner', { method: 'POST', url: action }, values);
      await after(action);
    }
  }
  return sentTo.size;
}
