/** Kinds of thing a kitchen has a number of, each of which can do one thing at a time. */
export type LaneKind = 'person' | 'burner' | 'canner';

/** How many minutes of lanes may still be looked at: what a search costs, whatever machine it runs on. */
export interface Patience {
  left: number;
}

/** Copying a lane costs that much less than looking at it minute by minute; judged. */
const minutesCopiedAtOnce = 16;

/**
 * Who and what is busy in each minute of a canning day. Lanes are numbered from 0 within their kind. Ranges are half-open:
 * the first minute is taken, the last is not.
 */
export class KitchenCalendar {
  readonly minutes: number;
  private readonly lanes: Readonly<Record<LaneKind, readonly Uint8Array[]>>;
  private readonly patience: Patience;

  private constructor(
    minutes: number,
    lanes: Readonly<Record<LaneKind, readonly Uint8Array[]>>,
    patience: Patience,
  ) {
    this.minutes = minutes;
    this.lanes = lanes;
    this.patience = patience;
  }

  static empty(
    minutes: number,
    counts: Readonly<Record<LaneKind, number>>,
    patience: Patience,
  ): KitchenCalendar {
    const idle = (count: number): Uint8Array[] =>
      Array.from({ length: count }, () => new Uint8Array(minutes));
    return new KitchenCalendar(
      minutes,
      { person: idle(counts.person), burner: idle(counts.burner), canner: idle(counts.canner) },
      patience,
    );
  }

  copy(): KitchenCalendar {
    const copied = (lanes: readonly Uint8Array[]): Uint8Array[] => lanes.map((lane) => lane.slice());
    const { person, burner, canner } = this.lanes;
    this.patience.left -=
      ((person.length + burner.length + canner.length) * this.minutes) / minutesCopiedAtOnce;
    return new KitchenCalendar(
      this.minutes,
      { person: copied(person), burner: copied(burner), canner: copied(canner) },
      this.patience,
    );
  }

  isFree(kind: LaneKind, lane: number, from: number, to: number): boolean {
    const busy = this.lanes[kind][lane];
    if (!busy || from < 0 || to > this.minutes) return false;
    const taken = busy.subarray(from, to).indexOf(1);
    this.patience.left -= 1 + (taken < 0 ? to - from : taken);
    return taken < 0;
  }

  /** Whether the search may go on. */
  get isPatient(): boolean {
    return this.patience.left > 0;
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
