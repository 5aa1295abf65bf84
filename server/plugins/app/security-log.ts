import fp from 'fastify-plugin';
import type { HouseholdId } from '../../../shared/ids.ts';
import { deviceWords } from '../../access/device-words.ts';
import { shownAddress } from '../../access/network.ts';
import { keepSecurityEvent, type SecurityEventKind } from '../../access/security-events.ts';

export interface AboutEvent {
  /** Whom it is about, when that is not who sent the request. */
  readonly personId?: string | null;
  /** Set where it concerns a household, not only the person. */
  readonly householdId?: HouseholdId;
}

const ofAnyName: ReadonlySet<SecurityEventKind> = new Set(['sign-in-failed', 'sign-in-waits']);

/**
 * `request.noteSecurity(kind)`: one line of the server's log, and, where it concerns somebody known, a row that owners can
 * read. Neither holds anything that was typed. A row that cannot be kept never changes the answer.
 */
export default fp(
  async (app) => {
    app.decorateRequest('noteSecurity', async function (kind: SecurityEventKind, about: AboutEvent = {}) {
      const personId = about.personId === undefined ? (this.person?.id ?? null) : about.personId;
      const householdId = about.householdId ?? null;
      const event = {
        at: app.now(),
        kind,
        personId,
        householdId,
        address: shownAddress(this.ip),
        device: deviceWords(this.headers['user-agent']),
      };
      this.log.warn({ security: event }, 'security');
      // Names nobody has are written down like others, so that answers take the same time.
      if (personId === null && householdId === null && !ofAnyName.has(kind)) return;
      try {
        await keepSecurityEvent(app.db, event);
      } catch (error) {
        this.log.error({ err: error }, 'a security event could not be kept');
      }
    });
  },
  { name: 'security-log', dependencies: ['household'] },
);
