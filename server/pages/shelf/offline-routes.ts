import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { FastifyPluginAsync } from 'fastify';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { waitingTakes } from '../../../shared/schemas/shelf/waiting-take.ts';
import { deliverTakes } from '../../records/shelf/waiting-takes.ts';
import { recordingOf } from '../shared/posting.ts';

const folder = fileURLToPath(new URL('../../../views/assets/offline/', import.meta.url));

/** The parts that work without signal: the worker, its page script, the manifest, and where waiting takes are sent. */
const offline: FastifyPluginAsync = async (app) => {
  for (const name of ['service-worker.js', 'offline.js']) {
    // Lines that are comment alone say nothing to a browser.
    const text = readFileSync(`${folder}${name}`, 'utf8').replace(/^\s*\/\/.*\n/gm, '');
    app.get(`/${name}`, (_request, reply) =>
      reply.type('text/javascript; charset=utf-8').header('cache-control', 'no-cache').send(text),
    );
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

    const takes = await deliverTakes(recordingOf(request), sent.value.takes, request.person?.id ?? '');
    return reply.header('cache-control', 'no-store').send({ takes });
  });
};

export default offline;
