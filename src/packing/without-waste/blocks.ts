import { withoutStraightCorners } from '../../geometry/corners.ts';
import type { Point } from '../../geometry/point.ts';
import type { Ring } from '../../geometry/shape.ts';
import { traceRings } from '../../geometry/trace-rings.ts';
import { commonDivisor } from '../common-divisor.ts';
import { type Form, formsOf } from '../outlines/forms.ts';
import type { PackingTask } from '../task.ts';
import { type ConvexCorner, convexCorners } from './free-room.ts';

/** A kind of body in one of its orientations: what it takes of a sheet, half the spacing around it included. */
export interface Block {
  readonly kind: number;
  readonly orientation: number;
  readonly outline: Ring;
  /** Convex rings that make up the outline. */
  readonly parts: readonly Ring[];
}

export interface BlockCorner extends ConvexCorner {
  readonly block: Block;
}

/** All blocks of a task with one stock. */
export interface Blocks {
  /** The bodies of each kind. */
  readonly bodies: ReadonlyMap<number, readonly number[]>;
  /** Corners by the direction of the side that leaves them. */
  readonly cornersAlong: ReadonlyMap<string, readonly BlockCorner[]>;
}

/** Null where some body is not in one piece, or not allowed on the stock. */
export function blocksOf(task: PackingTask, spend: (work: number) => void): Blocks | null {
  const { forms, ofBody } = formsOf(task, spend);
  const bodies = new Map<number, number[]>();
  const blocks: Block[] = [];
  for (const { kind, index, orientations } of task.bodies) {
    const isNew = !bodies.has(kind);
    file(bodies, kind, index);
    if (!isNew) continue;
    const own = orientations.flatMap(({ allowedOn }, orientation) => {
      const form = forms[ofBody[index]?.[orientation] ?? -1];
      return allowedOn[0] && form !== undefined ? [blockOf(kind, orientation, form)] : [];
    });
    if (own.length === 0) return null;
    for (const block of own) {
      if (block === null) return null;
      blocks.push(block);
    }
  }
  return { bodies, cornersAlong: cornersOf(blocks) };
}

function blockOf(kind: number, orientation: number, { parts }: Form): Block | null {
  const [ring, ...others] = traceRings(parts);
  if (ring === undefined || others.length > 0) return null;
  return { kind, orientation, outline: withoutStraightCorners(ring), parts };
}

function cornersOf(blocks: readonly Block[]): Map<string, BlockCorner[]> {
  const along = new Map<string, BlockCorner[]>();
  for (const block of blocks)
    for (const corner of convexCorners(block.outline))
      file(along, directionOf(corner.at, corner.after), { ...corner, block });
  return along;
}

function file<K, T>(lists: Map<K, T[]>, key: K, entry: T): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [entry]);
  else list.push(entry);
}

/** The same text for all that run the same way. */
export function directionOf(from: Point, to: Point): string {
  const x = to.x - from.x;
  const y = to.y - from.y;
  const divisor = Math.abs(commonDivisor(x, y));
  return `${x / divisor} ${y / divisor}`;
}
