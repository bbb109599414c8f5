import { type HoldingLimit, type Limits, NO_LIMITS } from '../model/job.ts';
import { KG_PER_LB } from '../model/units.ts';
import { TIME } from './costs.ts';
import type { Currency } from './currencies.ts';
import { type Quantity, readPrice, readQuantity } from './quantities.ts';
import { child, type Field, isFlawed, keySpot, keysOf } from './tree.ts';
import { type Reading, readName, readWhole, readWord, readYes } from './values.ts';

const YIELD: Quantity = {
  units: { '': 1, '%': 0.01 },
  usual: '',
  min: 0,
  max: 1,
  range: 'a share is between 0 and 1, or 0 % and 100 %',
  right: 'a share such as 70 % or 0.7',
};

const WEIGHT: Quantity = {
  units: { kg: 1, lb: KG_PER_LB, lbs: KG_PER_LB },
  usual: '',
  min: 0.1,
  max: 10_000,
  range: 'it must be between 0.1 and 10,000 kg',
  right: 'a weight with its unit, such as 25 kg or 50 lb',
};

/** What the plan is held against; null after a problem. */
export function readLimits(
  field: Field | null,
  currency: Currency,
  reading: Reading,
): Limits | null {
  if (field === null) return NO_LIMITS;
  if (isFlawed(field)) return null;
  const own = <T>(key: string, read: (at: Field) => T | null): T | null | undefined => {
    const at = child(field, key);
    return at === null ? undefined : read(at);
  };
  const yieldShare = own('yield', (at) => readQuantity(at, reading, YIELD));
  const costCents = own('cost', (at) => readPrice(at, reading, currency));
  const timeS = own('time', (at) => readQuantity(at, reading, TIME));
  const weightKg = own('weight', (at) => readQuantity(at, reading, WEIGHT));
  const drift = own('drift', (at) => readName(at, reading));
  if ([yieldShare, costCents, timeS, weightKg, drift].includes(null)) return null;
  return {
    sheets: readWhole(child(field, 'sheets')),
    yieldShare: yieldShare ?? null,
    costCents: costCents ?? null,
    holding: own('holding', (at) => readWord<HoldingLimit>(at, 'no piece moves')) ?? null,
    proof: readYes(child(field, 'proof')),
    timeS: timeS ?? null,
    weightKg: weightKg ?? null,
    drift: drift ?? null,
    places: Object.fromEntries(keysOf(field).map((key) => [key, keySpot(field, key).place])),
  };
}
