// Keeps the pages to take a jar and to shop by when there is no signal. Every take and every line bought is on this device's
// disk under its own key before it is sent, and leaves it when the server has answered: a page that is reloaded, closed or killed meanwhile loses nothing. What
// cannot be sent waits and is sent when it can be; the server counts a key once, however often it comes.

const kept = 'shelf';
const shelfPage = '/shelf';
const listPage = '/buying';
const pagesKept = [shelfPage, listPage];
const signInPage = '/sign-in';
const ownPage = '/people/self';
const waitedFor = 6000;
/** After these another person or household may look at this device. */
const changesWhoLooks = /^\/(sign-out|sign-in|start|invitations|people\/owner|people\/self\/device)(\/|$)/;
const takes = /^\/shelf\/([a-z0-9-]+)\/takes$/;
const lines = /^\/buying\/(week\/)?lines$/;

self.addEventListener('install', (event) => {
  event.waitUntil(keepShelf().then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(self.clients.claim().then(forgetOldKeys).then(tellPages));
});

self.addEventListener('message', (event) => {
  const { type, id } = event.data ?? {};
  const [answerTo] = event.ports;
  if (type === 'deliver')
    event.waitUntil(
      Promise.race([deliver(), new Promise((late) => setTimeout(late, waitedFor))])
        .then(waitingNow)
        .then((waiting) => answerTo?.postMessage({ waiting })),
    );
  if (type === 'forget') event.waitUntil(forget(id).then(tellPages));
});

self.addEventListener('sync', (event) => {
  if (event.tag === 'takes') event.waitUntil(deliver());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (origin !== self.location.origin) return;
  if (request.method === 'POST' && (takes.test(pathname) || lines.test(pathname))) {
    const answer = takeOrWait(request, pathname);
    event.respondWith(answer);
    // The page may be gone before the answer is there.
    event.waitUntil(answer);
  } else if (request.method === 'POST' && changesWhoLooks.test(pathname)) event.waitUntil(dropShelf());
  else if (request.method !== 'GET') return;
  else if (request.mode === 'navigate') event.respondWith(pageOrShelf(event, request, pathname));
  else if (pathname.startsWith('/assets/') || pathname === '/offline.js')
    event.respondWith(assetOrKept(request));
});

/** What is done to the kept shelf, one after the other, so that an answer from before never undoes one that came after. */
let keeping = Promise.resolve();
const inTurn = (work) => {
  keeping = keeping.then(work, work);
  return keeping;
};

const keepPage = (path, answer) => inTurn(() => keepPageNow(path, answer));
const keepShelf = () => Promise.all(pagesKept.map((path) => keepPage(path)));
const dropShelf = () =>
  inTurn(async () => {
    const cache = await caches.open(kept);
    await Promise.all(pagesKept.map((path) => cache.delete(path)));
  });
const keepShelfIfNone = () =>
  inTurn(async () => {
    const cache = await caches.open(kept);
    for (const path of pagesKept) if ((await cache.match(path)) === undefined) await keepPageNow(path);
  });

/** Keeps a page and everything it is drawn with. */
async function keepPageNow(path, answer) {
  try {
    const page = answer ?? (await fetch(path, { credentials: 'same-origin' }));
    const cache = await caches.open(kept);
    // A page that leads elsewhere, or is refused, asks to sign in: what was kept is not for whoever comes next.
    if (page.redirected || page.type === 'opaqueredirect' || page.status === 401 || page.status === 403)
      return cache.delete(path);
    // Somebody who signs in has said of their own devices only that the shelf may stay there.
    if (page.headers.get('kept-shelf') === 'no') return cache.delete(path);
    if (!page.ok) return;
    const text = await page.clone().text();
    await cache.put(path, page);
    const own = new Set(['/offline.js', ...(text.match(/\/assets\/[\w.-]+/g) ?? [])]);
    for (const file of own) {
      const asset = (await cache.match(file)) ?? (await fetch(file));
      if (!asset.ok) continue;
      if (file.endsWith('.css')) {
        const css = await asset.clone().text();
        for (const font of css.match(/\/assets\/[\w.-]+/g) ?? []) own.add(font);
      }
      if ((await cache.match(file)) === undefined) await cache.put(file, asset);
    }
  } catch {
    // Without a signal there is nothing newer to keep.
  }
}

async function pageOrShelf(event, request, pathname) {
  try {
    const answer = await fetch(request);
    if (pagesKept.includes(pathname) && new URL(request.url).search === '')
      event.waitUntil(keepPage(pathname, answer.clone()));
    else if (pathname === signInPage) event.waitUntil(dropShelf());
    else if (!pathname.startsWith(signInPage)) event.waitUntil(keepShelfIfNone());
    return answer;
  } catch (cause) {
    const cache = await caches.open(kept);
    const shelf = (pathname === listPage && (await cache.match(listPage))) || (await cache.match(shelfPage));
    if (!shelf) throw cause;
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

/** Keys of takes whose answer is still awaited: they neither wait nor are sent a second time meanwhile. */
const underWay = new Set();

/** Writes a take down here, then sends it; when no answer comes, it waits. */
async function takeOrWait(request, pathname) {
  const form = new URLSearchParams(await request.clone().text());
  const isPart = request.headers.get('hx-request') === 'true';
  const formKey = form.get('key') ?? '';
  const key = await keyOf(formKey);
  form.set('key', key);
  underWay.add(key);
  const id = await writeDown(form, key, pathname);
  try {
    const answer = await fetch(pathname, {
      method: 'POST',
      body: form,
      headers: request.headers.get('hx-request') === null ? {} : headersOf(request),
      credentials: 'same-origin',
      signal: AbortSignal.timeout(waitedFor),
    });
    if (answer.status >= 502 && answer.status <= 504) throw new Error('the way to the server is closed');
    const first = askedFirst(answer);
    if (first !== null) {
      underWay.delete(key);
      return isPart
        ? new Response(null, { status: 204, headers: { 'HX-Redirect': first } })
        : Response.redirect(first, 303);
    }
    await forget(id);
    underWay.delete(key);
    return !isPart && answer.redirected ? Response.redirect(answer.url, 303) : answer;
  } catch {
    underWay.delete(key);
    await tellPages();
    await self.registration.sync?.register('takes').catch(() => {});
    return isPart
      ? new Response(null, { status: 204 })
      : Response.redirect(lines.test(pathname) ? listPage : shelfPage, 303);
  }
}

/**
 * A browser whose worker was ended hands the same tap over once more: it has the same key, which the page's script makes for
 * each tap. A form's own key is taken where the script was not there yet, unless the page was kept from earlier and carries
 * the key of a take that is long counted.
 */
const keyOf = async (formKey) =>
  formKey.startsWith('tap-') || (formKey !== '' && !(await isUsed(formKey))) ? formKey : crypto.randomUUID();

/**
 * Where somebody is led before anything else: a sign-in has ended since the page was opened, or a second factor has to be set up.
 * What was taken waits until its person is here again.
 */
function askedFirst(answer) {
  if (answer.status === 401) return signInPage;
  if (!answer.redirected) return null;
  const { pathname, search } = new URL(answer.url);
  return pathname === signInPage || pathname === ownPage ? `${pathname}${search}` : null;
}

const headersOf = (request) => {
  const headers = {};
  for (const [name, value] of request.headers) if (name.startsWith('hx-')) headers[name] = value;
  return headers;
};

async function writeDown(form, key, pathname) {
  const now = new Date();
  const several = form.get('outcome') !== 'took-one';
  await use(key);
  const written = (await allWritten()).find((take) => take.key === key);
  if (written !== undefined) return written.id;
  if (lines.test(pathname))
    return inStore('takes', 'readwrite', (store) =>
      store.add({
        key,
        household: form.get('household') ?? '',
        person: form.get('person') ?? '',
        words: form.get('words') ?? '',
        line: Object.fromEntries(
          [...form].filter(([name]) => !['_csrf', 'household', 'person', 'words', 'key'].includes(name)),
        ),
        deviceAt: now.getTime(),
      }),
    );
  return inStore('takes', 'readwrite', (store) =>
    store.add({
      key,
      household: form.get('household') ?? '',
      person: form.get('person') ?? '',
      takenBy: form.get('takenBy') ?? '',
      itemId: takes.exec(pathname)[1],
      lotId: !several || form.get('picked') !== null ? form.get('lotId') : null,
      units: several ? form.get('units') : '1',
      outcome: form.get('outcome') ?? (form.get('who') ? 'taken' : ''),
      who: form.get('who') ?? '',
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
  const open = (await waitingNow()).filter((take) => take.refused === undefined);
  if (open.length === 0) return tellPages();
  let waiting;
  let answers;
  let lined = 0;
  try {
    const token = await fetch('/shelf/waiting', { credentials: 'same-origin' });
    if (!token.ok || token.redirected) return tellPages();
    const { csrf, household, person } = await token.json();
    // What somebody else took, or on another household's shelf, waits until they are here again.
    waiting = open.filter(
      (take) => take.household === household && (take.person === '' || take.person === person),
    );
    if (waiting.length === 0) return tellPages();
    const bought = waiting.filter((one) => one.line !== undefined);
    waiting = waiting.filter((one) => one.line === undefined);
    for (const one of bought) {
      const settled = await deliverLine(one, csrf);
      if (settled === null) return tellPages(lined);
      lined += settled;
    }
    if (waiting.length === 0) {
      await keepShelf();
      return tellPages(lined);
    }
    const sent = await fetch('/shelf/waiting', {
      method: 'POST',
      credentials: 'same-origin',
      headers: { 'content-type': 'application/json', 'csrf-token': csrf },
      body: JSON.stringify({ takes: waiting.map(({ id, takenBy, ...take }) => take) }),
    });
    if (!sent.ok) return tellPages(lined);
    answers = (await sent.json()).takes;
  } catch {
    return tellPages(lined);
  }
  const byKey = new Map(answers.map((answer) => [answer.key, answer]));
  let delivered = lined;
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

/** Answers that say nothing of what was sent: ask again later. */
const asksAgainLater = ({ status }) => status >= 500 || [403, 408, 425, 429].includes(status);

/** Sends one line under its own key, on the day it was bought: 1 where it is written down, 0 where it is refused, null where nothing came back. */
async function deliverLine({ id, key, line, deviceAt, ...take }, csrf) {
  const waitedSince = isoDay(new Date(deviceAt));
  const form = new URLSearchParams({ ...line, waitedSince, key, _csrf: csrf });
  const answer = await fetch(`${listPage}/lines`, { method: 'POST', body: form, credentials: 'same-origin' });
  if (asksAgainLater(answer) || askedFirst(answer) !== null) return null;
  if (answer.ok) {
    await forget(id);
    return 1;
  }
  const refused = 'It was bought or skipped already, or the plan has changed since.';
  await inStore('takes', 'readwrite', (store) => store.put({ id, key, line, deviceAt, ...take, refused }));
  return 0;
}

async function tellPages(delivered = 0) {
  const waiting = await waitingNow();
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

const allWritten = () => inStore('takes', 'readonly', (store) => store.getAll());
/** What is not sent and not being sent. */
async function waitingNow() {
  return (await allWritten()).filter(({ key }) => !underWay.has(key));
}
const forget = (id) => inStore('takes', 'readwrite', (store) => store.delete(id));
const isUsed = async (key) => (await inStore('used-keys', 'readonly', (store) => store.count(key))) > 0;
const use = (key) => inStore('used-keys', 'readwrite', (store) => store.put(Date.now(), key));

const usedKeysKeptMs = 90 * 24 * 60 * 60 * 1000;
/** A page older than this is not kept, and so its keys need not be known any more. */
const forgetOldKeys = () =>
  inStore('used-keys', 'readwrite', (store) => {
    const cursor = store.openCursor();
    cursor.addEventListener('success', () => {
      const { result } = cursor;
      if (result === null) return;
      if (result.value < Date.now() - usedKeysKeptMs) result.delete();
      result.continue();
    });
    return cursor;
  });
