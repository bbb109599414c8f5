import type { Table } from '../../src/model/machine.ts';
import { fromMm } from '../../src/model/units.ts';

/** A table of the parts file without zones, masks, pipe or seals. */
export const PLAIN_PLACES = {
  isGiven: true,
  sheetAt: { x: 0, y: 0 },
  zones: [],
  masked: [],
  pipe: null,
  seal: null,
} as const satisfies Partial<Table>;

/** 18 mm of planed MDF, as through as along. */
export const PLAIN_BOARD: Table['spoilboard'] = {
  kind: 'mdf',
  thickness: fromMm(18),
  permeabilityM2: { nominal: 3e-13, low: 6.3e-13 },
  alongRatio: 1,
};
