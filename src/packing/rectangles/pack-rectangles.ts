// Packs bodies as boxes, by any kind of cuts, on several stocks.
// Idea: many quick builds first, then one sheet after another is taken away as long as its boxes find room on the others, and at the end the emptiest sheet
//   is emptied further and packed to one end.
// Source: see the files of the three steps.
// Cost: counted work; the first build is always made, also when the budget is tiny.
// Degenerate cases: no bodies: no sheets; bodies whose box fits no sheet are left unplaced.
import { costOf } from '../priced.ts';
import type { Candidate, PackingTask, Search, Strategy } from '../task.ts';
import { bestFit, bestRest } from './best-fit.ts';
import { boxTask } from './box-task.ts';
import { kindOf } from './code.ts';
import { eliminate } from './eliminate.ts';
import { type CutKind, type Engine, newEngine } from './engine.ts';
import { FREE_CUTS } from './free-cuts.ts';
import { freeLastSheet } from './last-sheet.ts';
import { type Arrangement, arrangementOf, candidateOf } from './sheet.ts';
import { suitsPatterns, valueBuilds } from './value-builds.ts';

/** Shares of the work for building and for the last sheet, more of it where the bound is reached; the rest goes to taking sheets away. */
const BUILD_SHARE = 0.1;
const PATTERN_SHARE = 0.3;
const LAST_SHEET_SHARE = 0.1;
const PROVED_LAST_SHEET_SHARE = 0.2;

/** Anywhere on the sheet, as a router cuts. */
export const packRectangles = boxStrategy(FREE_CUTS);

export function boxStrategy(cuts: CutKind): Strategy {
  return (task, search) => packBoxes(task, cuts, search);
}

function packBoxes(task: PackingTask, cuts: CutKind, search: Search): Candidate {
  const { budget, atLeast } = search;
  const boxes = boxTask(task);
  const engine = newEngine(boxes, cuts, search);
  const total = budget.left;
  const report = (arrangement: Arrangement): Candidate => {
    const candidate = candidateOf(boxes, engine.decoder, toppedUp(engine, arrangement));
    search.found(candidate);
    return candidate;
  };
  const isEnough = ({ sheets, pool }: Arrangement) =>
    pool.length === 0 && costOf(engine.stocks, sheets) <= atLeast;
  const known = search.start.sheets.length > 0 ? arrangementOf(boxes, search.start) : null;
  const isPatterned = suitsPatterns(engine);
  // One build by best fit gives a first layout; where patterns are of use they do the rest.
  const forFitting = isPatterned ? 0 : BUILD_SHARE * total;
  const fitted = known ?? bestFit(engine, forFitting, isEnough, report);
  const built = isPatterned
    ? valueBuilds(engine, fitted, PATTERN_SHARE * total, isEnough, report)
    : fitted;
  const forTaking = budget.left - LAST_SHEET_SHARE * total;
  const best = eliminate(engine, built, forTaking, atLeast, report);
  const share = isEnough(best) ? PROVED_LAST_SHEET_SHARE : LAST_SHEET_SHARE;
  freeLastSheet(engine, best, share * total, report);
  return candidateOf(boxes, engine.decoder, toppedUp(engine, best));
}

/** What waits goes on sheets that are still to be had: the moves leave a sheet empty where others took its boxes. */
function toppedUp(engine: Engine, arrangement: Arrangement): Arrangement {
  const { stocks, task } = engine;
  if (arrangement.pool.length === 0) return arrangement;
  const sheets = arrangement.sheets.filter(({ count }) => count > 0);
  const taken = stocks.map((_, index) => sheets.filter(({ stock }) => stock === index).length);
  const onHand = stocks.map((stock, index) => stock.onHand - taken[index]!);
  if (onHand.every((left) => left <= 0)) return arrangement;
  const waiting = new Int32Array(task.kindCount);
  for (const code of arrangement.pool) waiting[kindOf(code)]!++;
  const rest = bestRest(engine, { boxes: waiting, onHand, taken }, 1);
  return { sheets: [...sheets, ...rest.sheets], pool: rest.pool };
}
