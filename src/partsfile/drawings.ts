import type { DrawingSource, FileUnit } from '../model/job.ts';
import { type ResourceLimits, USUAL_LIMITS } from '../model/resource-limits.ts';
import type { SaidUnit } from './drawing-frame.ts';
import type { DrawnBody, ShapeRead } from './drawn-shape.ts';
import { type Dxf, openDxf, readDxf } from './dxf-drawing.ts';
import { type Fault, reportFault, reportWarning } from './fault.ts';
import { type Excess, limitFault, megabytes } from './limit-fault.ts';
import type { Report, Spot } from './report.ts';
import { readSvg } from './svg-drawing.ts';
import { quote } from './visible.ts';

/** What the caller knows of a drawing that the parts file names; `detail` is said to the user. */
export type DrawingRead =
  | { readonly ok: true; readonly text: string; readonly sha256: string }
  | {
      readonly ok: false;
      readonly reason: 'missing' | 'unreadable' | 'outside';
      readonly detail: string;
    }
  | { readonly ok: false; readonly reason: 'too-large'; readonly bytes: number };

interface DrawingShape {
  readonly shape: ShapeRead;
  readonly warnings: readonly Fault[];
}

/**
 * The drawings of one parts file. The class keeps each as it was first read: several parts of one drawing are cut from the same
 * text, and what is wrong with it is complained about once.
 */
export class Drawings {
  readonly #readDrawing: (path: string) => DrawingRead;
  readonly #limits: ResourceLimits;
  readonly #files = new Map<string, DrawingRead>();
  readonly #dxfs = new Map<string, Dxf | Fault>();
  readonly #shapes = new Map<string, DrawingShape>();
  #letters = 0;

  constructor(readDrawing: (path: string) => DrawingRead, limits: ResourceLimits = USUAL_LIMITS) {
    this.#readDrawing = readDrawing;
    this.#limits = limits;
  }

  /** The body that `rail.svg`, `rail.svg#id` or `rail.dxf#layer` shows, in base lengths and the place of the drawing; null after a problem. */
  bodyOf(
    name: string,
    unit: FileUnit,
    said: SaidUnit,
    { report, spot }: { readonly report: Report; readonly spot: Spot },
  ): DrawnBody | null {
    const [path = '', id = null] = splitName(name);
    const key = `${said.own} ${name}`;
    const known = this.#shapes.get(key);
    const drawing = known ?? this.#readShape(path, id, unit, said);
    if ('code' in drawing) {
      reportFault(report, spot, drawing);
      return null;
    }
    this.#shapes.set(key, drawing);
    const say = (fault: Fault): Fault => ({
      ...fault,
      message: `${quote(path)}: ${fault.message}`,
    });
    if (known === undefined)
      for (const warning of drawing.warnings) reportWarning(report, spot, say(warning));
    if (drawing.shape.ok) return drawing.shape;
    // Said at every part that needs it: each would otherwise look sound.
    reportFault(report, spot, say(drawing.shape.fault));
    return null;
  }

  /** Those that could be read, in the order of the file. */
  sources(): readonly DrawingSource[] {
    return [...this.#files].flatMap(([path, file]) =>
      file.ok ? [{ path, sha256: file.sha256 }] : [],
    );
  }

  #readShape(
    path: string,
    id: string | null,
    unit: FileUnit,
    said: SaidUnit,
  ): DrawingShape | Fault {
    const kind = /\.([a-z0-9]+)$/i.exec(path)?.[1]?.toLowerCase() ?? '';
    if (kind !== 'svg' && kind !== 'dxf') return otherKind(path, kind);
    const dxf = this.#dxfs.get(path);
    if (dxf !== undefined) return dxfShape(dxf, id, said);
    const text = this.#textOf(path);
    if (typeof text !== 'string') return text;
    if (kind === 'svg') return readSvg(text, id, unit, said, this.#limits);
    const opened = openDxf(text, this.#limits);
    this.#dxfs.set(path, opened);
    return dxfShape(opened, id, said);
  }

  /** The text of a file, which is asked for once. */
  #textOf(path: string): string | Fault {
    const file = this.#files.get(path) ?? this.#readDrawing(path);
    this.#files.set(path, file);
    if (!file.ok && file.reason !== 'too-large') return fileFault(path, file.reason, file.detail);
    const length = file.ok ? file.text.length : file.bytes;
    this.#letters += length;
    const excesses: readonly Excess[] = [
      { ...TOO_LARGE, limit: 'drawing', found: megabytes(length), subject: 'it has' },
      { ...TOO_LARGE, limit: 'drawings', found: megabytes(this.#letters), subject: TOGETHER },
    ];
    const fault = excesses.map((excess) => limitFault(excess, this.#limits)).find(Boolean);
    if (fault)
      return { ...fault, message: `the drawing ${quote(path)} is too large: ${fault.message}` };
    if (!file.ok) return fileFault(path, 'unreadable', 'it is larger than what is read');
    return file.text.replace(/^\ufeff/, '');
  }
}

const TOO_LARGE = {
  code: 'drawing-too-large',
  instead: 'leave out what is not an outline',
} as const;

const TOGETHER = 'with all drawings before it there are';

function dxfShape(dxf: Dxf | Fault, name: string | null, said: SaidUnit): DrawingShape {
  if ('code' in dxf) return { shape: { ok: false, fault: dxf }, warnings: [] };
  return readDxf(dxf, name, said);
}

function splitName(name: string): readonly [string, string | null] {
  const at = name.indexOf('#');
  return at < 0 ? [name, null] : [name.slice(0, at), name.slice(at + 1)];
}

const OTHER_HINTS: ReadonlyMap<string, string> = new Map([
  ['dwg', 'save it as an ASCII DXF drawing'],
  ['pdf', 'save it as SVG'],
]);

function otherKind(path: string, kind: string): Fault {
  const message = `${quote(path)} is not the name of an SVG or DXF drawing`;
  return {
    code: 'drawing-feature',
    message,
    hint: OTHER_HINTS.get(kind) ?? 'outline takes a file that ends in .svg or .dxf',
  };
}

function fileFault(
  path: string,
  reason: 'missing' | 'unreadable' | 'outside',
  detail: string,
): Fault {
  const more = detail === '' ? '' : `: ${detail}`;
  switch (reason) {
    case 'missing': {
      const hint = 'the name counts from the folder of the parts file';
      return {
        code: 'drawing-missing',
        message: `there is no drawing ${quote(path)}${more}`,
        hint,
      };
    }
    case 'unreadable': {
      const message = `the drawing ${quote(path)} cannot be read${more}`;
      return { code: 'drawing-unreadable', message, hint: 'may you read the file?' };
    }
    case 'outside': {
      const message = `the drawing ${quote(path)} is not beside or below the parts file${more}`;
      return {
        code: 'drawing-not-allowed',
        message,
        hint: 'copy it into the folder of the parts file, or allow its folder: --drawings-from',
      };
    }
  }
}
