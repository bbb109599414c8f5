/** What the page's script knows of the plan; as JSON in the page. Every text is shown as it is, never read as markup. */
export interface PageData {
  /** Under which the ticks are kept: another for every other layout. */
  readonly key: string;
  /** In the order in which they are cut, sheet by sheet. */
  readonly pieces: readonly PieceData[];
  /** Lines of the reckonings, each once: quantity, formula, value. */
  readonly lines: readonly (readonly [string, string, string])[];
}

export interface PieceData {
  /** Index in the job; its row in the list and its group in the drawing carry it too. */
  readonly id: number;
  readonly sheet: number;
  /** "Side 2/4". */
  readonly title: string;
  /** In the unit of the file. */
  readonly size: string;
  /** Around the piece in its drawing: left, top, width and height, as the drawing counts. */
  readonly box: readonly [number, number, number, number];
  /** What to do at the machine, the most important thing first; empty where nothing is needed. */
  readonly todo: readonly string[];
  /** Null at a saw. */
  readonly verdict: VerdictData | null;
  /** Name and value, as they are read. */
  readonly facts: readonly (readonly [string, string])[];
  /** Into `lines`. */
  readonly reckoning: readonly number[];
}

export interface VerdictData {
  readonly word: 'stays' | 'marginal' | 'moves';
  /** "margin 1.31, at the low end 0.84". */
  readonly margin: string;
  /** What it is with the remedy; null where there is none. */
  readonly after: string | null;
  readonly why: string;
}
