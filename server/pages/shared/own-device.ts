import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { clearCookie, readCookie, setCookie } from '../../plugins/app/own-cookies.ts';
import { seeOther, sentText } from './posting.ts';

/** As long as browsers keep a cookie. */
const ownDeviceLastsMs = 400 * 24 * 60 * 60 * 1000;

/**
 * Whether the shelf as last seen may stay in this browser's storage, to take jars from it without a signal. Where nobody
 * signs in, whoever holds the device sees the shelf anyway; of somebody who signs in, it stays only on a device said to be
 * their own.
 */
export const mayKeepShelf = (request: FastifyRequest): boolean =>
  request.person === null || readCookie(request, 'own-device') !== undefined;

/** Tells the worker of this device whether it may keep the page it was just sent. */
export const sayWhetherKept = (request: FastifyRequest, reply: FastifyReply): FastifyReply =>
  mayKeepShelf(request) ? reply : reply.header('kept-shelf', 'no');

/** Where somebody says that this device is their own, or is not any more. */
const ownDevice: FastifyPluginAsync = async (app) => {
  app.post('/people/self/device', async (request, reply) => {
    const isOwn = sentText(request, 'own') === 'yes';
    const answered = isOwn
      ? setCookie(reply, 'own-device', 'yes', ownDeviceLastsMs)
      : clearCookie(reply, 'own-device');
    return seeOther(answered, `/people/self?said=${isOwn ? 'kept' : 'not-kept'}#device`);
  });
};

export default ownDevice;
