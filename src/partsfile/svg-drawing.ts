import { SaxesParser } from 'saxes';
import type { FileUnit } from '../model/job.ts';
import { type ResourceLimits, USUAL_LIMITS } from '../model/resource-limits.ts';
import { DRAWING_UNITS, NO_UNIT_SAID, type SaidUnit } from './drawing-frame.ts';
import { type ShapeRead, shapeOfPaths } from './drawn-shape.ts';
import type { Fault } from './fault.ts';
import { type FinePath, sidesFault } from './fine-path.ts';
import { type Excess, limitFault } from './limit-fault.ts';
import { suggest } from './nearest.ts';
import { readPath } from './svg-path.ts';
import { pathOfShape, SHAPE_NAMES, type ShapeName } from './svg-shapes.ts';
import { isTransform } from './svg-transforms.ts';
import { type SvgScale, svgScale } from './svg-units.ts';
import { quote, saying } from './visible.ts';

/** The body that a drawing shows, and what was left aside on the way. */
export interface SvgRead {
  readonly shape: ShapeRead;
  readonly warnings: readonly Fault[];
}

/** Groups that only hold other elements. */
const CONTAINERS = new Set(['g', 'a', 'switch']);

/** Elements that draw nothing by themselves. */
const SILENT = new Set([
  ...['defs', 'title', 'desc', 'metadata', 'symbol', 'clipPath', 'mask', 'pattern', 'marker'],
  ...['linearGradient', 'radialGradient', 'filter', 'view', 'cursor'],
]);

const UNSAFE = new Set(['script', 'foreignObject', 'handler', 'iframe', 'object', 'embed']);

/**
 * Reads an SVG drawing as one body: the largest closed path is the outline, closed paths inside it are cut-outs. With `id`
 * only the element of that id, with what it holds, is taken. Nothing that the drawing refers to is fetched, and what could
 * change it unseen is refused.
 */
export function readSvg(
  text: string,
  id: string | null,
  unit: FileUnit,
  said: SaidUnit = NO_UNIT_SAID,
  limits: ResourceLimits = USUAL_LIMITS,
): SvgRead {
  const walk = new SvgWalk(id, said, limits);
  const parser = new SaxesParser();
  parser.on('doctype', (doctype) => {
    if (doctype.includes('[')) walk.refuse(parser.line, UNSAFE_ENTITIES);
  });
  parser.on('processinginstruction', ({ target }) => {
    if (target === 'xml-stylesheet') walk.ignore('stylesheets');
  });
  parser.on('opentag', (tag) => walk.open(tag.name, tag.attributes, parser.line));
  parser.on('closetag', () => walk.close());
  parser.on('error', (error) => {
    const message = saying(error.message.replace(/^\d+:\d+: /, '').replace(/\.$/, ''));
    walk.refuse(parser.line, { code: 'drawing-broken', message, hint: BROKEN_HINT });
  });
  parser.write(text).close();
  return { shape: walk.shape(unit), warnings: walk.warnings };
}

const BROKEN_HINT = 'open it in a drawing program and save it as plain SVG';

const UNSAFE_ENTITIES: Fault = {
  code: 'drawing-unsafe',
  message: 'the drawing defines entities of its own',
  hint: 'save it as plain SVG, without a document type',
};

const MOST_WARNINGS = 30;

interface Level {
  readonly transforms: readonly string[];
  readonly drawn: boolean;
  /** Whether the element of the wanted id is this one or one around it. */
  readonly wanted: boolean;
}

/** Follows the elements of a drawing; the class guards the limits and keeps the first fault. */
class SvgWalk {
  readonly warnings: Fault[] = [];
  readonly #id: string | null;
  readonly #said: SaidUnit;
  readonly #limits: ResourceLimits;
  readonly #ids: string[] = [];
  readonly #levels: Level[] = [];
  readonly #ignored = new Set<string>();
  readonly #paths: FinePath[] = [];
  #scale: SvgScale | null = null;
  #sides = 0;
  #found = false;
  #fault: Fault | null = null;

  constructor(id: string | null, said: SaidUnit, limits: ResourceLimits) {
    this.#id = id;
    this.#said = said;
    this.#limits = limits;
  }

  /** Keeps the first fault; `line` is a line of the drawing. */
  refuse(line: number, { code, message, hint }: Fault): void {
    this.#fault ??= { code, message: `line ${line} of the drawing: ${message}`, hint };
  }

  /** Remembers, once, that something in the drawing is not read. */
  ignore(what: string): void {
    if (this.#ignored.has(what) || this.#ignored.size === 20) return;
    this.#ignored.add(what);
    const message = `${what} in the drawing are not read`;
    this.warnings.push({
      code: 'drawing-ignored',
      message,
      hint: 'convert them to paths if they are part of the outline',
    });
  }

  open(fullName: string, attributes: Readonly<Record<string, string>>, line: number): void {
    const above = this.#levels.at(-1);
    const name = fullName.replace(/^svg:/, '');
    const level = this.#fault === null ? this.#enter(name, attributes, line, above) : null;
    this.#levels.push(level ?? { transforms: [], drawn: false, wanted: false });
  }

  close(): void {
    this.#levels.pop();
  }

  shape(unit: FileUnit): ShapeRead {
    if (this.#fault !== null) return { ok: false, fault: this.#fault };
    if (this.#id !== null && !this.#found) {
      const message = `the drawing has no element with the id ${quote(this.#id)}`;
      const hint =
        this.#ids.length === 0 ? 'it has no ids at all' : suggest(this.#id, this.#ids.slice(0, 20));
      return { ok: false, fault: { code: 'drawing-id', message, hint } };
    }
    if (this.#paths.length === 0) return { ok: false, fault: EMPTY };
    const names = this.#id === null ? this.#ids : [];
    const howToName = 'give each an id and name the one that is meant, such as rail.svg#left';
    return shapeOfPaths(this.#paths, { unit, down: true, names, howToName }, true, this.#limits);
  }

  #enter(
    name: string,
    attributes: Readonly<Record<string, string>>,
    line: number,
    above: Level | undefined,
  ): Level | null {
    const fault = unsafeIn(name, attributes);
    if (fault !== null) {
      this.refuse(line, fault);
      return null;
    }
    if (above === undefined) return this.#enterRoot(name, attributes, line);
    const tooDeep = levelsFault(this.#levels.length, this.#limits);
    if (tooDeep !== null) this.refuse(line, tooDeep);
    if (!above.drawn || isHidden(attributes) || SILENT.has(name) || name.includes(':')) return null;
    const { id, transform } = attributes;
    if (transform !== undefined && !isTransform(transform)) {
      const message = `cannot read the transform ${quote(transform)}`;
      this.refuse(line, { code: 'drawing-broken', message, hint: BROKEN_HINT });
      return null;
    }
    if (id !== undefined && this.#ids.length < 1000) this.#ids.push(id);
    const isWanted = this.#id !== null && id === this.#id;
    if (isWanted) this.#found = true;
    const wanted = above.wanted || isWanted;
    const transforms =
      transform === undefined ? above.transforms : [transform, ...above.transforms];
    if (isShapeName(name)) {
      if (wanted) this.#addShape(name, attributes, transforms, line);
      return null;
    }
    if (CONTAINERS.has(name)) return { transforms, drawn: true, wanted };
    if (name === 'use' || name === 'svg') this.refuse(line, copiesFault(name));
    else this.ignore(name === 'style' ? 'stylesheets' : `${quote(name)} elements`);
    return null;
  }

  #enterRoot(name: string, attributes: Readonly<Record<string, string>>, line: number) {
    this.#scale = name === 'svg' ? svgScale(attributes) : null;
    if (this.#scale === null) {
      const message =
        name === 'svg'
          ? 'its width, height and viewBox do not go together'
          : 'it is not an SVG drawing';
      this.refuse(line, { code: 'drawing-broken', message, hint: BROKEN_HINT });
      return null;
    }
    this.warnings.push(...unitWarnings(this.#scale, this.#said));
    this.#scale = saidScale(this.#scale, this.#said);
    return { transforms: [], drawn: true, wanted: this.#id === null };
  }

  #addShape(
    name: ShapeName,
    attributes: Readonly<Record<string, string>>,
    transforms: readonly string[],
    line: number,
  ): void {
    const text = pathOfShape(name, attributes);
    if (text === null) {
      const message = `cannot read the numbers of a ${name}`;
      this.refuse(line, { code: 'drawing-broken', message, hint: BROKEN_HINT });
    } else if (text.trim() !== '' && this.#scale !== null) {
      const { scaleX, scaleY } = this.#scale;
      const read = readPath(text, { transforms, scaleX, scaleY, limits: this.#limits });
      if (!read.ok) this.refuse(line, read.fault);
      else {
        this.#addPaths(read.paths, line);
        if (read.warning !== null) this.#warn(line, read.warning);
      }
    }
  }

  /** Of so many only, for one slip may be in every line of a drawing. */
  #warn(line: number, { code, message, hint }: Fault): void {
    if (MOST_WARNINGS <= this.warnings.length) return;
    this.warnings.push({ code, message: `line ${line} of the drawing: ${message}`, hint });
  }

  #addPaths(paths: readonly FinePath[], line: number): void {
    this.#paths.push(...paths);
    this.#sides += paths.reduce((sum, path) => sum + path.sides.length, 0);
    const fault = sidesFault(this.#sides, true, this.#limits);
    if (fault !== null) this.refuse(line, fault);
  }
}

const EMPTY: Fault = {
  code: 'drawing-empty',
  message: 'the drawing shows no outline',
  hint: 'draw the part as a closed path; text and images are no outlines',
};

const PIXELS: Fault = {
  code: 'drawing-pixels',
  message: 'the drawing does not say how long its unit is; it is read as 1/96 in (0.2646 mm)',
  hint: 'give it a viewBox and a width and height in mm or in, and check the size of the part',
};

function unitWarnings(
  { assumedPixels, scaleX, scaleY }: SvgScale,
  said: SaidUnit,
): readonly Fault[] {
  if (assumedPixels) return said.own === null && said.usual === null ? [PIXELS] : [];
  if (said.own === null) return [];
  const length = DRAWING_UNITS[said.own];
  if ([scaleX, scaleY].every((scale) => Math.abs(scale / length - 1) < 1e-6)) return [];
  const message = `the drawing gives its unit another length; it is read in ${said.own}, as the part says`;
  return [{ code: 'drawing-unit', message, hint: 'check the size of the part' }];
}

function saidScale(scale: SvgScale, { own, usual }: SaidUnit): SvgScale {
  const unit = own ?? (scale.assumedPixels ? usual : null);
  if (unit === null) return scale;
  return { scaleX: DRAWING_UNITS[unit], scaleY: DRAWING_UNITS[unit], assumedPixels: false };
}

/** `above` levels lie around, the root among them. */
function levelsFault(above: number, limits: ResourceLimits): Fault | null {
  const excess: Excess = {
    ...{ limit: 'drawing-depth', code: 'too-complex', found: above + 1, atLeast: true },
    ...{ subject: 'groups inside groups go down', instead: 'ungroup the drawing' },
  };
  return limitFault(excess, limits);
}

function copiesFault(name: string): Fault {
  const what = name === 'use' ? 'a copy of another element (use)' : 'a drawing inside the drawing';
  return {
    code: 'drawing-feature',
    message: `${what} is not read`,
    hint: 'make it a path of its own: unlink or ungroup it in the drawing program',
  };
}

/** What could run, or draw something else than what is written. */
function unsafeIn(name: string, attributes: Readonly<Record<string, string>>): Fault | null {
  const hint = 'save it as plain SVG, without scripts';
  if (UNSAFE.has(name))
    return { code: 'drawing-unsafe', message: `it holds a ${name} element`, hint };
  if (name.startsWith('animate') || name === 'set')
    return { code: 'drawing-unsafe', message: 'it moves (animation)', hint };
  const handler = Object.keys(attributes).find((key) => /^on[a-z]+$/i.test(key));
  if (handler !== undefined)
    return { code: 'drawing-unsafe', message: `it holds a script (${handler})`, hint };
  if (/(^|;)\s*transform\s*:/.test(attributes.style ?? '')) {
    const message = 'a style sheet moves an element';
    return { code: 'drawing-feature', message, hint: 'apply the transform in the drawing program' };
  }
  return null;
}

function isHidden(attributes: Readonly<Record<string, string>>): boolean {
  return attributes.display === 'none' || /(^|;)\s*display\s*:\s*none/.test(attributes.style ?? '');
}

function isShapeName(name: string): name is ShapeName {
  return (SHAPE_NAMES as readonly string[]).includes(name);
}
