// SPDX-License-Identifier: Apache-2.0
// Rows of figures. On a phone each row is a card that names its own columns (styles/office.css); the roles say to a
// screen reader that it is a table all the same, since the layout of a card takes them away.
import type { ComponentChildren } from "preact";

export interface Column<T> {
  head: string;
  cell: (row: T) => ComponentChildren;
  /** Stands at the end of the cell, in digits of one width. */
  figure?: boolean;
}

export interface TableProps<T> {
  caption: string;
  columns: Column<T>[];
  rows: T[];
  keyOf: (row: T) => string;
  empty: string;
  /** A heading right above says it already. */
  headed?: boolean;
}

export function Table<T>({ caption, columns, rows, keyOf, empty, headed }: TableProps<T>) {
  if (rows.length === 0) return <p class="empty">{empty}</p>;
  return (
    <table class="wide-table" role="table">
      <caption class={headed ? "unseen" : ""}>{caption}</caption>
      <thead role="rowgroup">
        <tr role="row">
          {columns.map(({ head, figure }) => <th key={head} role="columnheader" scope="col" class={figure ? "figure" : ""}>{head}</th>)}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map((row) => (
          <tr key={keyOf(row)} role="row">
            {columns.map(({ head, cell, figure }, at) => (
              <td key={head} role={at === 0 ? "rowheader" : "cell"} data-head={head} class={figure ? "figure" : ""}><span>{cell(row)}</span></td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
