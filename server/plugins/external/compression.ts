import { constants } from 'node:zlib';
import compress from '@fastify/compress';
import fp from 'fastify-plugin';

export default fp(
  async (app) =>
    void (await app.register(compress, {
      encodings: ['br', 'gzip'],
      threshold: 1024,
      // Quality 5 costs a few milliseconds for a page; the highest would cost ten times that for a few percent.
      brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: 5 } },
    })),
  { name: 'compression' },
);
