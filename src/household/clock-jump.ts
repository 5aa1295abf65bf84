/** The clock of the machine had been ahead, and went back. */
export interface ClockJump {
  readonly seq: number;
  /** When that was noticed, by the clock that is right again. */
  readonly noticedAt: number;
  /** The latest instant it had shown. */
  readonly aheadUntil: number;
}
