import type { FileUnit } from '../model/job.ts';
import type { LayerValues, Placeholder } from '../model/machine-layers.ts';
import { UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';

/** The name of a layer with its placeholders filled in. A depth that goes through is a word. */
export function layerName(pattern: string, values: LayerValues, unit: FileUnit): string {
  return pattern.replace(/\{(\w+)\}/g, (_, key: Placeholder) => {
    const value = values[key];
    return value == null ? 'THROUGH' : nameNumber(value, unit);
  });
}

/** To a micrometre or a ten-thousandth of an inch, with the letter P for the point, which no name of a layer may have: "6P35". */
function nameNumber(length: number, unit: FileUnit): string {
  const digits =
    unit === 'mm' ? (length / UNITS_PER_MM).toFixed(3) : (length / UNITS_PER_INCH).toFixed(4);
  return digits.replace(/\.?0+$/, '').replace('.', 'P');
}
