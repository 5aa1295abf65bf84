import type { JarEvent } from '../../../src/household/ledger.ts';

let written = 0;

/** Something of a lot of salsa on a day, written down at noon in Denver of the same day unless another is named. */
export const event = (kind: JarEvent['kind'], units: number, on: string, over: object = {}): JarEvent => {
  const { writtenOn = on, ...rest } = over as { writtenOn?: string };
  written += 1;
  return {
    seq: written,
    lotId: 'lot',
    itemId: 'salsa',
    jarKind: 'pint/regular',
    kind,
    units,
    trainsUse: kind === 'taken',
    reason: null,
    occurredOn: on,
    recordedAt: Date.parse(`${writtenOn}T19:00:00Z`),
    isReversed: false,
    ...rest,
  } as unknown as JarEvent;
};
