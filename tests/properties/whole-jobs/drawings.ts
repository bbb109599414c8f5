import { dxf } from '../../partsfile/dxf-text.ts';
import { type Dice, rounded } from './dice.ts';
import type { RandomOutline } from './outlines.ts';

/** A part from a drawing of its own, SVG or DXF, in mm or inches whatever the parts file has. */
export function drawnPart(dice: Dice, w: number, h: number, index: number): RandomOutline {
  const isSvg = dice.chance(0.6);
  const name = `part ${index}.${isSvg ? 'svg' : 'dxf'}`;
  const text = isSvg ? svgText(dice, w, h) : dxfText(dice, w, h);
  return {
    keys: { outline: isSvg && dice.chance(0.3) ? `${name}#it` : name },
    drawing: { name, text },
  };
}

function svgText(dice: Dice, w: number, h: number): string {
  const turn = dice.among([0, 0, 90, dice.between(0, 360)]);
  const hole = Math.min(w, h) / 4;
  const shapes = [
    `<rect width="${w}" height="${h}" rx="${rounded(hole / 2, 100)}"/>`,
    `<ellipse cx="${w / 2}" cy="${h / 2}" rx="${w / 2}" ry="${h / 2}"/>`,
    `<polygon points="0,0 ${w},0 ${w},${h / 2} ${w / 2},${h} 0,${h}"/>`,
    `<path d="M0 0H${w}V${h}A${w} ${w} 0 0 1 0 ${h}Z"/>`,
  ];
  const inner = dice.chance(0.4)
    ? `<circle cx="${rounded(w / 2.5, 100)}" cy="${rounded(h / 2.5, 100)}" r="${rounded(hole / 2, 100)}"/>`
    : '';
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${2 * w}mm" height="${2 * h}mm" viewBox="0 0 ${2 * w} ${2 * h}">
  <g id="it" transform="rotate(${turn} ${w} ${h}) translate(3 4)">${dice.among(shapes)}${inner}</g>
</svg>
`;
}

/** Of release 12 and later ones: a run with bulges, or lines and arcs in any order. */
function dxfText(dice: Dice, w: number, h: number): string {
  const units = dice.among([4, 1]);
  const n = (mm: number) => rounded(units === 4 ? mm : mm / 25.4, 1e7);
  const bulge = dice.among([0, 0.3, -0.2, 1]);
  const run = [
    [0, 'LWPOLYLINE'],
    [8, 'side'],
    [90, 4],
    [70, 1],
    ...[
      [0, 0],
      [w, 0],
      [w, h],
      [0, h],
    ].flatMap(([x, y], k) => [
      [10, n(x!)],
      [20, n(y!)],
      ...(k === 2 && bulge !== 0 ? [[42, bulge]] : []),
    ]),
  ] as unknown as readonly (readonly [number, number | string])[];
  const circle = [
    [0, 'CIRCLE'],
    [8, 'side'],
    [10, n(w / 3)],
    [20, n(h / 3)],
    [40, n(dice.among([4, Math.min(w, h) / 5]))],
  ] as const;
  return dxf(dice.chance(0.5) ? [run, circle] : [run], { units });
}
