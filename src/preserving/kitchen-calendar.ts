/** Kinds of thing a kitchen has a number of, each of which can do one thing at a time. */
export type LaneKind = 'person' | 'burner' | 'canner';

/**
 * Who and what is busy in each minute of a canning day. Lanes are numbered from 0 within their kind. Ranges are half-open:
 * the first minute is taken, the last is not.
 */
export class KitchenCalendar {
  readonly minutes: number;
  private readonly lanes: Readonly<Record<LaneKind, readonly Uint8Array[]>>;

  constructor(minutes: number, lanes: Readonly<Record<LaneKind, readonly Uint8Array[]>>) {
    this.minutes = minutes;
    this.lanes = lanes;
  }

  static empty(minutes: number, counts: Readonly<Record<LaneKind, number>>): KitchenCalendar {
    const idle = (count: number): Uint8Array[] =>
      Array.from({ length: count }, () => new Uint8Array(minutes));
    return new KitchenCalendar(minutes, {
      person: idle(counts.person),
      burner: idle(counts.burner),
      canner: idle(counts.canner),
    });
  }

  copy(): KitchenCalendar {
    const copied = (lanes: readonly Uint8Array[]): Uint8Array[] => lanes.map((lane) => lane.slice());
    return new KitchenCalendar(this.minutes, {
      person: copied(this.lanes.person),
      burner: copied(this.lanes.burner),
      canner: copied(this.lanes.canner),
    });
  }

  isFree(kind: LaneKind, lane: number, from: number, to: number): boolean {
    const busy = this.lanes[kind][lane];
    if (!busy || from < 0 || to > this.minutes) return false;
    for (let minute = from; minute < to; minute += 1) if (busy[minute] === 1) return false;
    return true;
  }

  /** The first lane of a kind that is free throughout, or `undefined`. */
  freeLane(kind: LaneKind, from: number, to: number): number | undefined {
    const lane = this.lanes[kind].findIndex((_, index) => this.isFree(kind, index, from, to));
    return lane < 0 ? undefined : lane;
  }

  /** As freeLane, trying one lane first and leaving one out. */
  freeLaneBut(
    kind: LaneKind,
    from: number,
    to: number,
    first: number,
    never: number | undefined,
  ): number | undefined {
    const lanes = [first, ...this.lanes[kind].keys()];
    return lanes.find((lane) => lane !== never && this.isFree(kind, lane, from, to));
  }

  take(kind: LaneKind, lane: number, from: number, to: number): void {
    this.lanes[kind][lane]?.fill(1, from, to);
  }
}
