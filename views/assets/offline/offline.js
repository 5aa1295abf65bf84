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
  if (delivered > 0 && waiting.length === 0 && location.pathname.startsWith('/shelf')) {
    location.replace(location.pathname);
    return;
  }
  document.getElementById('waiting')?.remove();
  if (waiting.length === 0) return;
  const main = document.getElementById('main');
  const open = waiting.filter((take) => take.refused === undefined).length;
  const panel = part(
    'section',
    { id: 'waiting', class: 'waiting', 'aria-live': 'polite', 'aria-label': 'Waiting on this device' },
    part('p', {}, part('strong', {}, titleOf(open, waiting.length))),
    part('ul', {}, ...waiting.map(lineOf)),
  );
  main?.prepend(panel);
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
