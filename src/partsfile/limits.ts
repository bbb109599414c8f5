import type { HoldingLimit, Limits } from '../model/job.ts';
import type { Currency } from './currencies.ts';
import { type Quantity, readPrice, readQuantity } from './quantities.ts';
import { child, type Field, isFlawed } from './tree.ts';
import { type Reading, readWhole, readWord } from './values.ts';

const YIELD: Quantity = {
  units: { '': 1, '%': 0.01 },
  usual: '',
  min: 0,
  max: 1,
  range: 'a share is between 0 and 1, or 0 % and 100 %',
  right: 'a share such as 70 % or 0.7',
};

const NO_LIMITS: Limits = {
  sheets: null,
  yieldShare: null,
  costCents: null,
  holding: null,
  place: null,
};

/** What the plan is held against; null after a problem. */
export function readLimits(
  field: Field | null,
  currency: Currency,
  reading: Reading,
): Limits | null {
  if (field === null) return NO_LIMITS;
  if (isFlawed(field)) return null;
  const yieldField = child(field, 'yield');
  const yieldShare = yieldField === null ? undefined : readQuantity(yieldField, reading, YIELD);
  const costField = child(field, 'cost');
  const costCents = costField === null ? undefined : readPrice(costField, reading, currency);
  if (yieldShare === null || costCents === null) return null;
  const holding = child(field, 'holding');
  return {
    sheets: readWhole(child(field, 'sheets')),
    yieldShare: yieldShare ?? null,
    costCents: costCents ?? null,
    holding: holding === null ? null : readWord<HoldingLimit>(holding, 'no piece moves'),
    place: field.place,
  };
}
