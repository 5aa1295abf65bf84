/** Weeks without any by their place in the year, start included, end not, and what is to stand there. */
export interface LabelledGap {
  readonly from: number;
  readonly until: number;
  readonly label: string;
}

/** Where the words of a gap stand: between its brackets, or beside them. */
export type LabelPlace = 'within' | 'before' | 'after';

/**
 * Pixels a drawing is wide, at least: on the smallest phone, and where there is more room. A label that only a wider one has room
 * for is shown from there on (`room-1` and on in `charts.css`).
 */
export const drawingWidths: readonly number[] = [270, 340, 440, 720];

/** A label in pixels, no narrower than it is drawn: its bold letters are 7.1 wide in the mean. */
const labelWidth = (label: string): number => label.length * 7.4;

/** Between a label and the bracket it stands by, and at least between it and anything else, in pixels. */
export const labelAside = 5;

/** Stock up to this share of the drawing's tallest stays under the letters. */
export const shareUnderLabels = 0.2;

/** Pixels across the drawing, from its left edge. */
interface Stretch {
  readonly from: number;
  readonly until: number;
}

interface LabelsAsked {
  readonly bare: readonly LabelledGap[];
  /** Of the drawing's tallest, how high stock is drawn in each week. */
  readonly heights: readonly number[];
  readonly weekCount: number;
  /** Pixels the drawing is wide, at least. */
  readonly width: number;
  /** Labels that already stand. */
  readonly kept?: readonly (LabelPlace | null)[];
}

/** What a label covers at a width of the drawing. */
export const labelStretch = (
  { from, until, label }: LabelledGap,
  place: LabelPlace,
  { weekCount, width }: Pick<LabelsAsked, 'weekCount' | 'width'>,
): Stretch => {
  const [left, right] = [from, until].map((week) => (week / weekCount) * width) as [number, number];
  const long = labelWidth(label);
  if (place === 'before') return { from: left - labelAside - long, until: left - labelAside };
  if (place === 'after') return { from: right + labelAside, until: right + labelAside + long };
  return { from: (left + right - long) / 2, until: (left + right + long) / 2 };
};

/** A label that has room, from which of the `drawingWidths` on. */
export interface PlacedLabel {
  readonly place: LabelPlace;
  readonly room: number;
}

/** Where the label of each gap stands, null where no drawing has room for it. Wider drawings keep what narrower ones placed. */
export function labelsByRoom(asked: Omit<LabelsAsked, 'width' | 'kept'>): readonly (PlacedLabel | null)[] {
  let labels: readonly (PlacedLabel | null)[] = asked.bare.map(() => null);
  drawingWidths.forEach((width, room) => {
    const kept = labels.map((label) => label?.place ?? null);
    const placed = placeLabels({ ...asked, width, kept });
    labels = placed.map((place, at) => labels[at] ?? (place === null ? null : { place, room }));
  });
  return labels;
}

/**
 * Where the label of each gap has room, null where it has none: between its brackets, else beside them where no jars stand under
 * it, nor another gap or label, nor the edge. Longer gaps choose first. What has room in a drawing has room in a wider one.
 */
function placeLabels(asked: LabelsAsked): readonly (LabelPlace | null)[] {
  const { bare, kept = [] } = asked;
  const placed = bare.map((_, at) => kept[at] ?? null);
  const longestFirst = bare
    .map((gap, at) => ({ gap, at }))
    .filter(({ gap, at }) => gap.label !== '' && placed[at] === null)
    .toSorted((one, other) => other.gap.until - other.gap.from - (one.gap.until - one.gap.from));
  for (const { gap, at } of longestFirst) {
    const others = bare.flatMap((other, place) => {
      const where = placed[place] ?? null;
      return place === at || where === null ? [] : [labelStretch(other, where, asked)];
    });
    placed[at] = placesOf(gap, asked).find((place) => hasRoom(gap, place, others, asked)) ?? null;
  }
  return placed;
}

/** In the order in which they are tried: beside it first where the larger part of the year is. */
const placesOf = ({ from, until }: Stretch, { weekCount }: LabelsAsked): readonly LabelPlace[] =>
  from > weekCount - until ? ['within', 'before', 'after'] : ['within', 'after', 'before'];

function hasRoom(
  gap: LabelledGap,
  place: LabelPlace,
  others: readonly Stretch[],
  { bare, heights, weekCount, width }: LabelsAsked,
): boolean {
  const label = labelStretch(gap, place, { weekCount, width });
  const acrossOf = (week: number) => (week / weekCount) * width;
  const hole = { from: acrossOf(gap.from), until: acrossOf(gap.until) };
  if (place === 'within')
    return label.from - labelAside >= hole.from && label.until + labelAside <= hole.until;
  if (label.from < 0 || label.until > width) return false;
  const inTheWay = [
    ...others,
    ...bare
      .filter((other) => other !== gap)
      .map(({ from, until }) => ({ from: acrossOf(from), until: acrossOf(until) })),
  ];
  return (
    inTheWay.every(
      ({ from, until }) => label.until + labelAside <= from || label.from - labelAside >= until,
    ) &&
    heights.every(
      (height, week) =>
        height <= shareUnderLabels || label.until <= acrossOf(week) || label.from >= acrossOf(week + 1),
    )
  );
}
