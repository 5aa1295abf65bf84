import type { ComponentChildren } from 'preact';

export interface Column {
  readonly title: string;
  /** `number` sets tabular figures flush right. */
  readonly kind?: 'text' | 'number';
  /** `first` makes the column the row's heading. */
  readonly heading?: boolean;
}

export interface Row {
  readonly key: string;
  readonly cells: readonly ComponentChildren[];
}

interface DataTableProps {
  readonly caption: string;
  /** The caption is always there for those who hear it; shown unless the heading above says the same. */
  readonly captionShown?: boolean;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** On a phone each row becomes a small list with the column's title before each value. */
  readonly stacks?: boolean;
}

/** A quiet, tight table that becomes a list on a phone. */
export const DataTable = ({
  caption,
  captionShown = false,
  columns,
  rows,
  stacks = true,
}: DataTableProps) => (
  <div class="table-frame">
    <table class={stacks ? 'data-table stacks' : 'data-table'}>
      <caption class={captionShown ? undefined : 'heard-only'}>{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th key={column.title} scope="col" class={column.kind === 'number' ? 'number' : undefined}>
              {column.title}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.key}>
            {columns.map((column, index) =>
              column.heading === true ? (
                <th key={column.title} scope="row">
                  {row.cells[index]}
                </th>
              ) : (
                <td
                  key={column.title}
                  class={column.kind === 'number' ? 'number' : undefined}
                  data-title={column.title}
                >
                  {row.cells[index]}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);
