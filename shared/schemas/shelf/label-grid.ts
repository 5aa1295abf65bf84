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

const mm = (label: string, bound: Bound, example: string) =>
  numberField({ label, ...bound, unit: 'mm', example });

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

const tooLarge = (paper: Paper, way: 'across' | 'down', has: number, needs: number): string =>
  `The labels must fit on ${paper}, which is ${has} mm ${way}; these need ${Math.round(needs * 10) / 10} mm. Make them smaller, or fewer.`;

/** A sheet of labels as its box says: how many, how large, where the first one begins and how far apart they are. */
export const labelGridForm = z
  .object({
    paper: choiceField('paper', papers),
    columns: count('Labels across', bounds.labelColumns),
    rows: count('Labels down', bounds.labelRows),
    widthMm: mm('Width of a label', bounds.labelWidthMm, '63.5'),
    heightMm: mm('Height of a label', bounds.labelHeightMm, '38.1'),
    leftMm: mm('Left edge of the first', bounds.labelGapMm, '7.2'),
    topMm: mm('Top edge of the first', bounds.labelGapMm, '15.1'),
    acrossMm: mm('Gap between columns', bounds.labelGapMm, '2.5'),
    downMm: mm('Gap between rows', bounds.labelGapMm, '0'),
    address: optionalTextField('Address for the codes', letters.address),
  })
  .refine(
    (grid) => across(grid) <= paperMm[grid.paper].width + playMm,
    toldBeside<TypedGrid>('widthMm', ['paper', 'columns', 'widthMm', 'leftMm', 'acrossMm'], (grid) =>
      tooLarge(grid.paper, 'across', paperMm[grid.paper].width, across(grid)),
    ),
  )
  .refine(
    (grid) => down(grid) <= paperMm[grid.paper].height + playMm,
    toldBeside<TypedGrid>('heightMm', ['paper', 'rows', 'heightMm', 'topMm', 'downMm'], (grid) =>
      tooLarge(grid.paper, 'down', paperMm[grid.paper].height, down(grid)),
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
export type LabelGrid = Readonly<z.output<typeof labelGridForm>>;

/** A common sheet to begin with, 3 × 7 on A4; common practice of label makers, no source. */
export const usualLabelGrid: LabelGrid = {
  paper: 'A4',
  columns: 3,
  rows: 7,
  widthMm: 63.5,
  heightMm: 38.1,
  leftMm: 7.2,
  topMm: 15.1,
  acrossMm: 2.5,
  downMm: 0,
  address: '',
};
