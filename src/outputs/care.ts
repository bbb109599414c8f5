import { type Advice, adviceOf, type Holding } from '../model/holding.ts';
import type { Plan } from '../model/plan.ts';
import { UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';

/** Loose things of one sheet that are alike in name, action and outcome, in the order of their cuts; never empty. */
export interface CareGroup {
  readonly first: Holding;
  readonly all: readonly Holding[];
}

/** Whether a loose thing has to be looked at: it does not stay by itself, or something is to be done. */
export function needsCare({ action, verdict }: Holding): boolean {
  return action !== 'none' || verdict !== 'stays';
}

/** Everything that needs care, alike things together, so that twelve door stops are one row. */
export function careGroups(plan: Plan): readonly CareGroup[] {
  const groups = new Map<string, Holding[]>();
  for (const loose of plan.holding.flatMap((sheet) => sheet.loose).filter(needsCare)) {
    const { sheet, kind, action, verdictAfter, skin, skinFor, tabs } = loose;
    // What is done for the waste alone is one thing, whatever the pieces are.
    const name = loose.piece === null || skinFor === 'waste' ? '' : partName(plan, loose.piece);
    const key = JSON.stringify([
      sheet,
      kind,
      name,
      action,
      verdictAfter,
      skin,
      skinFor,
      tabs.length,
    ]);
    groups.set(key, [...(groups.get(key) ?? []), loose]);
  }
  return [...groups.values()].map((alike) => {
    const all = alike.toSorted((a, b) => a.cutOrder - b.cutOrder);
    return { first: all[0]!, all };
  });
}

/**
 * What a person calls the group: `8 × Door stop`, `slug in Frame 1`, `2 × sliver`, `7 pieces beside waste`. Tables have no room for the place of a slug, which the
 * report has.
 */
export function groupName(plan: Plan, { first, all }: CareGroup): string {
  if (all.length === 1)
    return first.kind === 'slug' ? slugName(plan, first) : looseName(plan, first);
  if (first.skinFor === 'waste') return `${all.length} pieces beside waste`;
  const name = first.piece === null ? '' : partName(plan, first.piece);
  const what = first.kind === 'piece' ? name : [first.kind, name].filter(Boolean).join(' in ');
  return `${all.length} × ${what}`;
}

/** What a person calls a loose thing: `Drawer stop 2`, `slug in Frame 1 at 800, 310`, `sliver at 1200, 640`. */
export function looseName(plan: Plan, loose: Holding): string {
  if (loose.kind === 'piece') return pieceName(plan, loose.piece!);
  const name = loose.kind === 'slug' ? slugName(plan, loose) : loose.kind;
  return `${name}${placeText(plan, loose)}`;
}

function slugName(plan: Plan, { kind, piece }: Holding): string {
  return `${kind} in ${pieceName(plan, piece!)}`;
}

/** Where the middle of a bit of waste lies on its sheet, to a millimetre or a tenth of an inch. */
function placeText({ job }: Plan, { outline }: Holding): string {
  if (outline === null) return '';
  const middles = [outline.map((point) => point.x), outline.map((point) => point.y)].map(
    (along) => (Math.min(...along) + Math.max(...along)) / 2,
  );
  const [x, y] = middles.map((at) =>
    job.unit === 'in' ? (at / UNITS_PER_INCH).toFixed(1) : (at / UNITS_PER_MM).toFixed(0),
  );
  return ` at ${x}, ${y}`;
}

/** `Drawer stop 2`. */
export function pieceName(plan: Plan, piece: number): string {
  return `${partName(plan, piece)} ${plan.job.pieces[piece]!.number}`;
}

/** How many placed pieces need nothing, of how many. */
export function calmPieces(plan: Plan): { readonly calm: number; readonly all: number } {
  const pieces = plan.holding
    .flatMap((sheet) => sheet.loose)
    .filter(({ kind }) => kind === 'piece');
  return { calm: pieces.filter((piece) => !needsCare(piece)).length, all: pieces.length };
}

/** That some of the others stay as well and hold a strip of waste besides; null where none do. */
export function besideSentence(plan: Plan): string | null {
  const loose = plan.holding.flatMap((sheet) => sheet.loose);
  const number = loose.filter(({ skinFor }) => skinFor === 'waste').length;
  if (number === 0) return null;
  const stay =
    number === 1 ? '1 more stays by itself and is' : `${number} more stay by themselves and are`;
  return `${stay} left on a skin for the waste beside ${number === 1 ? 'it' : 'them'}.`;
}

/** That some pieces move with every remedy; null where none does. */
export function movingSentence(plan: Plan): string | null {
  const moving = plan.holding
    .flatMap((sheet) => sheet.loose)
    .filter(({ kind, verdictAfter }) => kind === 'piece' && verdictAfter === 'moves').length;
  if (moving === 0) return null;
  const what = moving === 1 ? '1 piece moves' : `${moving} pieces move`;
  return `${what} whatever is done here: do not cut ${moving === 1 ? 'it' : 'them'} free in this run.`;
}

/** How many bits of loose waste need care, and how many of them move even with the remedy. */
export function looseWaste(plan: Plan): { readonly care: number; readonly moving: number } {
  const waste = plan.holding.flatMap((sheet) => sheet.loose).filter(({ kind }) => kind !== 'piece');
  return {
    care: waste.filter(needsCare).length,
    moving: waste.filter(({ verdictAfter }) => verdictAfter === 'moves').length,
  };
}

/** What is called for, each once, in the order they are met. */
export function adviceCalledFor(plan: Plan): readonly Advice[] {
  return [...new Set(careGroups(plan).map(({ first }) => adviceOf(first)))];
}

/** Which inputs move the margins most; null where nothing was reckoned. */
export function sensitivitySentence(plan: Plan): string | null {
  const first = plan.sensitivity.slice(0, MOST_INPUTS);
  if (first.length === 0) return null;
  const isOne = new Set(first.map(({ piece }) => piece)).size === 1;
  const moved = first.map(({ input, from, to, piece, marginFrom, marginTo }) => {
    const name = isOne ? '' : ` of ${pieceName(plan, piece)}`;
    const margins = `${marginFrom.toFixed(2)} to ${marginTo.toFixed(2)}`;
    return `${input} (${to} in place of ${from}: margin${name} ${margins})`;
  });
  const which = first.length === MOST_INPUTS ? 'The three inputs that move' : 'What moves';
  const whose = isOne ? `; margins of ${pieceName(plan, first[0]!.piece)}` : '';
  return `${which} the verdict most: ${moved.join(', ')}${whose}.`;
}

const MOST_INPUTS = 3;

function partName({ job }: Plan, piece: number): string {
  return job.parts[job.pieces[piece]!.part]!.name;
}
