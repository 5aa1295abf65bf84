import { type JarSize, nominalMl } from '../../shared/jar.ts';
import { round } from './rounding.ts';

export interface JarRowProps {
  readonly count: number;
  /** Null for what is kept in bags, bins or by the pound. */
  readonly size: JarSize | null;
  /** So many stand beside each other; the next stand on a board below. */
  readonly perRow: number;
  /** Only their outlines: room for so many. */
  readonly isRoom?: boolean;
}

/** More than so many are not drawn; how many more there are stands behind them. */
const mostDrawn = 40;
const step = 11;
/** Between the feet of one row and the heads of the next, with the board. */
const between = 5;
const jarHeight = 12;
/** Than the jar marks of the year, which stand among many boards. */
const drawnLarger = 1.25;

const jar = 'v-7q0-2 1.5-2.5v-2h5v2q1.5.5 1.5 2.5v7z';
const bag = 'v-8l2-1.5-1.5-2h7l-1.5 2 2 1.5v8z';

/** Jars of different size stand beside each other as they do on a shelf: by the cube root of what they hold. */
const scaleOf = (size: JarSize | null): number =>
  drawnLarger * (size === null ? 1 : Math.cbrt(nominalMl[size] / nominalMl.pint));

/** What is made or stands, jar by jar on its board, in the hue of its food; the figure stands beside it in words. */
export const JarRow = ({ count, size, perRow, isRoom = false }: JarRowProps) => {
  const whole = Math.max(0, Math.ceil(count - 1e-6));
  if (whole === 0) return null;
  const drawn = Math.min(whole, mostDrawn);
  const scale = scaleOf(size);
  const width = Math.min(perRow, drawn) * step * scale;
  const rowHeight = jarHeight * scale + between;
  const rows = Math.ceil(drawn / perRow);
  const more = whole - drawn;
  const height = rows * rowHeight;
  const jars = Array.from({ length: drawn }, (_, at) => {
    const [row, place] = [Math.floor(at / perRow), at % perRow];
    const x = place * step + (step - 8) / 2;
    const y = (row + 1) * (rowHeight / scale) - between / scale;
    return `M${round(x)} ${round(y)}${size === null ? bag : jar}`;
  }).join('');
  const fullWidth = width + (more > 0 ? 34 : 0);
  return (
    <svg
      class="jar-row"
      aria-hidden="true"
      width={round(fullWidth)}
      height={round(height)}
      viewBox={`0 0 ${round(fullWidth)} ${round(height)}`}
    >
      <path
        class={isRoom ? 'jar-room' : 'jars'}
        d={jars}
        transform={scale === 1 ? undefined : `scale(${scale.toFixed(3)})`}
      />
      <path
        class="jar-board"
        d={Array.from(
          { length: rows },
          (_, row) => `M0 ${round((row + 1) * rowHeight - between + 1.25)}H${round(width)}`,
        ).join('')}
      />
      {more > 0 ? (
        <text x={round(width + 4)} y={round(height - between)}>
          {`+${more}`}
        </text>
      ) : null}
    </svg>
  );
};
