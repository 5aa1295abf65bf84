import { once } from 'node:events';
import { chmodSync, lstatSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { found, type Outcome, refused } from '../../shared/problems.ts';

/** So long somebody who listens has to answer. */
const answersWithinMs = 2_000;

/**
 * Makes room for a local socket: one that a server left behind when it was killed is taken away; one at which somebody
 * listens, and whatever is no socket, stays and is told of.
 */
export async function clearSocket(path: string): Promise<Outcome<true>> {
  const there = lstatSync(path, { throwIfNoEntry: false });
  if (there === undefined) return found(true);
  if (!there.isSocket())
    return refuse(`SHELFWARD_SOCKET names ${path}, which is no socket. Name another place.`);
  if (await isAnswered(path))
    return refuse(`Another program listens at ${path}. Stop that one, or name another socket.`);
  rmSync(path);
  return found(true);
}

/** For the proxy, which belongs to the group of this program's user; nobody else gets in. */
export const shareWithGroup = (path: string): void => chmodSync(path, 0o660);

const refuse = (message: string): Outcome<never> =>
  refused({ code: 'socket-taken', path: ['SHELFWARD_SOCKET'], message });

/** Only a socket that refuses is nobody's: one that may not be asked, or does not answer in time, is somebody's. */
async function isAnswered(path: string): Promise<boolean> {
  const asking = connect(path);
  try {
    await once(asking, 'connect', { signal: AbortSignal.timeout(answersWithinMs) });
    return true;
  } catch (cause) {
    const code = cause instanceof Error && 'code' in cause ? cause.code : undefined;
    return code !== 'ECONNREFUSED' && code !== 'ENOENT';
  } finally {
    asking.destroy();
  }
}
