import type { Box } from '../geometry/box.ts';
import type { Ring } from '../geometry/shape.ts';
import type { LayerClass, LayerValues } from '../model/machine-layers.ts';
import type { DrawnPoint } from './display-list.ts';
import { boxOfLoop, contourLoop, type Loop } from './loops.ts';

/** One line of letters, its middle at `at`, upright or turned to be read from the right. */
export interface MachineText {
  readonly kind: 'text';
  readonly at: DrawnPoint;
  readonly text: string;
  /** Of a capital letter. */
  readonly height: number;
  readonly turn: 0 | 90;
}

/** Lengths in millimetres, y upwards, from the lower-left corner of the sheet. */
export type MachineShape =
  | { readonly kind: 'run'; readonly sides: Loop; readonly closed: boolean }
  | { readonly kind: 'circle'; readonly centre: DrawnPoint; readonly radius: number }
  | { readonly kind: 'line'; readonly from: DrawnPoint; readonly to: DrawnPoint }
  | MachineText;

/** A shape with what it is, and what the name of its layer may say of it. */
export interface Classed {
  readonly class: LayerClass;
  readonly shape: MachineShape;
  readonly values?: LayerValues;
}

export function ringShape(ring: Ring): MachineShape {
  const sides = contourLoop(ring.map(({ x, y }) => ({ x, y, via: null })));
  return { kind: 'run', sides, closed: true };
}

export function boxShape({ minX, minY, maxX, maxY }: Box): MachineShape {
  return ringShape([
    { x: minX, y: minY },
    { x: maxX, y: minY },
    { x: maxX, y: maxY },
    { x: minX, y: maxY },
  ]);
}

export function lineShape(from: DrawnPoint, to: DrawnPoint): MachineShape {
  return { kind: 'line', from, to };
}

/** Two opposite corners of the box around a shape; letters have none. */
export function cornersOfShape(shape: MachineShape): readonly DrawnPoint[] {
  switch (shape.kind) {
    case 'run': {
      const { minX, minY, maxX, maxY } = boxOfLoop(shape.sides);
      return corners(minX, minY, maxX, maxY);
    }
    case 'circle': {
      const { centre, radius: r } = shape;
      return corners(centre.x - r, centre.y - r, centre.x + r, centre.y + r);
    }
    case 'line':
      return [shape.from, shape.to];
    case 'text':
      return [];
  }
}

function corners(minX: number, minY: number, maxX: number, maxY: number): readonly DrawnPoint[] {
  return [
    { x: minX, y: minY },
    { x: maxX, y: maxY },
  ];
}
