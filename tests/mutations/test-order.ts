import { basename, dirname } from 'node:path';
import { type ImportGraph, reaching } from './import-graph.ts';

/** So many steps of import away a test of another folder is still about the file itself. */
const NEAR = 1;

/**
 * The test files that reach a source file, those first that may tell soonest: of the same name, of the folder that mirrors its own, then the
 * near ones, then all others; among them near and short before far and long.
 */
export function testOrder(
  graph: ImportGraph,
  file: string,
  secondsOf: (test: string) => number,
): { test: string; isNear: boolean }[] {
  const steps = reaching(graph, file);
  const tests = [...steps].filter(([each]) => each.endsWith('.test.ts'));
  return tests
    .map(([test, count]) => ({
      test,
      group: mirrors(test, file) ? 0 : count <= NEAR ? 1 : 2,
      cost: bears(test, file) ? 0 : count * (1 + secondsOf(test)),
    }))
    .sort((a, b) => a.group - b.group || a.cost - b.cost || (a.test < b.test ? -1 : 1))
    .map(({ test, group }) => ({ test, isNear: group < 2 }));
}

function bears(test: string, file: string): boolean {
  return basename(test) === basename(file).replace('.ts', '.test.ts');
}

/** `tests/packing-outlines` and `tests/partsfile` mirror `src/packing/outlines` and `src/partsfile/lists`. */
function mirrors(test: string, file: string): boolean {
  const own = dirname(test).replace('tests/', 'src/').replace('-', '/');
  return dirname(file) === own || dirname(dirname(file)) === own;
}
