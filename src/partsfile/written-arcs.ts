/**
 * Arcs of a path that cannot be as they are written. By the standard a radius that is too small for the ends of its arc is grown,
 * one below 0 loses its sign, and one of 0 makes a straight line; each is more likely a slip, and gives a part that nobody drew.
 * Source: W3C 2011, "Scalable Vector Graphics (SVG) 1.1", second edition, appendix F.6.2 and F.6.6.
 */
import type svgpath from 'svgpath';
import { type EllipseEnds, spanOf } from './ellipse-arcs.ts';
import type { Fault } from './fault.ts';
import { CURVE_DISTANCE } from './fine-path.ts';
import { quote } from './visible.ts';

/** An arc in the numbers of its path, before any transform. */
export interface WrittenArc extends EllipseEnds {
  readonly text: string;
}

/** The arcs of a path by the index of their command. */
export function writtenArcs(path: ReturnType<typeof svgpath>): ReadonlyMap<number, WrittenArc> {
  const arcs = new Map<number, WrittenArc>();
  path.iterate((command, index, x, y) => {
    if (command[0] !== 'A' && command[0] !== 'a') return;
    const [name, rx, ry, angleDeg, , , endX, endY] = command;
    const from = { x, y };
    const to = name === 'A' ? { x: endX, y: endY } : { x: x + endX, y: y + endY };
    arcs.set(index, { text: `${name}${command.slice(1).join(' ')}`, from, to, rx, ry, angleDeg });
  }, true);
  return arcs;
}

/** What is wrong with an arc whose longer radius is `radius` base lengths; null for an arc that is as it is written. */
export function arcFault(arc: WrittenArc, radius: number): Fault | null {
  const { rx, ry, from, to } = arc;
  if (from.x === to.x && from.y === to.y) return null;
  if (rx === 0 || ry === 0) return faultOf(arc, '; it is read as a straight line', STRAIGHT);
  const span = spanOf(arc);
  if (CURVE_DISTANCE < (span - 1) * radius) {
    const grown = radiiOf(Math.abs(rx) * span, Math.abs(ry) * span);
    return faultOf(arc, `, too small for its ends: it is read with ${grown}`, LARGER);
  }
  if (0 < rx && 0 < ry) return null;
  return faultOf(arc, `; it is read with ${radiiOf(Math.abs(rx), Math.abs(ry))}`, POSITIVE);
}

const STRAIGHT = 'write L and the end for a straight line, or the radius that is meant';
const LARGER = 'a radius is at least half the distance between the ends; are all numbers right?';
const POSITIVE = 'write it without the sign; which way an arc bends is said by its last flag';

function faultOf({ text, rx, ry }: WrittenArc, becomes: string, hint: string): Fault {
  const message = `the arc ${quote(text)} has ${rx === ry ? 'a radius' : 'radii'} of ${radiiOf(rx, ry)}${becomes}`;
  return { code: 'arc-radius', message, hint };
}

/** Six digits tell a radius that is just too small from what it becomes. */
function radiiOf(rx: number, ry: number): string {
  const [first, second] = [rx, ry].map((radius) => String(Number(radius.toPrecision(6))));
  return first === second ? String(first) : `${first} and ${second}`;
}
