import { create } from 'qrcode';
import { sizeOf } from '../../shared/jar.ts';
import { type LabelGrid, paperMm } from '../../shared/schemas/shelf/label-grid.ts';
import type { Item } from '../../src/household/item.ts';
import type { LotOnShelf } from '../../src/household/lot.ts';
import type { LabelProps, QrCodeProps } from '../../views/pages/labels/label-sheet.tsx';
import { formatDate, jarSizeWords } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';

/** Light modules around a code that a reader needs, ISO/IEC 18004 (from memory). */
const quietModules = 4;

/** A QR code as one path of unit squares; medium error correction bears a smudge. */
export function qrCode(text: string): QrCodeProps {
  const { modules } = create(text, { errorCorrectionLevel: 'M' });
  const size = modules.size + 2 * quietModules;
  let path = '';
  for (let row = 0; row < modules.size; row += 1) {
    for (let column = 0; column < modules.size; column += 1) {
      if (modules.get(row, column) === 0) continue;
      path += `M${column + quietModules} ${row + quietModules}h1v1h-1z`;
    }
  }
  return { size, path, text };
}

/** What one jar of a lot carries. */
export const presentLabel = (item: Item, lot: LotOnShelf, address: string, reading: Reading): LabelProps => ({
  name: item.name,
  jar: lot.jarKind === null ? '' : jarSizeWords[sizeOf(lot.jarKind)],
  madeOn: `${lot.origin === 'put-up' ? 'put up' : lot.origin} ${formatDate(lot.madeOn, reading)}`,
  bestUntil: `best by ${formatDate(lot.bestQualityUntil, reading)}`,
  code: lot.batchCode,
  qr: qrCode(`${address}/shelf/lots/${lot.id}`),
});

/** Labels laid on sheets: the first sheet begins at label `start` (from 1); null where a label was used before. */
export function sheetsOf(
  labels: readonly LabelProps[],
  { columns, rows }: Pick<LabelGrid, 'columns' | 'rows'>,
  start: number,
): readonly (readonly (LabelProps | null)[])[] {
  const each = columns * rows;
  const places = [...new Array<null>(start - 1).fill(null), ...labels];
  const sheets: (LabelProps | null)[][] = [];
  for (let at = 0; at < places.length; at += each) sheets.push(places.slice(at, at + each));
  return sheets;
}

const mm = (length: number): string => `${Math.round(length * 1000) / 1000}mm`;

/** The style of the sheet: paper and grid in mm, no margin of the printer's own, black on white. */
export function labelSheetStyle(grid: LabelGrid): string {
  const paper = paperMm[grid.paper];
  const qrSide = Math.min(grid.heightMm - 3, grid.widthMm * 0.42, 26);
  const text = Math.min(4.2, Math.max(2, grid.heightMm / 9, grid.widthMm / 20));
  return `@page { size: ${mm(paper.width)} ${mm(paper.height)}; margin: 0; }
* { box-sizing: border-box; margin: 0; }
html { background: #fff; color: #000; font: ${mm(text * 0.8)}/1.25 "Atkinson Hyperlegible Next", system-ui, "Segoe UI", Roboto, sans-serif; }
.sheet { position: relative; width: ${mm(paper.width)}; height: ${mm(paper.height)}; padding: ${mm(grid.topMm)} 0 0 ${mm(grid.leftMm)}; display: grid; grid-template-columns: repeat(${grid.columns}, ${mm(grid.widthMm)}); grid-template-rows: repeat(${grid.rows}, ${mm(grid.heightMm)}); column-gap: ${mm(grid.acrossMm)}; row-gap: ${mm(grid.downMm)}; overflow: hidden; break-after: page; }
.sheet:last-of-type { break-after: auto; }
.label { display: grid; grid-template-columns: minmax(0, 1fr) ${mm(qrSide)}; align-items: center; column-gap: 1mm; padding: 1.5mm 1mm 1.5mm 3mm; overflow: hidden; }
.label svg { display: block; width: ${mm(qrSide)}; height: ${mm(qrSide)}; }
.label-name { font-size: ${mm(text * 1.25)}; line-height: 1.1; font-weight: 700; overflow-wrap: break-word; }
.label-code { font-weight: 700; letter-spacing: 0.03em; }
.label p { overflow-wrap: break-word; }
.sheet-tools { padding: 16px; font: 16px/1.5 system-ui, sans-serif; }
.sheet-tools a { color: #1d3fa6; }
@media screen { .sheet { outline: 1px solid #999; margin: 16px; } .label { outline: 0.2mm dashed #999; } }
@media print { .sheet-tools { display: none; } }
`;
}
