import type { Drawing } from '../../drawing/display-list.ts';

/** One column of a table; `share` is its part of the width. */
export interface Column {
  readonly head: string;
  readonly share: number;
  readonly right: boolean;
}

/** A stretch of a text page; it says nothing about letters or places. */
export type Block =
  | { readonly kind: 'title'; readonly text: string; readonly under: string }
  /** What follows begins a page. */
  | { readonly kind: 'page' }
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'drawing'; readonly drawing: Drawing }
  | { readonly kind: 'list'; readonly entries: readonly string[] }
  | {
      readonly kind: 'table';
      readonly columns: readonly Column[];
      readonly rows: readonly (readonly string[])[];
    };

export function column(head: string, share: number, right = false): Column {
  return { head, share, right };
}
