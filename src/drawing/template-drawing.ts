import { type Box, boxOf, growBox } from '../geometry/box.ts';
import { DRAWING_CHORD_ERROR, flattenShape } from '../geometry/flatten.ts';
import { lengthNumber } from '../model/format.ts';
import type { Job } from '../model/job.ts';
import type { Part } from '../model/part.ts';
import { toMm, UNITS_PER_MM } from '../model/units.ts';
import { circle, type Drawing, type DrawnPoint, group, type Item, line } from './display-list.ts';
import { freeRectangles } from './free-rectangles.ts';
import { lengthsIn, overall } from './furniture.ts';
import { contourBox, inkBox } from './ink.ts';
import { type Frame, frameAt, grainArrow, lettering } from './marks.ts';
import { contourRun, drawnBox, drawnPoint, scaleBox, shapeRuns } from './outline.ts';
import { LETTERS } from './styles.ts';
import { featuresOf, holeKinds } from './template-features.ts';
import { drawTemplateLabels, holeText } from './template-labels.ts';
import { drawOrdinates } from './template-ordinates.ts';
import { plainText, textWidth } from './text.ts';

/** How far the cross at a centre reaches beyond its hole, and at least. */
const CROSS = { beyond: 1.8, least: 3.5 } as const;
const ROW = 4.2;
const ARROW = 16;
const BLOCK_INSET = 5;
/** The block is drawn smaller, or above the part, before it lies on a line. */
const LEAST_BLOCK = 0.55;

/** A part at its own size, seen from its good face, with all that is measured on it; its lower left corner is (0, 0). */
export function drawTemplate(job: Job, part: Part): Drawing {
  const lines = partLines(part);
  const labels = drawTemplateLabels(part, job.unit, lines);
  const dimensions = drawDimensions(part, job.unit);
  const title = drawBlock(job, part, labels);
  const all = [...lines, ...labels, ...dimensions, ...title];
  const { minX, minY, maxX, maxY } = growBox(inkBox(all), 0.5);
  return {
    id: `template-${part.index + 1}`,
    title: templateTitle(job, part),
    left: minX,
    bottom: minY,
    width: maxX - minX,
    height: maxY - minY,
    paperScale: 1,
    toScale: true,
    layers: [
      { name: 'pieces', groups: [group(lines)] },
      { name: 'dimensions', groups: [group([...dimensions, ...labels])] },
      { name: 'title', groups: [group(title)] },
    ],
  };
}

/** "Canopy rail · 900 × 220 × 18 mm · Birch plywood 18 mm". */
export function templateTitle({ unit, materials }: Job, part: Part): string {
  const material = materials[part.material];
  const lengths = [
    part.width,
    part.height,
    ...(material === undefined ? [] : [material.thickness]),
  ];
  const size = lengths.map((length) => lengthNumber(length, unit)).join(' × ');
  return [plainText(part.name), `${size} ${unit}`, plainText(material?.name ?? '')].join(' · ');
}

function partLines({ shape, holes, pockets }: Part): readonly Item[] {
  const round = [shape.outer, ...shape.inner, ...pockets.map(({ contour }) => contour)].flatMap(
    (contour) => featuresOf(contour).circle ?? [],
  );
  return [
    { kind: 'path', style: 'template', runs: shapeRuns(shape) },
    ...pockets.map(
      ({ contour }): Item => ({ kind: 'path', style: 'pocket', runs: [contourRun(contour)] }),
    ),
    ...round.flatMap(({ centre }) => cross(centre, CROSS.least)),
    ...holes.flatMap((hole) => {
      const centre = drawnPoint(hole);
      const radius = toMm(hole.diameter) / 2;
      return [
        circle('template', centre, radius),
        ...cross(centre, Math.max(CROSS.least, radius + CROSS.beyond)),
      ];
    }),
  ];
}

function cross({ x, y }: DrawnPoint, arm: number): readonly Item[] {
  return [
    line('hole-cross', { x: x - arm, y }, { x: x + arm, y }),
    line('hole-cross', { x, y: y - arm }, { x, y: y + arm }),
  ];
}

/** From the zero at the lower left corner; the overall sizes outside of all else. */
function drawDimensions(part: Part, unit: Job['unit']): readonly Item[] {
  const below = drawOrdinates(part, 'bottom', unit);
  const beside = drawOrdinates(part, 'left', unit);
  const across = frameAt({ x: 0, y: -below.depth }, 1);
  const upwards = frameAt({ x: -beside.depth - 4.4, y: 0 }, 1, 90);
  const how = { style: 'text', size: LETTERS.dimension, anchor: 'end', maxWidth: 4 } as const;
  return [
    ...below.items,
    ...beside.items,
    ...overall(across, toMm(part.width), lengthNumber(part.width, unit), -1),
    ...overall(upwards, toMm(part.height), lengthNumber(part.height, unit), 1),
    circle('register', { x: 0, y: 0 }, 1),
    ...lettering(frameAt({ x: 0, y: 0 }, 1), -1.2, -2, '0', how),
  ];
}

/** What the part is, in the free place next to the zero, or above the part where it has none. */
function drawBlock(job: Job, part: Part, labels: readonly Item[]): readonly Item[] {
  const rows = blockRows(job, part);
  const grain = part.grain === 'any' ? null : part.grain === 'along' ? 'x' : 'y';
  const width = Math.max(...rows.map((text, i) => textWidth(text, rowSize(i))));
  const arrowRoom = grain === null ? 0 : (grain === 'x' ? 2 : ARROW) + 2;
  const height = rows.length * ROW + arrowRoom;
  const place = blockPlace(part, labels, width, height);
  const frame = frameAt(place.corner, place.factor);
  return [
    ...rows.flatMap((text, i) =>
      lettering(frame, 0, -(i + 0.5) * ROW, text, {
        style: i === 0 ? 'text' : 'text-soft',
        size: rowSize(i),
        anchor: 'start',
        maxWidth: width * 1.001,
      }),
    ),
    ...(grain === null ? [] : drawGrain(grain, rows.length * ROW, frame)),
  ];
}

function drawGrain(axis: 'x' | 'y', under: number, frame: Frame): Item[] {
  const middle =
    axis === 'x' ? { x: ARROW / 2, y: -under - 2 } : { x: 2, y: -under - ARROW / 2 - 1 };
  return [
    ...grainArrow(frame, middle, ARROW, axis),
    ...lettering(frame, axis === 'x' ? ARROW + 2 : 4, middle.y, 'grain', {
      style: 'text-soft',
      size: LETTERS.subtitle,
      anchor: 'start',
      maxWidth: 20,
    }),
  ];
}

function rowSize(index: number): number {
  return index === 0 ? LETTERS.title : LETTERS.subtitle;
}

function blockRows(job: Job, part: Part): readonly string[] {
  const copies = job.pieces.filter((piece) => piece.part === part.index).length;
  const isFinished = part.finishedWidth === part.width && part.finishedHeight === part.height;
  const finished = [part.finishedWidth, part.finishedHeight].map((length) =>
    lengthNumber(length, job.unit),
  );
  return [
    plainText(part.name),
    `cut ${copies} · good face up · ${lengthsIn(job.unit)} from the corner 0`,
    ...(isFinished ? [] : [`as it is cut; finished ${finished.join(' × ')}`]),
    ...holeKinds(part).map(({ count, hole }) => `${count} × ${holeText(hole, job.unit)}`),
  ];
}

/** The upper left corner of the block, and how large it is drawn. */
function blockPlace(
  part: Part,
  labels: readonly Item[],
  width: number,
  height: number,
): { readonly corner: DrawnPoint; readonly factor: number } {
  const region = flattenShape(part.shape, 'curve', DRAWING_CHORD_ERROR);
  const obstacles = [...holeBoxes(part), ...labels.map((label) => inkBox([label]))];
  const places = freeRectangles(
    region,
    obstacles.map((box) => scaleBox(box, UNITS_PER_MM)),
  ).map((box) => growBox(drawnBox(box), -BLOCK_INSET));
  const fits = (factor: number) => (box: Box) =>
    box.maxX - box.minX >= width * factor && box.maxY - box.minY >= height * factor;
  for (const factor of [1, 0.75, LEAST_BLOCK]) {
    const nearest = places
      .filter(fits(factor))
      .toSorted((a, b) => a.minX + a.minY - b.minX - b.minY)[0];
    if (nearest === undefined) continue;
    return { corner: { x: nearest.minX, y: nearest.minY + height * factor }, factor };
  }
  return { corner: { x: 0, y: toMm(part.height) + height + 4 }, factor: 1 };
}

/** With the crosses of the holes, and the pockets. */
function holeBoxes({ holes, pockets }: Part): readonly Box[] {
  return [
    ...holes.map(({ x, y, diameter }) => {
      const centre = boxOf([{ x: toMm(x), y: toMm(y) }]);
      return growBox(centre, Math.max(CROSS.least, toMm(diameter) / 2 + CROSS.beyond));
    }),
    ...pockets.map(({ contour }) => contourBox(contour)),
  ];
}
