import { type ResourceLimits, USUAL_LIMITS } from '../model/resource-limits.ts';
import { product, scaling } from './affine.ts';
import {
  DRAWING_UNITS,
  type DrawingUnit,
  type Frame,
  NO_UNIT_SAID,
  type SaidUnit,
} from './drawing-frame.ts';
import { type ShapeRead, shapeOfPaths } from './drawn-shape.ts';
import { type PlacedCurve, placeCurves, type Tally } from './dxf-blocks.ts';
import { curvePath } from './dxf-curves.ts';
import { type DxfContent, parseDxf } from './dxf-parse.ts';
import { BODIES, type DxfLayer, type DxfScreened, screenDxf } from './dxf-screen.ts';
import type { Fault } from './fault.ts';
import { type FinePath, sidesFault } from './fine-path.ts';
import { suggest } from './nearest.ts';
import { quote, shortened } from './visible.ts';

/** A DXF drawing, read once whatever is then asked of it. */
export interface Dxf {
  readonly content: DxfContent;
  readonly screened: DxfScreened;
  /** By their names in small letters. */
  readonly layers: ReadonlyMap<string, DxfLayer>;
  /** All that it draws, blocks put in place, by layers in the order of the drawing; their names in small letters. */
  readonly curves: ReadonlyMap<string, readonly PlacedCurve[]>;
  readonly tally: Tally;
  readonly limits: ResourceLimits;
}

/** The body that a drawing shows, and what was left aside on the way. */
export interface DxfRead {
  readonly shape: ShapeRead;
  readonly warnings: readonly Fault[];
}

/** What the header says of the unit, by its number there. */
const UNITS_BY_CODE: ReadonlyMap<number, DrawingUnit> = new Map([
  [1, 'in'],
  [2, 'ft'],
  [4, 'mm'],
  [5, 'cm'],
  [6, 'm'],
]);

export function openDxf(text: string, limits: ResourceLimits = USUAL_LIMITS): Dxf | Fault {
  const screened = screenDxf(text, limits);
  if ('code' in screened) return screened;
  const content = parseDxf(screened.text);
  if ('code' in content) return content;
  const layers = new Map(screened.layers.map((layer) => [layer.name.toLowerCase(), layer]));
  const placing = { content, layers, tally: { placed: 0 }, limits };
  const curves = placeCurves(placing, null);
  return 'code' in curves ? curves : { ...placing, screened, curves: byLayers(curves) };
}

function byLayers(curves: readonly PlacedCurve[]): ReadonlyMap<string, readonly PlacedCurve[]> {
  const layers = new Map<string, PlacedCurve[]>();
  for (const curve of curves) {
    const key = curve.layer.toLowerCase();
    const own = layers.get(key);
    if (own === undefined) layers.set(key, [curve]);
    else own.push(curve);
  }
  return layers;
}

/**
 * The one body of a drawing, or of the layer or, where no layer has this name, the block that is named. Layers that are off or frozen count only
 * where they are named.
 */
export function readDxf(dxf: Dxf, name: string | null, said: SaidUnit = NO_UNIT_SAID): DxfRead {
  const refused = (fault: Fault): DxfRead => ({ shape: { ok: false, fault }, warnings: [] });
  const written = UNITS_BY_CODE.get(dxf.screened.unitCode ?? 0) ?? null;
  const unit = said.own ?? written ?? said.usual;
  if (unit === null) return refused(noUnit(dxf.screened.unitCode));
  const picked = pick(dxf, name);
  if ('code' in picked) return refused(picked);
  const paths = pathsOf(picked, unit, dxf.limits);
  if ('code' in paths) return refused(paths);
  const shape =
    paths.length === 0
      ? ({ ok: false, fault: empty(dxf, name) } as const)
      : shapeOfPaths(paths, frameOf(dxf, name, unit), true, dxf.limits);
  return { shape, warnings: [...otherUnit(written, unit), ...leftAside(picked)] };
}

function noUnit(unitCode: number | null): Fault {
  const strange = unitCode !== null && unitCode !== 0;
  const message = strange
    ? `the header of the drawing names unit ${unitCode}, which no outline is read in`
    : 'the drawing does not say its unit';
  const units = Object.keys(DRAWING_UNITS).join(', ');
  const hint = `write drawing-unit: at the part or at the top of the file, with one of ${units}`;
  return { code: 'no-drawing-unit', message, hint };
}

/** What is chosen; a fault where there is nothing of the name. */
function pick(dxf: Dxf, name: string | null): readonly PlacedCurve[] | Fault {
  if (name === null) return shown(dxf, [...dxf.curves.values()].flat());
  const key = name.toLowerCase();
  const onLayer = dxf.curves.get(key);
  if (onLayer !== undefined) return onLayer;
  const block = dxf.content.blocks.get(key);
  if (block !== undefined) {
    const inBlock = placeCurves(dxf, block);
    return 'code' in inBlock ? inBlock : shown(dxf, inBlock);
  }
  if (dxf.layers.has(key)) return [];
  const message = `the drawing has neither a layer nor a block ${quote(name)}`;
  return { code: 'drawing-id', message, hint: suggest(name, namesOf(dxf).slice(0, 20)) };
}

function shown({ layers }: Dxf, curves: readonly PlacedCurve[]): readonly PlacedCurve[] {
  return curves.filter(({ layer }) => {
    const { off = false, frozen = false } = layers.get(layer.toLowerCase()) ?? {};
    return !off && !frozen;
  });
}

function pathsOf(
  placed: readonly PlacedCurve[],
  unit: DrawingUnit,
  limits: ResourceLimits,
): readonly FinePath[] | Fault {
  const scale = scaling(DRAWING_UNITS[unit], DRAWING_UNITS[unit]);
  const paths: FinePath[] = [];
  let sides = 0;
  for (const { curve, carried } of placed) {
    const path = curvePath(curve, product(scale, carried), limits.vertices);
    if (path === null) continue;
    if ('code' in path) return path;
    sides += path.sides.length;
    const fault = sidesFault(sides, true, limits);
    if (fault !== null) return fault;
    paths.push(path);
  }
  return paths;
}

/** The layers that draw something, then the blocks that a person has named: those of the programs begin with * or _. */
function namesOf({ curves, content }: Dxf): readonly string[] {
  const layers = [...curves.values()].flatMap(([first]) => first?.layer ?? []);
  const blocks = [...content.blocks.values()].filter(
    ({ name, entities }) => !/^[*_]/.test(name) && entities.length > 0,
  );
  return [...layers, ...blocks.map(({ name }) => name)];
}

function frameOf(dxf: Dxf, name: string | null, unit: DrawingUnit): Frame {
  return {
    unit,
    down: false,
    names: name === null ? namesOf(dxf) : [],
    howToName: 'put each on a layer of its own, or make it a block, and name that: panel.dxf#side',
  };
}

function empty({ screened }: Dxf, name: string | null): Fault {
  const where = name === null ? 'the drawing' : `${quote(name)} in the drawing`;
  const others = [...screened.others].map(([kind, count]) => `${count} ${shortened(kind)}`);
  const only = others.length === 0 ? '' : `; the drawing has ${others.slice(0, 8).join(', ')}`;
  const message = `${where} shows no outline${only}`;
  return {
    code: 'drawing-empty',
    message,
    hint: 'outlines are lines, arcs, circles, polylines, ellipses and splines on layers that are on',
  };
}

function otherUnit(written: DrawingUnit | null, unit: DrawingUnit): readonly Fault[] {
  if (written === null || written === unit) return [];
  const message = `the drawing says that it is in ${written}; it is read in ${unit}, as the part says`;
  return [{ code: 'drawing-unit', message, hint: 'check the size of the part' }];
}

function leftAside(picked: readonly PlacedCurve[]): readonly Fault[] {
  const kinds = new Set(picked.map(({ curve }) => curve.type));
  return BODIES.filter((kind) => kinds.has(kind)).map((kind) => ({
    code: 'drawing-ignored',
    message: `${kind} in the drawing are not read`,
    hint: 'convert them to polylines if they are part of the outline',
  }));
}
