import type { ResourceLimits } from '../model/resource-limits.ts';
import { type Affine, moving, product, scaling, turning } from './affine.ts';
import { type DxfCurve, entityFault, withFacing } from './dxf-curves.ts';
import type { DxfBlock, DxfContent, DxfEntity } from './dxf-parse.ts';
import type { DxfLayer } from './dxf-screen.ts';
import type { Fault } from './fault.ts';
import { type Excess, limitFault } from './limit-fault.ts';
import { quote } from './visible.ts';

/** An entity that draws something, as it lies in the drawing. */
export interface PlacedCurve {
  readonly curve: DxfCurve;
  readonly carried: Affine;
  readonly layer: string;
}

/** How much was put in place; shared by all that is asked of one drawing. */
export interface Tally {
  placed: number;
}

/** What stands where the walk is. */
interface Place {
  readonly carried: Affine;
  /** The layer that things on layer 0 take. */
  readonly layer: string;
  /** The blocks around, by their names in small letters. */
  readonly within: readonly string[];
}

const PLANE_LAYER = '0';

/** What the walk goes through. */
export interface Placing {
  readonly content: DxfContent;
  readonly layers: ReadonlyMap<string, DxfLayer>;
  readonly tally: Tally;
  readonly limits: ResourceLimits;
}

/** The curves of the drawing with its blocks put in place: those of the whole of it, or of one block on its own. */
export function placeCurves(
  placing: Placing,
  block: DxfBlock | null,
): readonly PlacedCurve[] | Fault {
  const found: PlacedCurve[] = [];
  const place: Place = { carried: scaling(1, 1), layer: PLANE_LAYER, within: [] };
  const walk = { ...placing, found };
  const fault =
    block === null
      ? placeAll(placing.content.entities, place, walk)
      : placeBlock(block, place, walk);
  return fault ?? found;
}

interface Walk extends Placing {
  readonly found: PlacedCurve[];
}

function placeBlock(block: DxfBlock, place: Place, walk: Walk): Fault | null {
  const key = block.name.toLowerCase();
  if (place.within.includes(key)) {
    const message = `the block ${quote(block.name)} holds itself`;
    return { code: 'drawing-broken', message, hint: 'take the copy out of the block' };
  }
  const tooDeep = limitFault({ ...BLOCKS, found: place.within.length + 1 }, walk.limits);
  if (tooDeep !== null) return tooDeep;
  if (block.isOutside) {
    const message = `the block ${quote(block.name)} is another file, which is not read`;
    return { code: 'drawing-feature', message, hint: 'bind it into the drawing' };
  }
  const { base, entities } = block;
  const carried = product(place.carried, moving(-base.x, -base.y));
  return placeAll(entities, { ...place, carried, within: [...place.within, key] }, walk);
}

function placeAll(entities: readonly DxfEntity[], place: Place, walk: Walk): Fault | null {
  for (const entity of entities) {
    if (entity.visible === false || entity.inPaperSpace === true) continue;
    const tooMany = counted(1, walk);
    if (tooMany !== null) return tooMany;
    const own = entity.layer ?? PLANE_LAYER;
    const layer = own === PLANE_LAYER ? place.layer : own;
    if (entity.type !== 'INSERT') walk.found.push({ curve: entity, carried: place.carried, layer });
    else {
      const fault = placeInsert(entity, { ...place, layer }, walk);
      if (fault !== null) return fault;
    }
  }
  return null;
}

const BLOCKS: Omit<Excess, 'found'> = {
  ...{ limit: 'drawing-depth', code: 'too-complex', atLeast: true },
  ...{ subject: 'blocks inside blocks go down', instead: 'take the blocks apart (explode them)' },
};

function counted(more: number, { tally, limits }: Walk): Fault | null {
  tally.placed += more;
  const excess: Excess = {
    ...{ limit: 'placed', code: 'too-complex', found: tally.placed, atLeast: true },
    subject: 'with its blocks in place the drawing has',
    instead: 'save what is meant in a drawing of its own',
  };
  return limitFault(excess, limits);
}

type Insert = DxfEntity & { type: 'INSERT' };

function placeInsert(insert: Insert, place: Place, walk: Walk): Fault | null {
  if (walk.layers.get(place.layer.toLowerCase())?.frozen === true) return null;
  const { name = '', position, rotation = 0, extrusionDirection } = insert;
  const block = walk.content.blocks.get(name.toLowerCase());
  if (block === undefined) return entityFault(insert, `there is no block ${quote(name)}`);
  const [sx, sy] = [insert.xScale ?? 1, insert.yScale ?? 1];
  if (sx === 0 || sy === 0) return entityFault(insert, 'its scale is 0');
  const { x: nx = 0, y: ny = 0, z: nz = 1 } = extrusionDirection ?? {};
  const at = withFacing(insert, { x: nx, y: ny, z: nz }, place.carried, (facing) =>
    product(facing, moving(position?.x ?? 0, position?.y ?? 0), turning(rotation)),
  );
  if ('code' in at) return at;
  const [columns, rows] = [Math.max(1, insert.columnCount ?? 1), Math.max(1, insert.rowCount ?? 1)];
  const tooMany = counted(columns * rows - 1, walk);
  if (tooMany !== null) return tooMany;
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const [dx, dy] = [column * (insert.columnSpacing ?? 0), row * (insert.rowSpacing ?? 0)];
      const carried = product(at, moving(dx, dy), scaling(sx, sy));
      const fault = placeBlock(block, { ...place, carried }, walk);
      if (fault !== null) return fault;
    }
  return null;
}
