// Shows what waits on this device, and asks for it to be sent whenever that may work.

const worker = navigator.serviceWorker;
if (worker !== undefined) {
  worker.addEventListener('message', ({ data }) => {
    if (data?.type === 'waiting') show(data);
  });
  worker.register('/service-worker.js').catch(() => {});
  const deliver = () => worker.ready.then(({ active }) => active?.postMessage({ type: 'deliver' }));
  deliver();
  addEventListener('submit', keyForThisTap, true);
  addEventListener('submit', sendBeforeSigningOut, true);
  addEventListener('online', deliver);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') deliver();
  });
  setInterval(() => {
    if (document.querySelector('#waiting li') !== null) deliver();
  }, 20_000);
}

const part = (name, attributes, ...children) => {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
};

/** What the worker last said. */
let latest = [];

function show({ waiting, delivered }) {
  latest = waiting;
  draw();
  if (delivered > 0 && /^\/(shelf|buying|$)/.test(location.pathname)) showAnew()?.then(draw);
}

function draw() {
  const own = latest.filter(isOwn);
  const others = latest.filter((take) => !isOwn(take));
  document.getElementById('waiting')?.remove();
  if (latest.length === 0) return;
  const main = document.getElementById('main');
  const open = own.filter((take) => take.refused === undefined).length;
  const panel = part(
    'section',
    { id: 'waiting', class: 'waiting', 'aria-live': 'polite', 'aria-label': 'Waiting on this device' },
    ...(own.length === 0
      ? []
      : [part('p', {}, part('strong', {}, titleOf(open, own.length))), part('ul', {}, ...own.map(lineOf))]),
    ...othersOf(others),
  );
  main?.prepend(panel);
}

/**
 * What was counted is seen at once: the page is drawn anew in its place, never reloaded, so that nothing that is being
 * tapped, typed or loaded at that moment is cut off.
 */
const showAnew = () =>
  globalThis.htmx?.ajax('GET', location.href, {
    target: '#main',
    select: '#main',
    swap: 'outerMorph',
  });

/** Taken on the shelf that is open on this page, by who looks at it now or while nobody was signed in. */
const isOwn = ({ household, person }) =>
  household === document.body.dataset.household && (person === '' || person === document.body.dataset.person);

/** What waits for others is counted and kept; what it is stays theirs. */
function othersOf(others) {
  const counts = new Map();
  for (const { takenBy } of others) counts.set(takenBy, (counts.get(takenBy) ?? 0) + 1);
  return [...counts].map(([takenBy, count]) =>
    part(
      'p',
      { class: 'waiting-others' },
      `${count} ${count === 1 ? 'waits' : 'wait'} on this device for ${takenBy || 'another household'}, and ${count === 1 ? 'is' : 'are'} sent when that is open here again.`,
    ),
  );
}

const titleOf = (open, all) =>
  open === 0
    ? `${all} on this device could not be counted.`
    : `${open} ${open === 1 ? 'waits' : 'wait'} on this device and ${open === 1 ? 'is' : 'are'} sent when there is a signal.`;

function lineOf(take) {
  const { line } = take;
  const name = line
    ? take.words
    : (document.querySelector(`#item-${CSS.escape(take.itemId)} .item-name`)?.textContent ??
      take.itemId.replaceAll('-', ' '));
  const at = new Date(take.deviceAt).toLocaleTimeString(document.documentElement.lang, {
    hour: 'numeric',
    minute: '2-digit',
  });
  const back = part(
    'button',
    { type: 'button', class: 'button button-quiet' },
    take.refused ? 'Forget it' : 'Take it back',
  );
  back.addEventListener('click', () =>
    worker.ready.then(({ active }) => active?.postMessage({ type: 'forget', id: take.id })),
  );
  const words = `${line ? '' : `${take.units} × `}${name}, ${at}${take.refused === undefined ? '' : `. ${take.refused}`}`;
  return part('li', {}, part('span', {}, words), back);
}

/** Each tap has a key of its own, also on a page that was kept from earlier. */
function keyForThisTap({ target, submitter }) {
  const action = target.getAttribute('action');
  if (worker.controller === null || !/^\/(shelf\/[a-z0-9-]+\/takes|buying\/(week\/)?lines)$/.test(action))
    return;
  target.elements.namedItem('key').value = `tap-${crypto.randomUUID()}`;
  if (action.startsWith('/shelf')) return;
  const words = submitter?.ariaLabel ?? '';
  const { household = '', person = '' } = document.body.dataset;
  for (const [name, value] of Object.entries({ household, person, words })) {
    const field = target.elements.namedItem(name) ?? part('input', { type: 'hidden', name });
    field.value = value;
    target.append(field);
  }
}

const answerAwaited = 8000;
/** What waits for the person who signs out is sent first; what cannot be sent is said before anything is done. */
async function sendBeforeSigningOut(event) {
  const form = event.target;
  const { submitter } = event;
  if (!form.matches('form[action="/sign-out"]') || form.dataset.asked !== undefined) return;
  if (worker.controller === null) return;
  event.preventDefault();
  event.stopImmediatePropagation();
  const left = (await afterDelivery()).filter(isOwn).filter((take) => take.refused === undefined);
  form.dataset.asked = '';
  if (left.length === 0 || form.querySelector('.waiting-asked') !== null) form.requestSubmit(submitter);
  else askBeforeSigningOut(form, left.length);
}

/** What still waits once the worker has tried to send it; nothing, where no worker answers in time. */
const afterDelivery = () =>
  new Promise((known) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => known(data.waiting);
    setTimeout(() => known([]), answerAwaited);
    worker.controller.postMessage({ type: 'deliver' }, [port2]);
  });

function askBeforeSigningOut(form, count) {
  const them = count === 1 ? 'it' : 'them';
  form.prepend(
    part(
      'p',
      { class: 'banner banner-problem waiting-asked', role: 'alert' },
      `${count === 1 ? '1 thing you wrote down has' : `${count} things you wrote down have`} not been sent yet, because there is no signal. Sign out and ${count === 1 ? 'it waits' : 'they wait'} on this device: sign in here again to send ${them}. Or stay signed in, and ${count === 1 ? 'it is' : 'they are'} sent by ${count === 1 ? 'itself' : 'themselves'}.`,
    ),
  );
  form.querySelector('button')?.focus();
}
