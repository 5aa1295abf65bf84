// Shows what waits on this device, and asks for it to be sent whenever that may work.

const worker = navigator.serviceWorker;
if (worker !== undefined) {
  worker.addEventListener('message', ({ data }) => {
    if (data?.type === 'waiting') show(data);
  });
  worker.register('/service-worker.js').catch(() => {});
  const deliver = () => worker.ready.then(({ active }) => active?.postMessage({ type: 'deliver' }));
  deliver();
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

function show({ waiting, delivered }) {
  const own = waiting.filter(isOwn);
  const others = waiting.filter((take) => !isOwn(take));
  if (delivered > 0 && own.length === 0 && location.pathname.startsWith('/shelf')) {
    location.replace(location.pathname);
    return;
  }
  document.getElementById('waiting')?.remove();
  if (waiting.length === 0) return;
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
  const name =
    document.querySelector(`#item-${CSS.escape(take.itemId)} .item-name`)?.textContent ??
    take.itemId.replaceAll('-', ' ');
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
  const words = `${take.units} × ${name}, ${at}${take.refused === undefined ? '' : `. ${take.refused}`}`;
  return part('li', {}, part('span', {}, words), back);
}
