import type { Model } from '../../src/planning/model/model.ts';

/** A model as free MPS text for other solvers (`FREE` tells those that would guess); the objective's constant is left out. */
export function modelAsMps({ columns, rows }: Model): string {
  const column = (at: number) => `c${at}`;
  const row = (at: number) => `r${at}`;
  const entriesByColumn = columns.map((): [string, number][] => []);
  rows.forEach(({ entries }, at) => {
    for (const [index, coefficient] of entries) entriesByColumn[index]?.push([row(at), coefficient]);
  });
  const kind = (lower: number, upper: number) =>
    lower === upper ? 'E' : upper === Number.POSITIVE_INFINITY ? 'G' : 'L';
  const lines = ['NAME household FREE', 'ROWS', ' N cost'];
  rows.forEach(({ lower, upper }, at) => {
    lines.push(` ${kind(lower, upper)} ${row(at)}`);
  });
  lines.push('COLUMNS');
  columns.forEach(({ cost, integer }, at) => {
    if (integer) lines.push(` m${at} 'MARKER' 'INTORG'`);
    lines.push(` ${column(at)} cost ${cost}`);
    for (const [name, coefficient] of entriesByColumn[at] ?? [])
      lines.push(` ${column(at)} ${name} ${coefficient}`);
    if (integer) lines.push(` n${at} 'MARKER' 'INTEND'`);
  });
  lines.push('RHS');
  rows.forEach(({ lower, upper }, at) => {
    const side = kind(lower, upper) === 'L' ? upper : lower;
    if (side !== 0) lines.push(` rhs ${row(at)} ${side}`);
  });
  lines.push('RANGES');
  rows.forEach(({ lower, upper }, at) => {
    if (lower !== upper && Number.isFinite(lower) && Number.isFinite(upper))
      lines.push(` range ${row(at)} ${upper - lower}`);
  });
  lines.push('BOUNDS');
  columns.forEach(({ lower, upper, integer }, at) => {
    if (lower === upper) lines.push(` FX bound ${column(at)} ${lower}`);
    else {
      if (lower === Number.NEGATIVE_INFINITY) lines.push(` MI bound ${column(at)}`);
      else if (lower !== 0) lines.push(` LO bound ${column(at)} ${lower}`);
      if (Number.isFinite(upper)) lines.push(` UP bound ${column(at)} ${upper}`);
      else if (integer) lines.push(` PL bound ${column(at)}`);
    }
  });
  lines.push('ENDATA');
  return `${lines.join('\n')}\n`;
}
