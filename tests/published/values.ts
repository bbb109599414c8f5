import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import type { Inputs } from './inputs.ts';

export interface Value {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Inputs;
  readonly expected: number | readonly number[];
  readonly tolerance: number | string;
  readonly unit: string;
  readonly kind: string;
  readonly source: string;
}

export const VALUES: readonly Value[] = parse(
  readFileSync(join(import.meta.dirname, 'values.yaml'), 'utf8'),
);

export const KINDS: readonly string[] = ['published', 'derived', 'memory', 'practice'];
