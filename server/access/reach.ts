import { found, type Outcome, refused } from '../../shared/problems.ts';
import { pageNames } from '../../views/words/page-names.ts';
import type { Database } from '../database/database.ts';
import { hasMembers } from './members.ts';

export interface Reach {
  /** Other machines get here, directly or through a proxy. */
  readonly beyondLoopback: boolean;
}

const loopback = new Set(['127.0.0.1', '::1', 'localhost']);

/**
 * Whether the program may be served there. On this machine alone always; elsewhere only once a household has an owner
 * with a passphrase, and only behind TLS, so that no passphrase crosses a network in the clear.
 */
export async function reachOf(db: Database, host: string, publicAddress: string): Promise<Outcome<Reach>> {
  const refuse = (code: string, message: string) => refused({ code, path: ['host'], message });
  if (loopback.has(host) && publicAddress === '') return found({ beyondLoopback: false });
  if (!/^https:\/\/[^/\s]+$/.test(publicAddress))
    return refuse(
      'tls-missing',
      `For others to reach the program, --public-address must be like https://NAME; it is “${publicAddress}”. Passphrases must not cross a network in the clear: let a proxy on this machine speak TLS and pass requests on to http://127.0.0.1:PORT with the Host and X-Forwarded-For headers, and name its address here; --host can then be left out.`,
    );
  if (!(await hasMembers(db)))
    return refuse(
      'account-missing',
      `Every household of this file is open to whoever reaches it. Serve it on this machine first, set a passphrase under ${pageNames.kitchen}, ${pageNames.people}, and then serve it to others.`,
    );
  return found({ beyondLoopback: true });
}
