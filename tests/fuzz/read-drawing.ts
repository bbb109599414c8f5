import { jobText } from '../helpers/job-text.ts';
import type { Corpus } from './corpus.ts';
import type { Draw } from './draw.ts';
import { drawnDxf } from './drawn-dxf.ts';
import { drawnSvg, pathText } from './drawn-svg.ts';
import type { Reader } from './fuzz-case.ts';
import { mutated } from './mutate.ts';
import { partsCase } from './read-parts-text.ts';

const SVG_WORDS = [
  '<g>',
  '</g>',
  '<path d="M0 0h9v9z"/>',
  'transform="scale(0)"',
  'id="p"',
  '<!--',
  '-->',
  '<![CDATA[',
  '&amp;',
  '&#0;',
  '&#xD800;',
  'viewBox="0 0 0 0"',
  'width="0"',
  'z',
  'm',
  'A',
  'e',
  '%',
  'NaN',
  'style="display:none"',
];
const DXF_WORDS = [
  '0',
  '10',
  '20',
  '42',
  '62',
  '70',
  '100',
  '330',
  'SECTION',
  'ENTITIES',
  'ENDSEC',
  'EOF',
  'LINE',
  'ARC',
  'VERTEX',
  'SEQEND',
  'POLYLINE',
  'LWPOLYLINE',
  'INSERT',
  'BLOCK',
  '\n',
  '\r\n',
  'AcDbEntity',
];

/** SVG drawings and path text, as the outline of a part. */
export function svgReader({ svgs }: Corpus): Reader {
  return (draw) => {
    if (draw.chance(0.15)) return pathCase(draw);
    const drawing = draw.weighed<() => string>([
      [6, () => drawnSvg(draw)],
      [2, () => mutated(drawnSvg(draw), draw, SVG_WORDS)],
      [2, () => mutated(draw.pick(svgs), draw, SVG_WORDS)],
    ])();
    return drawingCase('a.svg', drawing, draw);
  };
}

/** DXF drawings, as the outline of a part. */
export function dxfReader({ dxfs }: Corpus): Reader {
  return (draw) => {
    const drawing = draw.weighed<() => string>([
      [6, () => drawnDxf(draw)],
      [2, () => mutated(drawnDxf(draw), draw, DXF_WORDS)],
      [2, () => mutated(draw.pick(dxfs), draw, DXF_WORDS)],
    ])();
    return drawingCase('a.dxf', drawing, draw);
  };
}

function pathCase(draw: Draw) {
  const path = pathText(draw, 0, 0, 200, 100);
  const changed = draw.chance(0.3) ? mutated(path, draw, SVG_WORDS) : path;
  const none = () => ({ ok: false, reason: 'missing', detail: '' }) as const;
  return partsCase(jobText(`path: ${JSON.stringify(changed)}`), none, draw);
}

function drawingCase(file: string, drawing: string, draw: Draw) {
  const own = draw.weighed([
    [12, ''],
    [1, '#p'],
    [1, '#L0'],
    [1, '#CUT'],
    [1, '#B0'],
    [1, '#constructor'],
    [1, '#'],
  ]);
  const unit = draw.chance(0.3)
    ? `, drawing-unit: ${draw.pick(['mm', 'cm', 'in', 'm', 'px', 'x'])}`
    : '';
  const text = jobText(`outline: ${file}${own}${unit}`, draw.pick(['mm', 'mm', 'in']));
  const made = partsCase(text, () => ({ ok: true, text: drawing, sha256: 'b'.repeat(64) }), draw);
  return { ...made, shown: `${text}\n${drawing}` };
}
