/** What a program from outside could hold against a plan.json, from nothing but its text and that of the parts file: counts, boxes and areas in plain millimetres. */

export interface Named {
  readonly part: string;
  readonly piece: number;
}

interface Panel {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

interface Cut {
  readonly axis: 'along' | 'across';
  readonly panel: Panel;
  readonly at: number;
}

type Corner = readonly [x: number, y: number];

interface Placement extends Named {
  readonly outline: readonly Corner[];
  readonly cutOuts: readonly (readonly Corner[])[];
  readonly grainDeg: number | null;
}

interface Sheet {
  readonly number: number;
  readonly length: number;
  readonly width: number;
  readonly boundary: readonly Corner[];
  readonly grainDeg: number | null;
  readonly yield: number;
  readonly placements: readonly Placement[];
  readonly cuts: readonly Cut[];
}

export interface SeenRecord {
  readonly machine: { readonly kind: string; readonly cut: number; readonly spacing: number };
  readonly materials: readonly {
    readonly material: string;
    readonly status: string;
    readonly used: number;
    readonly atLeast: number;
    readonly unplaced: readonly Named[];
    readonly sheets: readonly Sheet[];
    readonly boards: readonly { readonly pieces: readonly Named[] }[];
  }[];
  readonly holding: readonly (Named & { readonly kind: string; readonly sheet: number })[];
}

/** Lengths are written to six decimals, so sums of two of them stray by no more. */
const SLACK_MM = 2e-6;

/** The corners of an arc need not reach as far as the arc does. */
const CHORD_MM = 0.0101;

/** Yields are written to four decimals, and arcs as corners. */
const YIELD_SLACK = 0.001;

/** `asked` is how many pieces of each name the file asks for, `stages` the most that its saw takes. */
export function recordFaults(
  record: SeenRecord,
  asked: ReadonlyMap<string, number>,
  stages: number | null,
): string[] {
  const sheets = record.materials.flatMap((material) => material.sheets);
  return [
    ...countFaults(record, asked),
    ...statusFaults(record),
    ...sheets.flatMap((sheet) => [...grainFaults(sheet), ...yieldFaults(sheet)]),
    ...(record.machine.kind === 'router'
      ? holdingFaults(record, sheets)
      : sheets.flatMap((sheet) => sawFaults(sheet, record.machine.cut, stages))),
  ];
}

function countFaults(
  { materials }: SeenRecord,
  asked: ReadonlyMap<string, number>,
): readonly string[] {
  const seen = new Map<string, number[]>();
  const all = materials.flatMap(({ sheets, boards, unplaced }) => [
    ...sheets.flatMap(({ placements }) => placements),
    ...boards.flatMap(({ pieces }) => pieces),
    ...unplaced,
  ]);
  for (const { part, piece } of all) seen.set(part, [...(seen.get(part) ?? []), piece]);
  const names = new Set([...seen.keys(), ...asked.keys()]);
  return [...names].flatMap((name) => {
    const numbers = (seen.get(name) ?? []).toSorted((a, b) => a - b);
    const count = asked.get(name) ?? 0;
    const isRight = numbers.length === count && numbers.every((number, k) => number === k + 1);
    return isRight ? [] : [`of ${name} there are ${numbers.join()} and not 1 to ${count}`];
  });
}

function statusFaults({ materials }: SeenRecord): readonly string[] {
  return materials.flatMap(({ material, status, used, atLeast, unplaced }) => {
    const isShort = unplaced.length > 0;
    if (isShort !== (status === 'impossible')) return [`${material} is ${status}`];
    if (!isShort && used < atLeast)
      return [`${material} takes ${used} and no less than ${atLeast}`];
    const isProved = used === atLeast;
    return isShort || isProved === (status === 'proved') ? [] : [`${material} is ${status}`];
  });
}

function grainFaults({ grainDeg: sheet, placements }: Sheet): readonly string[] {
  return placements
    .filter(({ grainDeg: own }) => own !== null && sheet !== null && (own - sheet) % 180 !== 0)
    .map(({ part, piece }) => `the grain of ${part} ${piece} runs askew`);
}

function yieldFaults(sheet: Sheet): readonly string[] {
  const area = sheet.placements
    .flatMap(({ outline, cutOuts }) => [outline, ...cutOuts])
    .reduce((sum, ring) => sum + areaOf(ring), 0);
  const share = area / areaOf(sheet.boundary);
  return Math.abs(share - sheet.yield) <= YIELD_SLACK
    ? []
    : [`sheet ${sheet.number} yields ${share} and not ${sheet.yield}`];
}

/** Of a ring: clockwise ones, as cut-outs are, count less than nothing. */
function areaOf(ring: readonly Corner[]): number {
  return ring.reduce((sum, [x, y], k) => {
    const [nextX, nextY] = ring[(k + 1) % ring.length]!;
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

/** Every piece is held once, on its own sheet. */
function holdingFaults({ holding }: SeenRecord, sheets: readonly Sheet[]): readonly string[] {
  const keyOf = ({ part, piece }: Named, sheet: number) => `${sheet}: ${part} ${piece}`;
  const held = holding.flatMap((each) => (each.kind === 'piece' ? [keyOf(each, each.sheet)] : []));
  const laid = sheets.flatMap(({ number, placements }) =>
    placements.map((placement) => keyOf(placement, number)),
  );
  return held.toSorted().join() === laid.toSorted().join() ? [] : ['not each piece is held once'];
}

interface InHand {
  readonly panel: Panel;
  /** How the last cut that parted pieces ran, and how often that has changed. */
  readonly axis: Cut['axis'] | null;
  readonly stage: number;
}

/** The sheet sawn again: each cut goes through a panel in hand, and in the end each piece is a panel of its own. */
function sawFaults(sheet: Sheet, kerf: number, stages: number | null): readonly string[] {
  const faults: string[] = [];
  const boxes = sheet.placements.map(({ outline }) => boxOf(outline));
  const whole = { minX: 0, minY: 0, maxX: sheet.length, maxY: sheet.width };
  let inHand: InHand[] = [{ panel: whole, axis: null, stage: 0 }];
  for (const [k, cut] of sheet.cuts.entries()) {
    const own = inHand.find(({ panel }) => isSame(panel, cut.panel));
    if (own === undefined) {
      faults.push(`cut ${k + 1} of sheet ${sheet.number} has no panel`);
      continue;
    }
    const halves = halvesOf(cut, kerf);
    const parts = halves.every((half) => boxes.some((box) => overlaps(box, half)));
    const stage = parts && own.axis !== cut.axis ? own.stage + 1 : own.stage;
    if (stages !== null && stage > stages)
      faults.push(`cut ${k + 1} of sheet ${sheet.number} is in stage ${stage}`);
    const made = halves.map((panel) => ({ panel, axis: parts ? cut.axis : own.axis, stage }));
    inHand = [...inHand.filter((other) => other !== own), ...made];
  }
  boxes.forEach((box, k) => {
    const own = inHand.filter(({ panel }) => overlaps(panel, box));
    const { part, piece } = sheet.placements[k]!;
    if (own.length !== 1 || !isSame(own[0]!.panel, box, CHORD_MM))
      faults.push(`${part} ${piece} is not cut`);
  });
  return faults;
}

function halvesOf({ panel, axis, at }: Cut, kerf: number): readonly Panel[] {
  return axis === 'along'
    ? [
        { ...panel, maxY: at },
        { ...panel, minY: at + kerf },
      ]
    : [
        { ...panel, maxX: at },
        { ...panel, minX: at + kerf },
      ];
}

function boxOf(ring: readonly Corner[]): Panel {
  const [xs, ys] = [ring.map(([x]) => x), ring.map(([, y]) => y)];
  return {
    minX: Math.min(...xs),
    minY: Math.min(...ys),
    maxX: Math.max(...xs),
    maxY: Math.max(...ys),
  };
}

function overlaps(a: Panel, b: Panel): boolean {
  return (
    Math.min(a.maxX, b.maxX) - Math.max(a.minX, b.minX) > SLACK_MM &&
    Math.min(a.maxY, b.maxY) - Math.max(a.minY, b.minY) > SLACK_MM
  );
}

function isSame(a: Panel, b: Panel, slack = SLACK_MM): boolean {
  return (['minX', 'minY', 'maxX', 'maxY'] as const).every(
    (side) => Math.abs(a[side] - b[side]) <= slack,
  );
}
