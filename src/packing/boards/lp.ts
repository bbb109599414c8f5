// The only file that imports the library for linear programmes. It is loaded when the first job with boards comes.
import type { Highs, Model } from 'highs';

/** A row of a programme: what the weighted sum of the columns has to lie between. */
export interface Limits {
  readonly lower: number;
  readonly upper: number;
}

/** A column: what one unit of it costs, and its entries. */
export interface Column {
  readonly cost: number;
  readonly rows: readonly number[];
  readonly values: readonly number[];
}

export interface LinearOptimum {
  readonly value: number;
  /** Of each column, in the order in which they were added. */
  readonly columns: Float64Array;
  /** What one unit more of each row would cost. */
  readonly duals: Float64Array;
  /** Steps of the simplex method. */
  readonly steps: number;
}

/** A programme to which columns are added between two runs, which start where the one before ended. */
export interface Programme {
  readonly add: (columns: readonly Column[]) => void;
  readonly setRow: (row: number, limits: Limits) => void;
  /** Null where there is no optimum, for whatever reason. */
  readonly minimise: () => LinearOptimum | null;
  readonly close: () => void;
}

export interface Solver {
  readonly programme: (rows: readonly Limits[]) => Programme;
  /** The best whole numbers of the columns that are found within so many nodes; null where none are. */
  readonly wholeNumbers: (question: WholeQuestion) => readonly number[] | null;
}

export interface WholeQuestion {
  readonly rows: readonly Limits[];
  readonly columns: readonly Column[];
  /** No other answer than one below this is of use. */
  readonly below: number;
  readonly mostNodes: number;
}

let loading: Promise<Solver | null> | null = null;

/** The library, once for the whole process; null where it cannot be loaded. */
export function loadSolver(): Promise<Solver | null> {
  loading ??= load();
  return loading;
}

async function load(): Promise<Solver | null> {
  try {
    const library = (await import('highs')) as unknown as { default: () => Promise<Highs> };
    return solverOf(await library.default());
  } catch {
    return null;
  }
}

function solverOf(highs: Highs): Solver {
  return {
    programme: (rows) => programmeOf(highs, rows),
    wholeNumbers: (question) => wholeNumbers(highs, question),
  };
}

function programmeOf(highs: Highs, rows: readonly Limits[]): Programme {
  const model = highs.createModel();
  model.options.set({ output_flag: false, presolve: 'off', solver: 'simplex' });
  addRows(model, rows);
  return {
    add: (columns) => addColumns(highs, model, columns),
    setRow: (row, { lower, upper }) => void model.changeRowBounds(row, lower, upper),
    minimise: () => {
      try {
        const { modelStatus } = model.run();
        if (modelStatus !== highs.constants.modelStatus.optimal) return null;
        const { colValue, rowDual } = model.getSolution();
        const steps = Number(model.info.get('simplex_iteration_count'));
        return { value: model.getObjectiveValue(), columns: colValue, duals: rowDual, steps };
      } catch {
        return null;
      }
    },
    close: () => model.dispose(),
  };
}

function addRows(model: Model, rows: readonly Limits[]): void {
  for (const { lower, upper } of rows) model.addRow(lower, upper, { indices: [], values: [] });
}

function addColumns(highs: Highs, model: Model, columns: readonly Column[]): void {
  for (const { cost, rows: indices, values } of columns)
    model.addCol(cost, 0, highs.infinity, { indices, values });
}

function wholeNumbers(
  highs: Highs,
  { rows, columns, below, mostNodes }: WholeQuestion,
): readonly number[] | null {
  return highs.withModel((model) => {
    model.options.set({
      output_flag: false,
      mip_max_nodes: mostNodes,
      objective_bound: below,
      mip_abs_gap: 0.999,
    });
    addRows(model, rows);
    addColumns(highs, model, columns);
    columns.forEach((_, k) => {
      model.changeColIntegrality(k, highs.constants.variableType.integer);
    });
    try {
      model.run();
      const { colValue } = model.getSolution();
      if (colValue.length !== columns.length) return null;
      return Array.from(colValue, Math.round);
    } catch {
      return null;
    }
  });
}
