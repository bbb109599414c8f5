import { type Box, boxesOverlap, growBox } from '../geometry/box.ts';
import { formatLength } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import type { Hole, Part } from '../model/part.ts';
import { toMm } from '../model/units.ts';
import type { DrawnPoint, Item } from './display-list.ts';
import { contourBox, inkTest } from './ink.ts';
import { frameAt, lettering } from './marks.ts';
import { drawnPoint, middleOf } from './outline.ts';
import { LETTERS } from './styles.ts';
import { type Features, featuresOf, type RoundSide } from './template-features.ts';
import { measuredNumber } from './template-numbers.ts';
import { textWidth } from './text.ts';

/** A few words that belong to a place; `centres` are where they may stand, the best first. */
interface Label {
  readonly text: string;
  readonly centres: readonly DrawnPoint[];
  /** Said even where no place is free; what is not said stands in the list of holes. */
  readonly needed: boolean;
}

const SIZE = LETTERS.dimension;
const GAP = 0.8;

/** Diameters, radii and depths beside what they belong to, clear of one another and of the lines in `drawn`. */
export function drawTemplateLabels(
  part: Part,
  unit: FileUnit,
  drawn: readonly Item[],
): readonly Item[] {
  const taken: Box[] = [];
  const tests = drawn.map(inkTest);
  return allLabels(part, unit).flatMap(({ text, centres, needed }) => {
    const isFree = (centre: DrawnPoint) => {
      const box = labelBox(text, centre);
      return !taken.some((other) => boxesOverlap(box, other)) && !tests.some((isIn) => isIn(box));
    };
    const centre = centres.find(isFree) ?? (needed ? centres[0] : undefined);
    if (centre === undefined) return [];
    taken.push(labelBox(text, centre));
    return lettering(frameAt(centre, 1), 0, 0, text, {
      style: 'text',
      size: SIZE,
      anchor: 'middle',
      maxWidth: textWidth(text, SIZE) * 1.001,
    });
  });
}

/** "Ø 5, 12 mm deep". */
export function holeText({ diameter, depth }: Hole, unit: FileUnit): string {
  return `Ø ${measuredNumber(toMm(diameter), unit)}${depth === null ? '' : `, ${depthText(depth, unit)}`}`;
}

function depthText(depth: number, unit: FileUnit): string {
  return `${formatLength(depth, unit)} deep`;
}

function allLabels(part: Part, unit: FileUnit): readonly Label[] {
  const { shape, holes, pockets } = part;
  const outer = featuresOf(shape.outer);
  const pocketLabels = pockets.map(({ contour, depth }) => {
    const { circle } = featuresOf(contour);
    const width = circle === null ? '' : `${roundText('Ø', 2 * circle.radius, unit)}, `;
    const text = `${width}pocket ${depthText(depth, unit)}`;
    return { text, centres: around(middleOf(contourBox(contour)), 4, text), needed: true };
  });
  return [
    ...pocketLabels,
    ...[outer, ...shape.inner.map(featuresOf)].flatMap((each) => contourLabels(each, unit)),
    ...pockets.flatMap(({ contour }) => arcLabels(featuresOf(contour).arcs, unit)),
    ...holes.map((hole) => {
      const text = holeText(hole, unit);
      const reach = toMm(hole.diameter) / 2 + 2;
      return { text, centres: around(drawnPoint(hole), reach, text), needed: false };
    }),
  ];
}

function contourLabels({ circle, arcs }: Features, unit: FileUnit): readonly Label[] {
  if (circle === null) return arcLabels(arcs, unit);
  const text = roundText('Ø', 2 * circle.radius, unit);
  const reaches = [4, 0.3 * circle.radius, 0.6 * circle.radius, circle.radius + 2];
  const centres = reaches.flatMap((reach) => around(circle.centre, reach, text));
  return [{ text, centres, needed: true }];
}

/** On the hollow side of the arc, else on the other. */
function arcLabels(arcs: readonly RoundSide[], unit: FileUnit): readonly Label[] {
  return arcs.map(({ centre, radius, middle }) => {
    const text = roundText('R', radius, unit);
    const inwards = { x: (centre.x - middle.x) / radius, y: (centre.y - middle.y) / radius };
    const half = { x: textWidth(text, SIZE) / 2 + GAP, y: SIZE / 2 + GAP };
    const clear = Math.abs(inwards.x) * half.x + Math.abs(inwards.y) * half.y;
    const centres = [1, -1, 1, -1, 1].map((side, i) => {
      const away = side * (clear + 0.8 + 2 * i);
      return { x: middle.x + away * inwards.x, y: middle.y + away * inwards.y };
    });
    return { text, centres, needed: true };
  });
}

function roundText(sign: 'R' | 'Ø', length: number, unit: FileUnit): string {
  return `${sign} ${measuredNumber(length, unit)}`;
}

/** To the right of a place, to its left, above and below it. */
function around({ x, y }: DrawnPoint, reach: number, text: string): readonly DrawnPoint[] {
  const aside = reach + GAP + textWidth(text, SIZE) / 2;
  const off = reach + GAP + SIZE / 2;
  return [
    { x: x + aside, y },
    { x: x - aside, y },
    { x, y: y + off },
    { x, y: y - off },
    { x: x + aside, y: y + off },
    { x: x - aside, y: y + off },
  ];
}

function labelBox(text: string, { x, y }: DrawnPoint): Box {
  const half = { x: textWidth(text, SIZE) / 2, y: SIZE / 2 };
  const box = { minX: x - half.x, maxX: x + half.x, minY: y - half.y, maxY: y + half.y };
  return growBox(box, GAP / 2);
}
