import svgpath from 'svgpath';
import { counted } from '../model/format.ts';
import type { ResourceLimits } from '../model/resource-limits.ts';
import { arcsFromCurve, type Curve, type FinePoint, type FineSide } from './arcs-from-curves.ts';
import { ellipseSides } from './ellipse-arcs.ts';
import type { Fault } from './fault.ts';
import { CURVE_DISTANCE, FARTHEST, type FinePath, sidesFault } from './fine-path.ts';
import { raiseHint } from './limit-fault.ts';
import { quote, visible } from './visible.ts';
import { arcFault, writtenArcs } from './written-arcs.ts';

/** Sub-paths, or why the text is none. */
export type PathRead =
  | {
      readonly ok: true;
      readonly paths: readonly FinePath[];
      /** Of an arc that is not as it is written. */
      readonly warning: Fault | null;
    }
  | { readonly ok: false; readonly fault: Fault };

/** From user units of a drawing to base lengths: `transforms` from the innermost outwards, as SVG writes them, then the scale. */
export interface DrawingScale {
  readonly transforms: readonly string[];
  readonly scaleX: number;
  readonly scaleY: number;
  readonly limits: ResourceLimits;
}

/** Letters for each line or arc that is allowed, which is ample; the parser's work on a run of numbers grows with its square. */
const LETTERS_PER_SIDE = 60;

/**
 * Reads SVG path text: all commands, absolute and relative. The y axis is turned over once, so that the outline looks as
 * drawn; lines and circular arcs stay, other curves become circular arcs within 0.01 mm.
 */
export function readPath(
  text: string,
  { transforms, scaleX, scaleY, limits }: DrawingScale,
): PathRead {
  const most = limits.vertices;
  if (LETTERS_PER_SIDE * most < text.length) return tooLong(text.length, limits);
  if (/(^|\D)\.(?!\d)/.test(text)) return unreadable(text, 'a point stands without digits');
  const path = svgpath(text);
  const complaint: unknown = Reflect.get(path, 'err');
  if (typeof complaint === 'string' && complaint !== '') return unreadable(text, complaint);
  const arcs = writtenArcs(path);
  const faults: Fault[] = [];
  for (const transform of transforms) path.transform(transform);
  path.matrix([scaleX, 0, 0, -scaleY, 0, 0]).abs().unshort();
  const walk = new PathWalk();
  let sound = true;
  path.iterate((command, index) => {
    sound &&= command.slice(1).every((value) => Math.abs(Number(value)) < FARTHEST);
    // The rest of a path that is too long costs nothing more.
    if (!sound || most < walk.sideCount) return;
    walk.take(command as AbsoluteCommand);
    const arc = arcs.get(index);
    const radius = command[0] === 'A' ? Math.max(command[1], command[2]) : 0;
    const fault = arc === undefined ? null : arcFault(arc, radius);
    if (fault !== null) faults.push(fault);
  });
  const fault = sidesFault(walk.sideCount, true, limits);
  if (fault !== null) return { ok: false, fault };
  if (!sound) return unreadable(text, 'a number in it is too large');
  return { ok: true, paths: walk.end(), warning: firstOf(faults) };
}

/** One slip is often made in all arcs of a path, so only the first is told in full. */
function firstOf([first, ...others]: readonly Fault[]): Fault | null {
  if (first === undefined || others.length === 0) return first ?? null;
  return { ...first, message: `${first.message}; so for ${counted(others.length, 'more arc')}` };
}

type AbsoluteCommand =
  | readonly ['M' | 'L', number, number]
  | readonly ['H' | 'V', number]
  | readonly ['C', number, number, number, number, number, number]
  | readonly ['Q', number, number, number, number]
  | readonly ['A', number, number, number, number, number, number, number]
  | readonly ['Z'];

/** Follows the commands of a path and collects its sub-paths; the class keeps the pen's position right. */
class PathWalk {
  readonly #paths: FinePath[] = [];
  #start: FinePoint = { x: 0, y: 0 };
  #pen: FinePoint = { x: 0, y: 0 };
  #sides: FineSide[] = [];
  #sideCount = 0;

  get sideCount(): number {
    return this.#sideCount;
  }

  take(command: AbsoluteCommand): void {
    switch (command[0]) {
      case 'M':
        this.#finish(false);
        this.#start = { x: command[1], y: command[2] };
        this.#pen = this.#start;
        break;
      case 'L':
        this.#line({ x: command[1], y: command[2] });
        break;
      case 'H':
        this.#line({ x: command[1], y: this.#pen.y });
        break;
      case 'V':
        this.#line({ x: this.#pen.x, y: command[1] });
        break;
      case 'C':
      case 'Q':
        this.#append(arcsFromCurve(bezier([this.#pen, ...pairs(command)]), CURVE_DISTANCE));
        break;
      case 'A': {
        const [, rx, ry, angleDeg, large, sweep, x, y] = command;
        const arc = { from: this.#pen, to: { x, y }, rx, ry, angleDeg };
        // A mirroring transform leaves the flag as a text.
        const way = { large: Number(large) === 1, sweep: Number(sweep) === 1 };
        this.#append(ellipseSides({ ...arc, ...way }, CURVE_DISTANCE));
        break;
      }
      case 'Z':
        this.#finish(true);
        this.#pen = this.#start;
    }
  }

  end(): readonly FinePath[] {
    this.#finish(false);
    return this.#paths;
  }

  #line(to: FinePoint): void {
    this.#append([{ via: null, to }]);
  }

  #append(sides: readonly FineSide[]): void {
    for (const side of sides) this.#sides.push(side);
    this.#sideCount += sides.length;
    this.#pen = sides.at(-1)?.to ?? this.#pen;
  }

  #finish(closed: boolean): void {
    if (0 < this.#sides.length)
      this.#paths.push({ start: this.#start, sides: this.#sides, closed });
    this.#sides = [];
  }
}

function pairs(command: readonly [string, ...number[]]): FinePoint[] {
  const [, ...values] = command;
  const points: FinePoint[] = [];
  for (let i = 0; i + 1 < values.length; i += 2)
    points.push({ x: values[i] as number, y: values[i + 1] as number });
  return points;
}

/** The Bézier curve of any degree over its control points, by repeated halving of the way between them (de Casteljau). */
function bezier(controls: readonly FinePoint[]): Curve {
  return (t) => {
    let row = controls;
    while (1 < row.length)
      row = row.slice(1).map((b, i) => {
        const a = row[i] as FinePoint;
        return { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) };
      });
    return row[0] as FinePoint;
  };
}

function tooLong(letters: number, { vertices }: ResourceLimits): PathRead {
  const most = LETTERS_PER_SIDE * vertices;
  const message = `the path has ${letters} letters; the most is ${most}, which is ${LETTERS_PER_SIDE} for each of ${vertices} lines and arcs`;
  const hint = `simplify it, or ${raiseHint('vertices', letters / LETTERS_PER_SIDE)}`;
  return { ok: false, fault: { code: 'too-complex', message, hint } };
}

function unreadable(text: string, why: string): PathRead {
  const detail = visible(why.replace(/^SvgPath: /, ''));
  return {
    ok: false,
    fault: {
      code: 'bad-path',
      message: `cannot read the path ${quote(text)}: ${detail}`,
      hint: 'write SVG path text, such as M0 0 H600 V200 Q300 320 0 200 Z',
    },
  };
}
