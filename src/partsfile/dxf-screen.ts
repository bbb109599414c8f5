import { counted } from '../model/format.ts';
import type { ResourceLimits } from '../model/resource-limits.ts';
import type { Fault } from './fault.ts';
import { type Excess, limitFault } from './limit-fault.ts';
import { quote } from './visible.ts';

/**
 * A DXF text before the library sees it. The library takes anything for a number, loses corners behind a group that it does not know, waits
 * for ever for the end of a polyline, and writes to the terminal; so only what outlines are made of is handed on, and only where it is sound.
 */

/** What is left of the text, and what of its header and tables matters. */
export interface DxfScreened {
  /** The blocks and entities as DXF again; the handle (5) of each is its line in the drawing. */
  readonly text: string;
  /** The number that stands for the unit; null where the header has none. */
  readonly unitCode: number | null;
  /** In their order. */
  readonly layers: readonly DxfLayer[];
  /** How many there are outside blocks of each kind that draws no outline. */
  readonly others: ReadonlyMap<string, number>;
}

export interface DxfLayer {
  readonly name: string;
  readonly off: boolean;
  readonly frozen: boolean;
}

/** What could be part of an outline, but is not read: handed on so that it is known where it lies. */
export const BODIES = [
  'MLINE',
  'REGION',
  '3DSOLID',
  'BODY',
  'SURFACE',
  'SOLID',
  'TRACE',
  '3DFACE',
] as const;

/** The groups that say which way a plane faces. */
export const PLANE = [210, 220, 230];

/** The groups of each kind that say where it lies. */
const GROUPS: ReadonlyMap<string, ReadonlySet<number>> = new Map(
  Object.entries({
    LINE: [10, 20, 30, 11, 21, 31],
    ARC: [10, 20, 30, 40, 50, 51, ...PLANE],
    CIRCLE: [10, 20, 30, 40, ...PLANE],
    ELLIPSE: [10, 20, 30, 11, 21, 31, 40, 41, 42, ...PLANE],
    LWPOLYLINE: [90, 70, 10, 20, 42, ...PLANE],
    POLYLINE: [70, ...PLANE],
    VERTEX: [10, 20, 30, 42, 70],
    SEQEND: [],
    SPLINE: [70, 71, 10, 20, 30, 40, 41, 74],
    INSERT: [2, 10, 20, 30, 41, 42, 50, 70, 71, 44, 45, ...PLANE],
    BLOCK: [2, 10, 20, 30, 70],
    ENDBLK: [],
    ...Object.fromEntries(BODIES.map((kind) => [kind, []])),
  }).map(([kind, codes]) => [kind, new Set([...codes, ...(kind === 'BLOCK' ? [] : [8, 60, 67])])]),
);

/** The groups of one corner of a light polyline; all others of it are handed on before them. */
const CORNER: ReadonlySet<number> = new Set([10, 20, 42]);

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;
const WHOLE = /^[+-]?\d+$/;

export function screenDxf(text: string, limits: ResourceLimits): DxfScreened | Fault {
  if (/^\D{0,20}Binary DXF/.test(text)) return BINARY;
  if (/^AC[\d.]{4}/.test(text)) return NOT_DXF;
  const screen = new Screen(limits);
  const fault = eachGroup(text, (code, value, line) => screen.take(code, value, line));
  return fault ?? screen.result();
}

const BINARY: Fault = {
  code: 'drawing-broken',
  message: 'it is a binary DXF drawing',
  hint: 'save it as an ASCII DXF drawing',
};

const NOT_DXF: Fault = {
  code: 'drawing-broken',
  message: 'it is a drawing in the own format of a drawing program, not a DXF drawing',
  hint: 'save it as an ASCII DXF drawing',
};

const NO_SECTION = 'this is not a DXF drawing: it does not begin with a section';

function broken(line: number, what: string): Fault {
  const message = `line ${line} of the drawing: ${what}`;
  return { code: 'drawing-broken', message, hint: 'save it anew as an ASCII DXF drawing' };
}

/** Calls `take` with each pair of lines, a code and its value, until one makes a fault. */
function eachGroup(
  text: string,
  take: (code: number, value: string, line: number) => Fault | null,
): Fault | null {
  const plain = text.includes('\n') ? text : text.replaceAll('\r', '\n');
  let at = 0;
  const next = () => {
    const end = plain.indexOf('\n', at);
    const line = plain.slice(at, end < 0 ? plain.length : end).trim();
    at = end < 0 ? plain.length + 1 : end + 1;
    return line;
  };
  for (let line = 1; at < plain.length; line += 2) {
    const code = next();
    // Blank lines at the end are harmless.
    if (code === '' && plain.slice(at).trim() === '') return null;
    if (!WHOLE.test(code)) return broken(line, `${quote(code)} is not the number of a group`);
    if (plain.length <= at) return broken(line, 'the drawing ends in the middle of a group');
    const fault = take(Number(code), next(), line);
    if (fault !== null) return fault;
  }
  return null;
}

/** Letters beyond the old alphabets are written as their numbers. */
function plainName(name: string): string {
  return name.replace(/\\U\+([0-9a-f]{4})/gi, (_, code) =>
    String.fromCharCode(Number.parseInt(code, 16)),
  );
}

/** Follows sections and entities; the class guards the limits and the order of things. */
class Screen {
  readonly #blocks: string[] = [];
  readonly #entities: string[] = [];
  readonly #layers: DxfLayer[] = [];
  readonly #others = new Map<string, number>();
  #unitCode: number | null = null;
  #section: string | null = null;
  #variable = '';
  #layer: { name: string; flags: number; colour: number } | null = null;
  /** The groups that are kept of the entity at hand. */
  #kept: ReadonlySet<number> | null = null;
  #kind = '';
  #line = 0;
  #inPolyline = false;
  #inBlock = false;
  #isNamed = true;
  #corners = { said: 0, found: 0 };
  /** The groups of the corners of a polyline. */
  #cornerGroups: string[] = [];
  #things = 0;
  #ended = false;
  readonly #limits: ResourceLimits;

  constructor(limits: ResourceLimits) {
    this.#limits = limits;
  }

  take(code: number, value: string, line: number): Fault | null {
    if (this.#ended) return null;
    if (code === 0) return this.#begin(value, line);
    if (this.#section === null) {
      if (code === 999) return null;
      return broken(line, NO_SECTION);
    }
    if (this.#section === '') this.#section = code === 2 ? value : '';
    else if (this.#section === 'HEADER') return this.#takeHeader(code, value, line);
    else if (this.#section === 'TABLES') this.#takeTable(code, value);
    else if (this.#kept !== null) return this.#takeEntity(code, value, line + 1);
    return null;
  }

  result(): DxfScreened | Fault {
    if (!this.#ended) {
      const message = 'the drawing ends too early: it has no EOF';
      return { code: 'drawing-broken', message, hint: 'was it saved or sent whole?' };
    }
    const section = (name: string, lines: readonly string[]) =>
      ['0', 'SECTION', '2', name, ...lines, '0', 'ENDSEC'].join('\n');
    const [blocks, entities] = [this.#blocks, this.#entities];
    return {
      text: `${section('BLOCKS', blocks)}\n${section('ENTITIES', entities)}\n0\nEOF\n`,
      unitCode: this.#unitCode,
      layers: this.#layers,
      others: this.#others,
    };
  }

  #begin(kind: string, line: number): Fault | null {
    const fault = this.#endEntity();
    if (fault !== null) return fault;
    if (kind === 'SECTION') {
      this.#section = '';
      return null;
    }
    if (this.#section === null && kind !== 'EOF') return broken(line, NO_SECTION);
    if (kind === 'ENDSEC' || kind === 'EOF') return this.#endSection(kind, line);
    if (this.#section === 'TABLES') {
      if (kind === 'LAYER') this.#layer = { name: '', flags: 0, colour: 7 };
      return null;
    }
    return this.#beginEntity(kind, line);
  }

  #endSection(kind: string, line: number): Fault | null {
    if (this.#inPolyline) return broken(line, 'a polyline has no end (SEQEND)');
    if (this.#inBlock) return broken(line, 'a block has no end (ENDBLK)');
    if (kind === 'EOF' && this.#section !== null && this.#section !== 'ENDED')
      return broken(line, 'a section has no end (ENDSEC)');
    this.#section = 'ENDED';
    this.#ended = kind === 'EOF';
    return null;
  }

  #beginEntity(kind: string, line: number): Fault | null {
    const inBlocks = this.#section === 'BLOCKS';
    if (!inBlocks && this.#section !== 'ENTITIES') return null;
    if (this.#inPolyline && kind !== 'VERTEX' && kind !== 'SEQEND')
      return broken(line, `a polyline has no end (SEQEND) before this ${quote(kind)}`);
    // The attributes of an insert end with a SEQEND as well.
    if (!this.#inPolyline && (kind === 'VERTEX' || kind === 'SEQEND')) return null;
    if (kind === 'BLOCK' && this.#inBlock)
      return broken(line, 'a block has no end (ENDBLK) before');
    const isFrame = kind === 'BLOCK' || kind === 'ENDBLK';
    if (inBlocks ? !this.#inBlock && kind !== 'BLOCK' : isFrame) return null;
    const kept = GROUPS.get(kind);
    if (kept === undefined) {
      if (!inBlocks && this.#others.size < 100)
        this.#others.set(kind, (this.#others.get(kind) ?? 0) + 1);
      return null;
    }
    if (kind === 'BLOCK') this.#inBlock = true;
    this.#isNamed = kind !== 'BLOCK';
    if (kind === 'ENDBLK') this.#inBlock = false;
    this.#inPolyline = kind === 'POLYLINE' || (this.#inPolyline && kind !== 'SEQEND');
    this.#kept = kept;
    this.#kind = kind;
    this.#line = line;
    this.#put('0', kind);
    this.#put('5', String(line));
    return this.#count();
  }

  #endEntity(): Fault | null {
    const { said, found } = this.#corners;
    const wrong = this.#kind === 'LWPOLYLINE' && said !== found;
    const line = this.#line;
    // The library complains of a block without a name on the terminal; none can be inserted.
    if (!this.#isNamed) this.#put('2', `*${line}`);
    this.#isNamed = true;
    this.#put(...this.#cornerGroups);
    this.#cornerGroups = [];
    this.#corners = { said: 0, found: 0 };
    this.#kept = null;
    this.#kind = '';
    if (this.#layer !== null) {
      const { name, flags, colour } = this.#layer;
      this.#layers.push({ name, off: colour < 0, frozen: (flags & 1) !== 0 });
      this.#layer = null;
    }
    return wrong
      ? broken(line, `a polyline says ${counted(said, 'corner')} and has ${found}`)
      : null;
  }

  #count(): Fault | null {
    this.#things++;
    const excess: Excess = {
      ...{ limit: 'entities', code: 'too-complex', found: this.#things, atLeast: true },
      ...{ subject: 'the drawing has', instead: 'save the layers with outlines only' },
    };
    return limitFault(excess, this.#limits);
  }

  #takeHeader(code: number, value: string, line: number): Fault | null {
    if (code === 9) this.#variable = value;
    if (this.#variable !== '$INSUNITS' || code !== 70) return null;
    if (!WHOLE.test(value)) return broken(line + 1, `${quote(value)} is not the number of a unit`);
    this.#unitCode = Number(value);
    return null;
  }

  #takeTable(code: number, value: string): void {
    if (this.#layer === null) return;
    if (code === 2) this.#layer.name = plainName(value);
    if (code === 70) this.#layer.flags = Number.parseInt(value, 10) || 0;
    if (code === 62) this.#layer.colour = Number.parseInt(value, 10) || 0;
  }

  #takeEntity(code: number, value: string, line: number): Fault | null {
    // What another program has hung on, or an object inside the entity, has codes of its own.
    if (code === 101 || 1000 <= code) {
      if (code === 101) this.#kept = new Set();
      return null;
    }
    if (!this.#kept?.has(code)) return null;
    if (this.#kind === 'BLOCK' && code === 2) {
      if (value === '') return null;
      this.#isNamed = true;
    }
    const form = code < 60 || PLANE.includes(code) ? NUMBER : WHOLE;
    if (10 <= code && !(form.test(value) && Number.isFinite(Number(value))))
      return broken(line, `${quote(value)} is not a number as this ${this.#kind} needs it`);
    // The library goes round for ever where a group that it does not know follows the x of a corner.
    if (this.#kind === 'LWPOLYLINE' && CORNER.has(code))
      this.#cornerGroups.push(String(code), value);
    else this.#put(String(code), code < 10 ? plainName(value) : value);
    if (code === 90) this.#corners.said = Number(value);
    if (code !== 10 || (this.#kind !== 'LWPOLYLINE' && this.#kind !== 'SPLINE')) return null;
    this.#corners.found++;
    return this.#count();
  }

  #put(...groups: readonly string[]): void {
    const lines = this.#section === 'BLOCKS' ? this.#blocks : this.#entities;
    for (const each of groups) lines.push(each);
  }
}
