import { z } from 'zod';
import { type Bound, bounds, letters } from '../../bounds.ts';
import { choiceField, numberField, optionalTextField, toldBeside } from '../form-fields.ts';

export const papers = ['A4', 'Letter'] as const;
export type Paper = (typeof papers)[number];

/** Width and height, mm: ISO 216, and ANSI Letter of 8.5 × 11 inches. */
export const paperMm: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
};

/** What lengths on the sheet are typed in; they are kept in mm. */
export const measures = ['mm', 'in'] as const;
export type Measure = (typeof measures)[number];

const mmPer: Readonly<Record<Measure, number>> = { mm: 1, in: 25.4 };

/** A length in mm as it is typed: whole thousandths of an inch, hundredths of a mm. */
export const lengthIn = (lengthMm: number, measure: Measure): number =>
  measure === 'in' ? Math.round((lengthMm / mmPer.in) * 1000) / 1000 : Math.round(lengthMm * 100) / 100;

/** A length typed in the measure, within bounds in mm, read as mm. */
const length = (measure: Measure, label: string, bound: Bound, exampleMm: number) =>
  numberField({
    label,
    from: Math.ceil((bound.from / mmPer[measure]) * 100) / 100,
    to: Math.floor((bound.to / mmPer[measure]) * 100) / 100,
    unit: measure,
    example: String(lengthIn(exampleMm, measure)),
  }).transform((typed) => Math.round(typed * mmPer[measure] * 10_000) / 10_000);

const count = (label: string, bound: Bound) => numberField({ label, ...bound, example: '3' });

/** Printers and cutting are not exact: a sheet may be off by this much and still be taken. */
const playMm = 0.5;

interface Line {
  readonly count: number;
  readonly size: number;
  readonly margin: number;
  readonly gap: number;
}

const lengthOf = ({ count: pieces, size, margin, gap }: Line): number =>
  margin + pieces * size + (pieces - 1) * gap;

interface TypedGrid
  extends Readonly<
    Record<'columns' | 'rows' | 'widthMm' | 'heightMm' | 'leftMm' | 'topMm' | 'acrossMm' | 'downMm', number>
  > {
  readonly paper: Paper;
  readonly address: string;
}

const across = ({ columns, widthMm, leftMm, acrossMm }: TypedGrid): number =>
  lengthOf({ count: columns, size: widthMm, margin: leftMm, gap: acrossMm });
const down = ({ rows, heightMm, topMm, downMm }: TypedGrid): number =>
  lengthOf({ count: rows, size: heightMm, margin: topMm, gap: downMm });

const tooLarge = (
  measure: Measure,
  paper: Paper,
  way: 'across' | 'down',
  hasMm: number,
  needsMm: number,
): string => {
  const needs = measure === 'in' ? lengthIn(needsMm, 'in') : Math.round(needsMm * 10) / 10;
  return `The labels must fit on ${paper}, which is ${lengthIn(hasMm, measure)} ${measure} ${way}; these need ${needs} ${measure}. Make them smaller, or fewer.`;
};

/**
 * A sheet of labels as its box says: how many, how large, where the first one begins and how far apart they are. Lengths are
 * typed in the measure and read as mm.
 */
export const labelGridIn = (measure: Measure) =>
  z
    .object({
      paper: choiceField('paper', papers),
      columns: count('Labels across', bounds.labelColumns),
      rows: count('Labels down', bounds.labelRows),
      widthMm: length(measure, 'Width of a label', bounds.labelWidthMm, 63.5),
      heightMm: length(measure, 'Height of a label', bounds.labelHeightMm, 38.1),
      leftMm: length(measure, 'Left edge of the first', bounds.labelGapMm, 7.2),
      topMm: length(measure, 'Top edge of the first', bounds.labelGapMm, 15.1),
      acrossMm: length(measure, 'Gap between columns', bounds.labelGapMm, 2.5),
      downMm: length(measure, 'Gap between rows', bounds.labelGapMm, 0),
      address: optionalTextField('Address for the codes', letters.address),
    })
    .refine(
      (grid) => across(grid) <= paperMm[grid.paper].width + playMm,
      toldBeside<TypedGrid>('widthMm', ['paper', 'columns', 'widthMm', 'leftMm', 'acrossMm'], (grid) =>
        tooLarge(measure, grid.paper, 'across', paperMm[grid.paper].width, across(grid)),
      ),
    )
    .refine(
      (grid) => down(grid) <= paperMm[grid.paper].height + playMm,
      toldBeside<TypedGrid>('heightMm', ['paper', 'rows', 'heightMm', 'topMm', 'downMm'], (grid) =>
        tooLarge(measure, grid.paper, 'down', paperMm[grid.paper].height, down(grid)),
      ),
    )
    .refine(
      ({ address }) => address === '' || /^https?:\/\/[^\s]+$/.test(address),
      toldBeside<TypedGrid>(
        'address',
        ['address'],
        ({ address }) =>
          `Address for the codes cannot be “${address.slice(0, 40)}”. Write one like http://192.168.1.20:8137, or leave it blank.`,
      ),
    );

export const labelGridForm = labelGridIn('mm');
export type LabelGrid = Readonly<z.output<typeof labelGridForm>>;

type Sheet = Omit<LabelGrid, 'paper' | 'address'>;

const ofFourInches = {
  columns: 2,
  widthMm: 101.6,
  leftMm: 3.96875,
  topMm: 12.7,
  acrossMm: 4.7625,
  downMm: 0,
} as const;

/** Sheets as they are sold for each paper, the usual one first; common practice of label makers, no source. */
export const commonSheets: Readonly<Record<Paper, readonly [usual: Sheet, ...others: Sheet[]]>> = {
  A4: [
    {
      columns: 3,
      rows: 7,
      widthMm: 63.5,
      heightMm: 38.1,
      leftMm: 7.2,
      topMm: 15.1,
      acrossMm: 2.5,
      downMm: 0,
    },
    {
      columns: 2,
      rows: 7,
      widthMm: 99.1,
      heightMm: 38.1,
      leftMm: 4.7,
      topMm: 15.1,
      acrossMm: 2.5,
      downMm: 0,
    },
    { columns: 3, rows: 8, widthMm: 70, heightMm: 37, leftMm: 0, topMm: 0.5, acrossMm: 0, downMm: 0 },
  ],
  Letter: [
    { ...ofFourInches, rows: 5, heightMm: 50.8 },
    { ...ofFourInches, rows: 3, heightMm: 84.67 },
    {
      columns: 3,
      rows: 10,
      widthMm: 66.675,
      heightMm: 25.4,
      leftMm: 4.7625,
      topMm: 12.7,
      acrossMm: 3.175,
      downMm: 0,
    },
  ],
};

const usualOn = (paper: Paper): LabelGrid => ({ paper, ...commonSheets[paper][0], address: '' });

/** The sheet to begin with: A4, or Letter where amounts are read in pounds and feet. */
export const usualLabelGrid: LabelGrid = usualOn('A4');
export const usualLabelGridInInches: LabelGrid = usualOn('Letter');
