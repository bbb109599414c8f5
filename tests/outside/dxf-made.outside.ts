import { describe, expect, it } from 'vitest';
import { openDxf, readDxf } from '../../src/partsfile/dxf-drawing.ts';
import { exactAreaMm2 } from '../helpers/exact-area.ts';
import { runTool } from './tools.ts';

/**
 * Drawings that a library for DXF writes, with all the tables, dictionaries and objects of each version, and the area of the one closed line on each layer
 * as the same library flattens it.
 */
const MAKE = `
import ezdxf, io, json, sys
from ezdxf import path, units
from ezdxf.math.bspline import closed_uniform_bspline
doc = ezdxf.new(sys.argv[1], setup=True)
old = sys.argv[1] == 'R12'
if not old: doc.units = units.MM
msp = doc.modelspace()
corners = [(0, 0, 0), (600, 0, 0.3), (600, 100, -0.2), (0, 100, 0)]
def on(layer): return {'layer': layer}
if old: msp.add_polyline2d(corners, format='xyb', dxfattribs=on('Poly')).close(True)
else: msp.add_lwpolyline(corners, format='xyb', close=True, dxfattribs=on('Poly'))
msp.add_circle((40, 50), 30, dxfattribs=on('Disc'))
below = dict(on('Below')); below['extrusion'] = (0, 0, -1)
msp.add_circle((900, 50), 30, dxfattribs=below)
if not old:
    msp.add_ellipse((100, 300), (80, 60), 0.4, dxfattribs=on('Oval'))
    places = [(0, 600), (200, 820), (420, 700), (380, 560), (180, 500)]
    msp.add_spline(dxfattribs=on('Blob')).apply_construction_tool(closed_uniform_bspline(places, 4))
    weighty = closed_uniform_bspline(places, 3, [1, 3, 1, 2, 1])
    msp.add_spline(dxfattribs=on('Weighty')).apply_construction_tool(weighty)
    msp.add_text('Side'); msp.add_mtext('a note')
    hatch = msp.add_hatch(); hatch.paths.add_polyline_path([(0, 0), (1, 0), (1, 1)])
    msp.add_linear_dim(base=(3, -20), p1=(0, 0), p2=(600, 0)).render()
    # Of unequal scales, in a block that is turned.
    inner = doc.blocks.new('Inner', base_point=(5, 5))
    inner.add_ellipse((60, 10), (50, 0), 0.4)
    outer = doc.blocks.new('Outer')
    outer.add_blockref('Inner', (30, 40), dxfattribs={'rotation': 25, 'xscale': 2, 'yscale': 0.5})
    msp.add_blockref('Outer', (900, 900), dxfattribs={'layer': 'Block', 'rotation': -70, 'xscale': -1.5, 'yscale': 3})
def area(entity):
    spline = entity.dxftype() == 'SPLINE'
    points = entity.construction_tool().approximate(5000) if spline else path.make_path(entity).flattening(0.0005)
    ring = [(v.x, v.y) for v in points]
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1]))) / 2
areas = {}
for entity in msp:
    if entity.dxf.layer in ('0', 'Block') or entity.dxf.layer.startswith('DIM'): continue
    areas[entity.dxf.layer] = area(entity)
if not old: areas['Block'] = area(inner[0]) * 2 * 0.5 * 1.5 * 3
out = io.StringIO(); doc.write(out)
print(json.dumps({'text': out.getvalue(), 'areas': areas}))
`;

describe.each(['R12', 'R2000', 'R2010', 'R2018'])('a drawing of version %s', (version) => {
  it('has the areas that its writer finds', () => {
    const printed = runTool('/usr/bin/python3', ['-c', MAKE, version], 'python3-ezdxf');
    const { text, areas }: { text: string; areas: Record<string, number> } = JSON.parse(printed);
    const opened = openDxf(text);
    if ('code' in opened) throw new Error(opened.message);
    expect(Object.keys(areas).length).toBeGreaterThanOrEqual(version === 'R12' ? 3 : 7);
    for (const [layer, area] of Object.entries(areas)) {
      const { shape, warnings } = readDxf(opened, layer, { own: null, usual: 'mm' });
      if (!shape.ok) throw new Error(`${layer}: ${shape.fault.message}`);
      expect(warnings).toEqual([]);
      const { outer, inner } = shape.shape;
      expect(inner).toEqual([]);
      // It takes cubics for circles, which are off by 0.03 %.
      expect(Math.abs(exactAreaMm2(outer) / area - 1), layer).toBeLessThan(4e-4);
    }
  });
});
