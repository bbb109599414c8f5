import type { Family } from '../../model/stock.ts';
import { folded } from './column-words.ts';

/**
 * What a material is, by words in its name, the first that fits: what is on its faces says less than its core. English, German, French, Spanish, Italian, Dutch, Polish and
 * Portuguese; common practice, no source. Birch alone names no family, as it is plywood or solid wood.
 */
const FAMILY_WORDS: readonly (readonly [Family, RegExp])[] = [
  ['osb', /\bosb\b/],
  ['mdf', /\bmdf\b|medium density|mitteldicht/],
  ['hardboard', /\bhdf\b|hardboard|hartfaser|panneau dur/],
  [
    'softwood-plywood',
    /(pine|spruce|fir|softwood|nadelholz|fichten?|kiefern?|seekiefer|pin maritime|pino|grenen|vuren|sosnow\w+) ?(ply\w*|sperrholz\w*|contreplaque|contrachapado|compensato|multiplex)|contreplaque pin\b/,
  ],
  [
    'plywood',
    /\bply\b|plywood|sperrholz|multiplex|contreplaque|contrachapado|compensato|triplex|sklejk|contraplacado|compensado/,
  ],
  [
    'particleboard',
    /particle ?board|chip ?board|span ?platte|\bspan\b|agglomere|aglomerado|truciolare|spaanplaat|wiorow|panneau de particules|melamin|\bdekor|\bdecor/,
  ],
  [
    'softwood',
    /\b(pine|spruce|fir|larch|cedar|kiefer|fichte|tanne|larche|sapin|epicea|pino|abeto|abete|grenen|vuren|sosna|swierk|pinho)\b/,
  ],
  [
    'hardwood',
    /\b(oak|beech|ash|walnut|maple|cherry|eiche|buche|esche|nussbaum|ahorn|kirsche|chene|hetre|frene|noyer|erable|merisier|roble|haya|fresno|nogal|arce|rovere|quercia|faggio|frassino|noce|acero|eiken|beuken|essen|noten|dab|buk|jesion|orzech|carvalho|faia|freixo|nogueira)\b/,
  ],
];

/** A veneer says nothing of what is under it. */
const VENEERED = /veneer|furnier|plaque\b|chapado|impiallacciat|gefineerd|fornir|folheado/;
const FILMED = /film|melamin|laminat|laminad|stratifie|beschichtet|\bhpl\b|\bdekor|\bdecor/;

export function familyOf(name: string): Family | null {
  const plain = folded(name);
  const [family] = FAMILY_WORDS.find(([, pattern]) => pattern.test(plain)) ?? [];
  if (family === undefined) return null;
  return (family === 'softwood' || family === 'hardwood') && VENEERED.test(plain) ? null : family;
}

/** Whether its faces slip more easily than raw wood. */
export function isFilmed(name: string): boolean {
  return FILMED.test(folded(name));
}

/** The thickness in a name such as `Birch plywood 18 mm`, `MDF 19` or `3/4" plywood`, as text; null where it has none or several. */
export function thicknessInName(name: string): string | null {
  const withUnit = [...name.matchAll(WITH_UNIT)].map(([text]) => text);
  const found = withUnit.length > 0 ? withUnit : [...name.matchAll(BARE)].map(([text]) => text);
  return found.length === 1 ? found[0]! : null;
}

const WITH_UNIT =
  /(?<![\d.,/x×-])(?:\d{1,2}[- ]\d{1,2}\/\d{1,2}|\d{1,2}\/\d{1,2}|\d{1,3}(?:[.,]\d{1,2})?) ?(?:mm|cm|in|inch|zoll|"|″)(?![\p{L}\d])/giu;
const BARE = /(?<![^\s,;(])(?:\d{1,2}\/\d{1,2}|\d{1,2}(?:[.,]\d)?)(?![^\s,;)])/gu;

/** A key for a material in letters that need no quotation marks; `fallback` where its name has none such. */
export function keyOf(name: string, fallback: string): string {
  const key = folded(name)
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/(?<=\d)-(mm|in)\b/, '')
    .slice(0, 40)
    .replace(/^-+|-+$/g, '');
  return /[a-z]/.test(key) ? key : key === '' ? fallback : `${fallback}-${key}`;
}
