import { groupedBy } from '../../shared/grouped-by.ts';
import type { Entry, JarEvent } from './ledger.ts';

/**
 * The last things that were done, newest first; reversals show on the entry they undid and are not listed themselves.
 *
 * @param events In the order they were recorded.
 */
export function lastEntries(events: readonly JarEvent[], howMany: number): readonly Entry[] {
  const newest = new Set<string>();
  for (let at = events.length - 1; at >= 0 && newest.size < howMany; at -= 1) {
    const event = events[at];
    if (event !== undefined && event.kind !== 'reversed') newest.add(event.entryId);
  }
  const eventsByEntry = groupedBy(
    events.filter(({ entryId }) => newest.has(entryId)),
    ({ entryId }) => entryId,
  );
  return [...newest].flatMap((id) => entryOf(eventsByEntry.get(id) ?? []));
}

const entryOf = (events: readonly JarEvent[]): Entry[] => {
  const [first] = events;
  if (!first) return [];
  return [
    {
      id: first.entryId,
      itemId: first.itemId,
      itemName: first.itemName,
      kind: first.kind,
      reason: first.reason,
      units: events.reduce((total, event) => total + event.units, 0),
      occurredOn: first.occurredOn,
      recordedAt: first.recordedAt,
      recordedBy: first.recordedBy,
      takenBy: first.takenBy,
      events,
      isUndone: events.every((event) => event.isReversed),
    },
  ];
};
