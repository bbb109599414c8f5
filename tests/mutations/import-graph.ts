import { createHash } from 'node:crypto';
import { posix } from 'node:path';
import { childrenOf, isNode, type Node, parseSource } from './syntax.ts';

/** The files that a file imports; paths are below the project's folder. */
export type ImportGraph = ReadonlyMap<string, readonly string[]>;

/** What is imported for its types only has no say in a run. */
export function importGraph(texts: ReadonlyMap<string, string>): ImportGraph {
  return new Map(
    [...texts].map(([file, text]) => [
      file,
      importedBy(text)
        .filter((path) => path.startsWith('.'))
        .map((path) => posix.join(posix.dirname(file), path))
        .filter((path) => texts.has(path)),
    ]),
  );
}

function importedBy(text: string): string[] {
  const paths: string[] = [];
  const visit = (node: Node) => {
    const { source } = node;
    if (isNode(source) && typeof source.value === 'string' && !isOfTypes(node))
      paths.push(source.value);
    for (const child of childrenOf(node)) visit(child);
  };
  visit(parseSource(text));
  return paths;
}

function isOfTypes({ importKind, exportKind, specifiers }: Node): boolean {
  if (importKind === 'type' || exportKind === 'type') return true;
  const all = Array.isArray(specifiers) ? (specifiers as Node[]) : [];
  return all.length > 0 && all.every((each) => [each.importKind, each.exportKind].includes('type'));
}

/** The files that reach a file by their imports, by the least number of steps. */
export function reaching(graph: ImportGraph, file: string): Map<string, number> {
  const steps = new Map([[file, 0]]);
  for (const [reached, count] of steps)
    for (const [importer, imported] of graph)
      if (imported.includes(reached) && !steps.has(importer)) steps.set(importer, count + 1);
  return steps;
}

/** A digest of a file and of all that it imports: where it is the same, so is what the file does. */
export function digestOf(graph: ImportGraph, texts: ReadonlyMap<string, string>, file: string) {
  const reached = new Set([file]);
  for (const each of reached) for (const imported of graph.get(each) ?? []) reached.add(imported);
  const digest = createHash('sha256');
  for (const each of [...reached].sort()) digest.update(`${each}\n${texts.get(each)}\n`);
  return digest.digest('hex').slice(0, 16);
}
