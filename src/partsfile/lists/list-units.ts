/** A unit of the plain numbers of a list. */
export const LIST_UNITS = ['mm', 'cm', 'm', 'in'] as const;
export type ListUnit = (typeof LIST_UNITS)[number];

const WORDS: Readonly<Record<ListUnit, string>> = {
  mm: 'mm|millimet(?:er|re)s?|millimetri|mil[ií]metros?|milimetry',
  cm: 'cm|centimet(?:er|re)s?|centimetri|cent[ií]metros?|centymetry',
  m: 'm|met(?:er|re)s?|m[èé]tres?|metri|metros?|metry',
  in: "in\\.?|inch(?:es)?|zoll|pouces?|pollici|pulgadas?|polegadas?|duim|cale|\"|''|″",
};

const HEADERS = LIST_UNITS.map((unit) => ({
  unit,
  bracketed: new RegExp(`^(.*?) ?[([{] ?(?:in |en )?(?:${WORDS[unit]}) ?[)\\]}]\\.?(.*)$`, 'i'),
  // A single m behind a word is too little to go by.
  behind: new RegExp(
    `^(.+?)[ ,/:_]+(?:in |en |w )?(?:${unit === 'm' ? 'met(?:er|re)s?' : WORDS[unit]})\\.?$`,
    'i',
  ),
}));

/** `Length (mm)`, `Länge in cm` and `L/mm`: the unit, and what is left of the header. */
export function unitOfHeader(header: string): {
  readonly unit: ListUnit | null;
  readonly rest: string;
} {
  if (header.length > 60) return { unit: null, rest: header };
  for (const { unit, bracketed, behind } of HEADERS) {
    const [, before, after = ''] = bracketed.exec(header) ?? behind.exec(header) ?? [];
    if (before !== undefined) return { unit, rest: `${before}${after}`.trim() };
  }
  return { unit: null, rest: header };
}

const NAMES: readonly (readonly [ListUnit, RegExp])[] = LIST_UNITS.map((unit) => [
  unit,
  new RegExp(`(?<=[\\d.] ?)(?:${WORDS[unit]})\\.?$`, 'i'),
]);

/** The value with the name of its unit as parts files have it: `12 Zoll` is `12in`. */
export function plainUnit(value: string): string {
  for (const [unit, pattern] of NAMES) if (pattern.test(value)) return value.replace(pattern, unit);
  return value;
}

/** What is written as people write inches only: a fraction, or an inch mark. */
export function isInches(value: string): boolean {
  return /\d ?\/ ?\d|[½¼¾⅛⅜⅝⅞]|\d ?(?:"|″|”|''|in\b|inch|zoll|pouce|pollic|pulg|poleg)/i.test(
    value,
  );
}
