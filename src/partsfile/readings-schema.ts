import { z } from 'zod';
import { table } from './schema-table.ts';
import { length, number, size, yesOrNo } from './schema-values.ts';

/** The form of a readings file. Which keys go with which kind is checked by its reader. */

export const READING_KINDS = ['bare', 'covered', 'kerf', 'hole', 'tilt', 'pull'] as const;

const reading = z.strictObject(
  {
    kind: z.enum(READING_KINDS).describe('what was done'),
    vacuum: number.optional().describe('at the gauge: kPa, in an inch file inHg'),
    sheet: size.optional().describe('length x width of the airtight sheet, of covered and kerf'),
    length: length.optional().describe('of the open kerf, all of it together'),
    width: length.optional().describe('of the kerf'),
    throttle: length
      .optional()
      .describe('diameter of the hole in a plate between pump and table, where there is one'),
    diameter: length.optional().describe('of the hole in a plate at the end of the hose'),
    angle: number.optional().describe('degrees at which the test piece slid'),
    square: length.optional().describe('side of the square test piece'),
    force: number.optional().describe('the pull at which it slid: N, in an inch file lbf'),
    weight: number.optional().describe('of the square: kg, in an inch file lb; none if left out'),
    'covered-beside': yesOrNo
      .optional()
      .describe('whether the board beside the square is covered; no if left out'),
    surface: z.enum(['raw', 'film-faced']).optional().describe('of the test piece'),
  },
  'a reading, such as { kind: bare, vacuum: 12.5 kPa }',
);

/** The whole file. */
export const READINGS_SCHEMA = z
  .strictObject(
    {
      unit: z.enum(['mm', 'in']).describe('unit of every length that has none of its own'),
      table: table.optional(),
      readings: z.array(reading, 'a list of readings').min(1).describe('what was read'),
    },
    'the keys of a readings file: unit, table, readings',
  )
  .describe('A readings file of Holdfast');

export function readingsFileSchema(): object {
  return z.toJSONSchema(READINGS_SCHEMA, { io: 'input', target: 'draft-7' });
}
