import type { Need } from './roles.ts';

/** The first line whose method and beginning fit says what a route needs. */
const lines: readonly (readonly [method: 'GET' | 'POST' | 'any', begins: string, need: Need])[] = [
  ['any', '/assets/', 'anyone'],
  ['GET', '/robots.txt', 'anyone'],
  ['GET', '/favicon.ico', 'anyone'],
  ['GET', '/health', 'anyone'],
  ['GET', '/ready', 'anyone'],
  ['GET', '/service-worker.js', 'anyone'],
  ['GET', '/offline.js', 'anyone'],
  ['GET', '/manifest.webmanifest', 'anyone'],
  ['any', '/sign-in', 'anyone'],
  ['any', '/sign-out', 'anyone'],
  ['any', '/invitations', 'anyone'],
  ['any', '/passphrase', 'anyone'],
  ['any', '/mail-address', 'anyone'],
  // The secret in the address is the permission; calendar programs cannot sign in.
  ['GET', '/calendar/:token.ics', 'anyone'],
  // What it says of the interface holds nothing of any household.
  ['GET', '/api/v1/openapi.json', 'anyone'],
  ['GET', '/api/v1/', 'thing reads'],
  ['POST', '/api/v1/', 'thing takes'],
  ['any', '/connected-things', 'own'],
  ['any', '/start', 'person'],
  ['any', '/households/removal', 'own'],
  ['any', '/households', 'person'],

  ['POST', '/shelf/', 'record'],
  ['POST', '/waiting/', 'record'],
  ['POST', '/canning-day/', 'record'],
  ['POST', '/stages', 'record'],
  ['POST', '/set-aside', 'record'],
  ['POST', '/batches/', 'record'],
  ['POST', '/found-unsealed', 'record'],
  ['POST', '/power-cut', 'record'],
  ['POST', '/harvest/:source/first-picking', 'record'],
  ['POST', '/buying/', 'record'],

  ['POST', '/upkeep/done', 'record'],
  ['POST', '/upkeep/', 'plan'],

  ['POST', '/notices/settings', 'own'],
  ['POST', '/notices/letters', 'own'],
  ['POST', '/notices/', 'record'],
  ['POST', '/calendar/', 'own'],
  ['POST', '/kitchen/household', 'own'],
  ['POST', '/files/household', 'own'],
  ['any', '/people/self', 'read'],
  ['POST', '/people/self/device', 'read'],
  ['GET', '/people/events', 'own'],
  ['POST', '/people', 'own'],

  ['POST', '/glut', 'plan'],
  // Asks the planner and changes nothing.
  ['POST', '/year/', 'read'],
  ['POST', '/plan', 'plan'],
  ['POST', '/harvest', 'plan'],
  ['POST', '/targets/', 'plan'],
  ['POST', '/items', 'plan'],
  ['POST', '/kitchen/', 'plan'],
  ['POST', '/look-back/', 'plan'],
  ['POST', '/labels/', 'plan'],
  ['POST', '/files/', 'plan'],

  ['GET', '/', 'read'],
];

/** What a route needs, or null when no line speaks of it; such a route is the owner's alone. */
export function needOf(method: string, url: string): Need | null {
  const wanted = method === 'HEAD' ? 'GET' : method;
  const line = lines.find(
    ([known, begins]) => (known === 'any' || known === wanted) && url.startsWith(begins),
  );
  return line?.[2] ?? null;
}
