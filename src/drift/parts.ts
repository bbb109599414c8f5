// Says which parts are otherwise than in a record: new, gone, more or fewer, of another size or outline, otherwise drilled or banded, or of another grain.
// Idea: a record has no list of parts, so each part is put together again from its pieces. A piece is turned back to how its part was drawn;
//   its box is its size. Where the box is the same, the area tells another outline; holes and pockets are compared by their places on the part.
// Source: none needed.
// Cost: linear in the corners of all outlines.
// Degenerate cases: a piece without a place has no size; a part of which no piece has a place is compared by its count alone.
import type { Drift } from '../model/drift.ts';
import { counted, formatLength, formatSize } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import { fromMm } from '../model/units.ts';
import type { ComparedRecord } from './read-record.ts';

/** All pieces of one name. */
interface RecordedPart {
  readonly material: string;
  count: number;
  /** Of every kind of piece once, in millimetres; none where no piece has a place. */
  readonly sizes: Size[];
}

/** `width` is null for what is cut to length, `areaMm2` where only the size is recorded. */
interface Size {
  readonly piece: number;
  readonly length: number;
  readonly width: number | null;
  readonly areaMm2: number | null;
  /** Holes and pockets: their middles on the part, area in mm2 and depth, 0 for through. */
  readonly recesses: readonly Recess[];
  /** Seen from the part; null for any. */
  readonly grainDeg: number | null;
  /** How thick the band of each edge is; null in records that do not say it. */
  readonly edges: Placement['edges'];
}

type Recess = readonly [x: number, y: number, areaMm2: number, depth: number];

/** In the order of the plan; what is gone comes last. */
export function partDrifts(
  now: ComparedRecord,
  before: ComparedRecord,
  unit: FileUnit,
): readonly Drift[] {
  const [parts, old] = [partsOf(now), partsOf(before)];
  const drift = (part: string | null, message: string): Drift => ({ kind: 'part', part, message });
  return [
    ...[...parts].flatMap(([name, part]) => {
      const was = old.get(name);
      const texts =
        was === undefined
          ? [`is new, ${counted(part.count, 'piece')} of ${part.material}`]
          : changesOf(part, was, unit);
      return texts.map((text) => drift(name, `"${name}" ${text}`));
    }),
    ...[...old]
      .filter(([name]) => !parts.has(name))
      .map(([name, { count }]) =>
        drift(null, `"${name}" is gone, before ${counted(count, 'piece')}`),
      ),
  ];
}

function partsOf({ materials, lumber }: ComparedRecord): ReadonlyMap<string, RecordedPart> {
  const parts = new Map<string, RecordedPart>();
  const add = (name: string, material: string, count: number, size: Size | null): void => {
    const part = parts.get(name) ?? { material, count: 0, sizes: [] };
    parts.set(name, part);
    part.count += count;
    if (size !== null && !part.sizes.some((each) => isAlike(each, size))) part.sizes.push(size);
  };
  for (const { material, unplaced, sheets, boards } of materials) {
    for (const placed of sheets.flatMap(({ placements }) => placements))
      add(placed.part, material, 1, sizeOf(placed));
    for (const { part, piece, length } of boards.flatMap((board) => board.pieces))
      add(part, material, 1, { ...PLAIN, piece, length, width: null });
    for (const { part } of unplaced) add(part, material, 1, null);
  }
  for (const { material, parts: own } of lumber)
    for (const { part, count, length, width } of own)
      add(part, material, count, { ...PLAIN, piece: 1, length, width });
  for (const { sizes } of parts.values()) sizes.sort((a, b) => a.piece - b.piece);
  return parts;
}

type Placement = ComparedRecord['materials'][number]['sheets'][number]['placements'][number];
type Ring = Placement['outline'];
type Spot = Ring[number];

/** What is recorded by its size alone. */
const PLAIN = { areaMm2: null, recesses: [], grainDeg: null, edges: null } as const;

function sizeOf(placed: Placement): Size {
  const { piece, outline, cutOuts, turn, grainDeg, edges } = placed;
  const corners = outline.map((at) => onPart(placed, at));
  const span = (values: readonly number[]) =>
    values.reduce((a, b) => Math.max(a, b)) - values.reduce((a, b) => Math.min(a, b));
  const areaMm2 = cutOuts.reduce((area, hole) => area - areaOf(hole), areaOf(outline));
  return {
    piece,
    length: span(corners.map(([x]) => x)),
    width: span(corners.map(([, y]) => y)),
    areaMm2,
    recesses: recessesOf(placed),
    grainDeg: grainDeg === null ? null : (((grainDeg - turn) % 180) + 180) % 180,
    edges,
  };
}

/** Turned back, and mirrored back, round the origin of the part. */
function onPart({ x, y, turn, mirrored }: Placement, at: Spot): Spot {
  const angle = (-turn * Math.PI) / 180;
  const isQuarter = turn % 90 === 0;
  const [cos, sin] = isQuarter
    ? [Math.round(Math.cos(angle)), Math.round(Math.sin(angle))]
    : [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [at[0] - x, at[1] - y];
  const along = dx * cos - dy * sin;
  return [mirrored ? -along : along, dx * sin + dy * cos];
}

function recessesOf(placed: Placement): readonly Recess[] {
  const depthOf = (depth: number | 'through') => (depth === 'through' ? 0 : depth);
  const holes = placed.holes.map(({ x, y, diameter, depth }): Recess => {
    return [...onPart(placed, [x, y]), (Math.PI * diameter ** 2) / 4, depthOf(depth)];
  });
  const pockets = placed.pockets.map(({ outline, depth }): Recess => {
    return [...onPart(placed, middleOf(outline)), areaOf(outline), depthOf(depth)];
  });
  return [...holes, ...pockets];
}

function middleOf(ring: Ring): Spot {
  const sum = (axis: 0 | 1) => ring.reduce((all, at) => all + at[axis], 0);
  return [sum(0) / ring.length, sum(1) / ring.length];
}

function areaOf(ring: Ring): number {
  const twice = ring.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
  return Math.abs(twice) / 2;
}

/** The outlines of turned pieces are rounded to the grid again; a hundredth of a millimetre is far above that, and far below what wood knows. */
const SLACK_MM = 0.01;

function isSameSize(a: Size, b: Size): boolean {
  const near = (one: number | null, other: number | null) =>
    one === null || other === null ? one === other : Math.abs(one - other) <= SLACK_MM;
  return near(a.length, b.length) && near(a.width, b.width);
}

function isAlike(a: Size, b: Size): boolean {
  if (!isSameSize(a, b)) return false;
  if (a.areaMm2 === null || b.areaMm2 === null) return a.areaMm2 === b.areaMm2;
  return Math.abs(a.areaMm2 - b.areaMm2) <= SLACK_MM * 2 * (a.length + a.width!);
}

/** In any order, as rounding may change it. */
function isWorkedAlike(a: Size, b: Size): boolean {
  const near = (one: Recess) => (other: Recess) =>
    one.every((value, i) => Math.abs(value - other[i]!) <= 2 * SLACK_MM);
  return (
    a.recesses.length === b.recesses.length &&
    a.recesses.every((one) => b.recesses.some(near(one))) &&
    b.recesses.every((one) => a.recesses.some(near(one)))
  );
}

function isBandedAlike({ edges: a }: Size, { edges: b }: Size): boolean {
  if (a === null || b === null) return true;
  return a.left === b.left && a.right === b.right && a.bottom === b.bottom && a.top === b.top;
}

function changesOf(part: RecordedPart, was: RecordedPart, unit: FileUnit): readonly string[] {
  const isKnown = part.sizes.length > 0 && was.sizes.length > 0;
  const same = (are: (a: Size, b: Size) => boolean) =>
    part.sizes.length === was.sizes.length &&
    part.sizes.every((size, i) => are(size, was.sizes[i]!));
  const isResized = isKnown && !same(isSameSize);
  const isSame = isKnown && same(isAlike);
  return [
    ...(part.material === was.material
      ? []
      : [`is cut from ${part.material}, before from ${was.material}`]),
    ...(part.count === was.count
      ? []
      : [`has ${counted(part.count, 'piece')}, before ${was.count}`]),
    ...(isResized
      ? [`measures ${sizesText(part, unit)}, before ${sizesText(was, unit)}`]
      : isKnown && !isSame
        ? ['has another outline of the same size']
        : []),
    ...(isSame && !same(isWorkedAlike) ? ['has other holes or pockets'] : []),
    ...(isSame && !same((a, b) => a.grainDeg === b.grainDeg) ? ['has another grain'] : []),
    ...(isKnown && part.sizes.length === was.sizes.length && !same(isBandedAlike)
      ? ['has other edge bands']
      : []),
  ];
}

/** Sizes as shops read them; what was turned back is rounded to what is told apart. */
function sizesText({ sizes }: RecordedPart, unit: FileUnit): string {
  const base = (mm: number) => fromMm(Math.round(mm / SLACK_MM) * SLACK_MM);
  const exact = (mm: number) => (unit === 'in' ? fromMm(mm) : base(mm));
  const texts = sizes.map(({ length, width }) =>
    width === null
      ? formatLength(exact(length), unit)
      : formatSize(exact(length), exact(width), unit),
  );
  return [...new Set(texts)].join(' and ');
}
