import type { CannedHere, LoadHere } from '../../../src/preserving/day/session-here.ts';
import type { RunningClock } from '../../../views/layout/running-clocks.tsx';
import { elementId } from '../../../views/words/element-id.ts';
import { formatClock } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { ClockInHand } from '../../year/clocks-in-hand.ts';

/** `Peach halves, load 2 of 3` */
export const loadTitle = (name: string, { loads }: Pick<CannedHere, 'loads'>, load: LoadHere): string =>
  loads.length === 1 ? name : `${name}, load ${loads.indexOf(load) + 1} of ${loads.length}`;

/** The clocks that every page shows, the one that is due first in front. */
export const presentClocks = (
  clocks: readonly ClockInHand[],
  timeZone: string,
  reading: Reading,
): readonly RunningClock[] =>
  clocks
    .toSorted((one, other) => one.doneAt - other.doneAt)
    .map(({ on, name, canned, load, doneAt, remainingMs, isDoubted }) => ({
      key: `${on}-${load.key}`,
      title: loadTitle(name, canned, load),
      due: formatClock(doneAt, timeZone, reading),
      remainingMs,
      isDoubted,
      href: `/canning-day?day=${on}#${elementId('load', load.key)}`,
    }));
