import { type OffcutRule, USUAL_OFFCUTS } from '../model/offcut-rule.ts';
import { child, type Field, isFlawed } from './tree.ts';
import { POSITIVE, type Reading, readSize, readWord } from './values.ts';

/** Which leftovers are kept, and what makes one worth more than another; null after a problem. */
export function readOffcuts(field: Field | null, reading: Reading): OffcutRule | null {
  const usual = USUAL_OFFCUTS[reading.unit];
  if (field === null) return usual;
  if (isFlawed(field)) return null;
  const leastField = child(field, 'least');
  const least =
    leastField === null ? [usual.short, usual.long] : readSize(leastField, reading, POSITIVE);
  if (least === null) return null;
  return {
    short: Math.min(...least),
    long: Math.max(...least),
    prefer: readWord<OffcutRule['prefer']>(child(field, 'prefer'), usual.prefer),
  };
}
