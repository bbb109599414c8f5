import type { Candidate, Spot } from '../task.ts';
import type { FindSpot } from './find-spot.ts';
import type { Fixed, Setup } from './setup.ts';

/** What a construction follows: bodies in their turn, the orientation each is held to, and the stock of each new sheet. */
export interface Recipe {
  readonly order: readonly number[];
  /** For each body an orientation, or -1 for the best one at its place. */
  readonly held: readonly number[];
  /** Stocks by preference for the first, second, … sheet; the last entry holds for all further ones. */
  readonly stocks: readonly (readonly number[])[];
  /** Sheets of each stock at most; as many as there are if left out. */
  readonly most?: readonly number[];
}

/** What a construction works with. */
export interface Construction {
  readonly setup: Setup;
  readonly findSpot: FindSpot;
  /** Asked for each body; true once there is no work left. */
  readonly inHurry: () => boolean;
}

/**
 * Lays the bodies one after the other, each at the leftmost place of the first sheet that has room for it, and opens a sheet where none has.
 *
 * Idea: a sheet fills from one end, so that what is left of it is one useful piece; small bodies laid late fill the holes that
 * large ones left. Of the allowed orientations the one that ends furthest to the left is taken.
 * Forms on a sheet are only ever added, so a form that had no place left of x never gets one there, and its next search starts at x.
 * In a hurry only the sheets opened last are tried before a new one, by the hulls of forms that are nearly convex, and the first orientation that fits is
 * taken: a job far larger than its work then still comes to an end soon, and no body is left out that has room.
 * Source: the bottom-left heuristic of Baker, Coffman & Rivest 1980 with first fit over the sheets.
 * Cost: one search for each body, orientation and sheet with room.
 * Degenerate cases: a body that fits no sheet on hand is left out.
 */
export function construct(tools: Construction, recipe: Recipe): Candidate {
  const { setup } = tools;
  const run: Run = {
    ...tools,
    recipe,
    sheets: [],
    left: [
      ...(recipe.most ?? setup.task.stocks.map(({ onHand }) => onHand ?? Number.POSITIVE_INFINITY)),
    ],
  };
  const unplaced = recipe.order.filter((body) => !layAnywhere(run, body));
  return { sheets: run.sheets.map(({ stock, spots }) => ({ stock, spots })), unplaced };
}

/** As many of the sheets opened last are tried in a hurry before a new one is opened. */
const HURRIED_SHEETS = 3;

/** How a place is looked for: the most orientations that are tried first, whether all the others are in the end, and whether hulls may stand for forms that are nearly convex. */
interface Care {
  readonly most: number;
  readonly tryAll: boolean;
  readonly isCoarse: boolean;
}

/** The sums of many orientations are only worth making where a body would be left out else: the squeeze turns bodies further. */
const EVERY_TURN: Care = { most: Number.POSITIVE_INFINITY, tryAll: true, isCoarse: false };
const THOROUGH: Care = { ...EVERY_TURN, tryAll: false };
const HURRIED: Care = { most: 4, tryAll: false, isCoarse: true };

interface Run extends Construction {
  readonly recipe: Recipe;
  readonly sheets: OpenSheet[];
  /** For each stock how many sheets are not yet used. */
  readonly left: number[];
}

interface OpenSheet {
  readonly stock: number;
  readonly spots: Spot[];
  readonly fixed: Fixed[];
  /** For each form an x left of which it has no place, and one left of which its hull has none. */
  readonly firstX: number[];
  readonly firstCoarseX: number[];
}

function layAnywhere(run: Run, body: number): boolean {
  const { sheets } = run;
  const [tried, care] = run.inHurry()
    ? ([sheets.slice(-HURRIED_SHEETS), HURRIED] as const)
    : ([sheets, THOROUGH] as const);
  return (
    tried.some((sheet) => lay(run, sheet, body, care)) ||
    layOnNewSheet(run, body) ||
    sheets.some((sheet) => lay(run, sheet, body, EVERY_TURN))
  );
}

function layOnNewSheet(run: Run, body: number): boolean {
  const { sheets, left, setup, recipe } = run;
  for (const stock of recipe.stocks[Math.min(sheets.length, recipe.stocks.length - 1)] ?? []) {
    const spare = left[stock] ?? 0;
    if (spare <= 0) continue;
    const fixed = [...(setup.rooms[stock]?.keepOuts ?? [])];
    const sheet = { stock, spots: [], fixed, firstX: [], firstCoarseX: [] };
    if (!lay(run, sheet, body, EVERY_TURN)) continue;
    left[stock] = spare - 1;
    sheets.push(sheet);
    return true;
  }
  return false;
}

/** Lays the body on the sheet if there is room for it in one of its first orientations, or in the one it is held to. */
function lay(run: Run, sheet: OpenSheet, body: number, care: Care): boolean {
  const { most, tryAll, isCoarse } = care;
  const { first = [], count = 0 } = run.setup.turnsOfBody[body] ?? {};
  const held = run.recipe.held[body] ?? -1;
  const spot =
    (held >= 0 ? bestSpot(run, sheet, body, [held], isCoarse) : null) ??
    bestSpot(run, sheet, body, first.slice(0, most), isCoarse) ??
    (tryAll && first.length < count
      ? bestSpot(run, sheet, body, [...Array(count).keys()], isCoarse)
      : null);
  if (spot === null) return false;
  sheet.spots.push(spot);
  const form = run.setup.formsOfBody[body]?.[spot.orientation] ?? 0;
  sheet.fixed.push({ form, x: spot.x, y: spot.y });
  return true;
}

function bestSpot(
  run: Run,
  sheet: OpenSheet,
  body: number,
  choices: readonly number[],
  isCoarse: boolean,
): Spot | null {
  const { firstX, firstCoarseX } = sheet;
  let best: Spot | null = null;
  let bestEnd = Number.POSITIVE_INFINITY;
  for (const orientation of choices) {
    const { allowedOn = [], width = 0 } =
      run.setup.task.bodies[body]?.orientations[orientation] ?? {};
    const form = run.setup.formsOfBody[body]?.[orientation] ?? 0;
    if (!allowedOn[sheet.stock]) continue;
    // Only a place that ends further to the left is of use.
    const toX = bestEnd - width - 1;
    const fromX = Math.max(
      firstX[form] ?? Number.NEGATIVE_INFINITY,
      (isCoarse ? firstCoarseX[form] : undefined) ?? Number.NEGATIVE_INFINITY,
    );
    if (fromX > toX) continue;
    const found = run.findSpot(sheet, form, { fromX, toX, isCoarse });
    (isCoarse ? firstCoarseX : firstX)[form] = found === null ? toX + 1 : found.x;
    if (found === null) continue;
    best = { body, orientation, x: found.x, y: found.y };
    if (run.inHurry()) return best;
    bestEnd = found.x + width;
  }
  return best;
}
