import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect } from 'vitest';

const FOLDER = join(import.meta.dirname, '..', 'golden');

/** Compares with the file of this name in tests/golden; with UPDATE=1 in the environment writes it instead, to be read before it is committed. */
export function expectGolden(name: string, text: string): void {
  const path = join(FOLDER, name);
  if (process.env.UPDATE === '1') {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
  expect(text).toBe(readFileSync(path, 'utf8'));
}
