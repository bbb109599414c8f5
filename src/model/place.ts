/** Where in the parts file something was said; both count from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}
