// Keeps the page to take a jar when there is no signal. A take that cannot be sent waits on this device under its own
// key, and is sent when it can be; the server counts a key once, however often it comes.

const kept = 'shelf';
const shelfPage = '/shelf';
const waitedFor = 6000;
/** After these another person or household may look at this device. */
const changesWhoLooks = /^\/(sign-out|sign-in|start|invitations|people\/owner)(\/|$)/;
const takes = /^\/shelf\/([a-z0-9-]+)\/takes$/;

self.addEventListener('install', (event) => {
  event.waitUntil(keepShelf().then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(self.clients.claim().then(tellPages));
});

self.addEventListener('message', (event) => {
  const { type, id } = event.data ?? {};
  if (type === 'deliver') event.waitUntil(deliver());
  if (type === 'forget') event.waitUntil(forget(id).then(tellPages));
});

self.addEventListener('sync', (event) => {
  if (event.tag === 'takes') event.waitUntil(deliver());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (origin !== self.location.origin) return;
  if (request.method === 'POST' && takes.test(pathname)) event.respondWith(takeOrWait(request, pathname));
  else if (request.method === 'POST' && changesWhoLooks.test(pathname))
    event.waitUntil(caches.open(kept).then((cache) => cache.delete(shelfPage)));
  else if (request.method !== 'GET') return;
  else if (request.mode === 'navigate') event.respondWith(pageOrShelf(event, request, pathname));
  else if (pathname.startsWith('/assets/') || pathname === '/offline.js')
    event.respondWith(assetOrKept(request));
});

/** Keeps the shelf and everything it is drawn with. */
async function keepShelf(answer) {
  try {
    const page = answer ?? (await fetch(shelfPage, { credentials: 'same-origin' }));
    const cache = await caches.open(kept);
    // A page that leads elsewhere, or is refused, asks to sign in: what was kept is not for whoever comes next.
    if (page.redirected || page.type === 'opaqueredirect' || page.status === 401 || page.status === 403)
      return cache.delete(shelfPage);
    if (!page.ok) return;
    const text = await page.clone().text();
    await cache.put(shelfPage, page);
    const own = new Set(['/offline.js', ...(text.match(/\/assets\/[\w.-]+/g) ?? [])]);
    for (const path of own) {
      const asset = (await cache.match(path)) ?? (await fetch(path));
      if (!asset.ok) continue;
      if (path.endsWith('.css')) {
        const css = await asset.clone().text();
        for (const font of css.match(/\/assets\/[\w.-]+/g) ?? []) own.add(font);
      }
      if ((await cache.match(path)) === undefined) await cache.put(path, asset);
    }
  } catch {
    // Without a signal there is nothing newer to keep.
  }
}

async function keepShelfIfNone() {
  if ((await (await caches.open(kept)).match(shelfPage)) === undefined) await keepShelf();
}

async function pageOrShelf(event, request, pathname) {
  try {
    const answer = await fetch(request);
    if (pathname === shelfPage && new URL(request.url).search === '')
      event.waitUntil(keepShelf(answer.clone()));
    else if (!pathname.startsWith('/sign-in')) event.waitUntil(keepShelfIfNone());
    return answer;
  } catch (cause) {
    const shelf = await (await caches.open(kept)).match(shelfPage);
    if (shelf === undefined) throw cause;
    return shelf;
  }
}

async function assetOrKept(request) {
  const cache = await caches.open(kept);
  const { pathname } = new URL(request.url);
  if (pathname.startsWith('/assets/')) return (await cache.match(pathname)) ?? fetch(request);
  try {
    return await fetch(request);
  } catch (cause) {
    const asset = await cache.match(pathname);
    if (asset === undefined) throw cause;
    return asset;
  }
}

/** Sends a take; when no answer comes, it waits. Sent and lost or not sent at all: the key makes it count once. */
async function takeOrWait(request, pathname) {
  const form = new URLSearchParams(await request.clone().text());
  const isPart = request.headers.get('hx-request') === 'true';
  const formKey = form.get('key') ?? '';
  // A page kept from earlier carries the key of a take that is long counted.
  const key = formKey !== '' && !(await isUsed(formKey)) ? formKey : crypto.randomUUID();
  form.set('key', key);
  try {
    const answer = await fetch(pathname, {
      method: 'POST',
      body: form,
      headers: request.headers.get('hx-request') === null ? {} : headersOf(request),
      credentials: 'same-origin',
      redirect: isPart ? 'follow' : 'manual',
      signal: AbortSignal.timeout(waitedFor),
    });
    if (answer.status >= 502 && answer.status <= 504) throw new Error('the way to the server is closed');
    await use(key);
    return answer;
  } catch {
    await wait(form, key, pathname);
    await tellPages();
    await self.registration.sync?.register('takes').catch(() => {});
    return isPart ? new Response(null, { status: 204 }) : Response.redirect(shelfPage, 303);
  }
}

const headersOf = (request) => {
  const headers = {};
  for (const [name, value] of request.headers) if (name.startsWith('hx-')) headers[name] = value;
  return headers;
};

async function wait(form, key, pathname) {
  const now = new Date();
  const several = form.get('outcome') !== 'took-one';
  await use(key);
  await inStore('takes', 'readwrite', (store) =>
    store.add({
      key,
      household: form.get('household') ?? '',
      person: form.get('person') ?? '',
      takenBy: form.get('takenBy') ?? '',
      itemId: takes.exec(pathname)[1],
      lotId: !several || form.get('picked') !== null ? form.get('lotId') : null,
      units: several ? form.get('units') : '1',
      outcome: form.get('outcome') ?? '',
      occurredOn: several ? dayOf(form, now) : isoDay(now),
      forPromise: several && form.get('forPromise') !== null ? 'yes' : '',
      deviceAt: now.getTime(),
    }),
  );
}

const isoDay = (date) =>
  `${date.getFullYear()}-${String(date.getMonth() + 1).padStart(2, '0')}-${String(date.getDate()).padStart(2, '0')}`;

/** The day that was said, as a date: by the time it is sent, today is another day. */
function dayOf(form, now) {
  const back = (days) => isoDay(new Date(now.getFullYear(), now.getMonth(), now.getDate() - days));
  switch (form.get('day')) {
    case 'yesterday':
      return back(1);
    case 'sunday':
      return back(now.getDay() === 0 ? 7 : now.getDay());
    case 'other':
      return form.get('date') || isoDay(now);
    default:
      return isoDay(now);
  }
}

let delivering = null;
/** Sends what waits, in order; one delivery at a time. */
function deliver() {
  delivering ??= deliverNow().finally(() => {
    delivering = null;
  });
  return delivering;
}

async function deliverNow() {
  const open = (await allWaiting()).filter((take) => take.refused === undefined);
  if (open.length === 0) return tellPages();
  let waiting;
  let answers;
  try {
    const token = await fetch('/shelf/waiting', { credentials: 'same-origin' });
    if (!token.ok || token.redirected) return tellPages();
    const { csrf, household, person } = await token.json();
    // What somebody else took, or on another household's shelf, waits until they are here again.
    waiting = open.filter(
      (take) => take.household === household && (take.person === '' || take.person === person),
    );
    if (waiting.length === 0) return tellPages();
    const sent = await fetch('/shelf/waiting', {
      method: 'POST',
      credentials: 'same-origin',
      headers: { 'content-type': 'application/json', 'csrf-token': csrf },
      body: JSON.stringify({ takes: waiting.map(({ id, takenBy, ...take }) => take) }),
    });
    if (!sent.ok) return tellPages();
    answers = (await sent.json()).takes;
  } catch {
    return tellPages();
  }
  const byKey = new Map(answers.map((answer) => [answer.key, answer]));
  let delivered = 0;
  for (const take of waiting) {
    const answer = byKey.get(take.key);
    if (answer === undefined || answer.state === 'elsewhere') continue;
    if (answer.state === 'refused')
      await inStore('takes', 'readwrite', (store) => store.put({ ...take, refused: answer.message }));
    else {
      await forget(take.id);
      delivered += 1;
    }
  }
  await keepShelf();
  await tellPages(delivered);
}

async function tellPages(delivered = 0) {
  const waiting = await allWaiting();
  for (const page of await self.clients.matchAll({ type: 'window' }))
    page.postMessage({ type: 'waiting', waiting, delivered });
}

const open = () =>
  new Promise((done, failed) => {
    const request = indexedDB.open('waiting-takes', 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('takes', { keyPath: 'id', autoIncrement: true });
      request.result.createObjectStore('used-keys');
    };
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });

/** Settles once the work is on the disk. */
async function inStore(name, mode, work) {
  const db = await open();
  try {
    return await new Promise((done, failed) => {
      const transaction = db.transaction(name, mode);
      const request = work(transaction.objectStore(name));
      transaction.oncomplete = () => done(request.result);
      transaction.onerror = () => failed(transaction.error);
      transaction.onabort = () => failed(transaction.error);
    });
  } finally {
    db.close();
  }
}

const allWaiting = () => inStore('takes', 'readonly', (store) => store.getAll());
const forget = (id) => inStore('takes', 'readwrite', (store) => store.delete(id));
const isUsed = async (key) => (await inStore('used-keys', 'readonly', (store) => store.count(key))) > 0;
const use = (key) => inStore('used-keys', 'readwrite', (store) => store.put(Date.now(), key));
