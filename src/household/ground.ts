// Where a household gardens, and years that were not as others.

/** Where a household gardens, as it said. Days are written `05-12`, of any year. */
export interface StatedGround {
  /** As it was typed. */
  readonly town: string | null;
  /** Of the freeze table. */
  readonly station: string | null;
  /** Two letters, where no station was chosen. */
  readonly state: string | null;
  readonly lastFrost: string | null;
  readonly firstFrost: string | null;
  readonly strawberriesFrom: string | null;
}

export const noGround: StatedGround = {
  town: null,
  station: null,
  state: null,
  lastFrost: null,
  firstFrost: null,
  strawberriesFrom: null,
};

/** Years that run early (negative) or late, in days; a crop's own before all crops'. */
export interface SeasonLateness {
  readonly year: number;
  /** Null for all crops. */
  readonly crop: string | null;
  readonly days: number;
}

/** Days by which each year of a crop runs late, its own before that of all crops. */
export const latenessOf = (lateness: readonly SeasonLateness[], crop: string): ReadonlyMap<number, number> =>
  new Map(
    [...lateness.filter((one) => one.crop === null), ...lateness.filter((one) => one.crop === crop)].map(
      ({ year, days }) => [year, days],
    ),
  );
