import type { FastifyPluginAsync } from 'fastify';

/** Every page of the program, one file per resource. A new page is one more line here. */
export const routes: readonly FastifyPluginAsync[] = [];
