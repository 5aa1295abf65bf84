import { readFileSync } from 'node:fs';
import { brotliCompressSync, constants } from 'node:zlib';
import type { FastifyPluginAsync } from 'fastify';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { waitingTakes } from '../../../shared/schemas/shelf/waiting-take.ts';
import { tightenedScript } from '../../plugins/app/tightened.ts';
import { programFile } from '../../program.ts';
import { itemsOf } from '../../queries/household/items.ts';
import { deliverTakes } from '../../records/shelf/waiting-takes.ts';
import { recordingOf } from '../shared/posting.ts';
import { asCounted } from '../shared/produce/own-units.ts';

const folder = programFile('views/assets/offline/');

/** The parts that work without signal: the worker, its page script, the manifest, and where waiting takes are sent. */
const offline: FastifyPluginAsync = async (app) => {
  // What waits on the device and what becomes of forms is one script: each page asks for it once.
  const scripts = { 'service-worker.js': ['service-worker.js'], 'offline.js': ['offline.js', 'forms.js'] };
  for (const [name, files] of Object.entries(scripts)) {
    const text = files.map((file) => tightenedScript(readFileSync(`${folder}${file}`, 'utf8'))).join('');
    // Compressed once at boot, as small as it gets: every page asks for it.
    const brotli = brotliCompressSync(text, { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } });
    app.get(`/${name}`, { compress: false }, (request, reply) => {
      reply
        .type('text/javascript; charset=utf-8')
        .header('cache-control', 'no-cache')
        .header('vary', 'accept-encoding');
      const takesBrotli = /\bbr\b/.test(request.headers['accept-encoding'] ?? '');
      return takesBrotli ? reply.header('content-encoding', 'br').send(brotli) : reply.send(text);
    });
  }

  app.get('/manifest.webmanifest', (request, reply) =>
    reply
      .type('application/manifest+json')
      .header('cache-control', 'no-cache')
      .send({
        name: 'Shelfward',
        short_name: 'Shelfward',
        description: 'What stands in the pantry, and taking a jar of it.',
        id: '/shelf',
        start_url: '/shelf',
        scope: '/',
        display: 'standalone',
        lang: request.reading.locale,
        background_color: '#fcfdfd',
        theme_color: '#fcfdfd',
        icons: [{ src: app.assets.urls.icon, sizes: 'any', type: 'image/svg+xml', purpose: 'any' }],
        shortcuts: [
          { name: 'Take a jar', url: '/shelf' },
          { name: 'Count the shelf', url: '/shelf/count' },
        ],
      }),
  );

  // A device that comes back asks for a token first: the page it kept carries an old one.
  app.get('/shelf/waiting', (request, reply) =>
    reply.header('cache-control', 'no-store').send({
      csrf: reply.formKeys().csrf,
      household: request.household.id,
      person: request.person?.id ?? '',
    }),
  );

  app.post('/shelf/waiting', async (request, reply) => {
    const sent = readForm(waitingTakes, request.body);
    if (!sent.ok) return reply.code(422).send({ problems: sent.problems });

    const items = await itemsOf(app.db, request.household.id);
    const counted = sent.value.takes.map((take) => ({
      ...take,
      ...asCounted(
        { units: String(take.units ?? '') },
        items.find(({ id }) => id === take.itemId)?.unit ?? '',
        ['units'],
        request.reading,
      ).values,
    }));
    const takes = await deliverTakes(recordingOf(request), counted, request.person?.id ?? '');
    return reply.header('cache-control', 'no-store').send({ takes });
  });
};

export default offline;
