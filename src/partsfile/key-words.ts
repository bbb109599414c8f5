/**
 * Keys that a parts file will have a use for, but that nothing acts on today: to read on as if they were not
 * there would make a plan of something else than the file says. Under the path of the section, with `*` for any item.
 */
export const NOT_YET_KEYS: Readonly<Record<string, readonly string[]>> = {
  limits: ['proof', 'drift', 'time', 'weight'],
};

/** What people write for a key, where the letters alone would not lead to it. */
export const KEY_SYNONYMS: Readonly<Record<string, string>> = {
  qty: 'count',
  quantity: 'count',
  pieces: 'count',
  number: 'count',
  dimensions: 'size',
  dims: 'size',
  rotation: 'turns',
  rotate: 'turns',
  stock: 'sheets',
  panels: 'sheets',
  units: 'unit',
  title: 'job',
  banding: 'edges',
  bit: 'cutter',
  tool: 'cutter',
  rpm: 'speed',
  dia: 'diameter',
  file: 'outline',
  drawing: 'outline',
  svg: 'outline',
  dxf: 'outline',
  comment: 'note',
  defects: 'keep-out',
  openings: 'cut-outs',
  recesses: 'pockets',
  bores: 'holes',
  drill: 'holes',
  labor: 'labour',
  fittings: 'hardware',
  vat: 'tax',
  markup: 'margin',
  profit: 'margin',
};

/** The same for words. */
export const WORD_SYNONYMS: Readonly<Record<string, string>> = {
  ply: 'plywood',
  chipboard: 'particleboard',
  fibreboard: 'mdf',
  inch: 'in',
  inches: 'in',
  millimetres: 'mm',
  circle: 'disc',
  round: 'disc',
  length: 'along',
  cnc: 'router',
  saw: 'panel-saw',
  'table-saw': 'panel-saw',
  upcut: 'up-cut',
  downcut: 'down-cut',
  melamine: 'film-faced',
};

/** What each section is called in hints, under its path. */
export const SECTION_NAMES: Readonly<Record<string, string>> = {
  '': 'the top of the file',
  machine: 'machine',
  'machine.cutter': 'cutter',
  table: 'table',
  'table.pump': 'pump',
  'table.spoilboard': 'spoilboard',
  'table.pipe': 'pipe',
  'table.gasket': 'gasket',
  'table.pods': 'pods',
  'table.zones.*': 'a zone',
  'table.masked.*': 'a masked place',
  'materials.*': 'a material',
  'materials.*.sheets.*': 'a sheet',
  'materials.*.sheets.*.trim': 'trim',
  'materials.*.sheets.*.keep-out.*': 'a keep-out',
  'materials.*.boards.*': 'a board',
  'materials.*.boards.*.defects.*': 'a defect',
  'materials.*.lumber': 'lumber',
  'materials.*.lumber.on-hand.*': 'boards on hand',
  'parts.*': 'a part',
  'parts.*.edges': 'edges',
  'parts.*.holes.*': 'a hole',
  'parts.*.cut-outs.*': 'a cut-out',
  'parts.*.pockets.*': 'a pocket',
  'parts.*.hardware.*': 'hardware of a part',
  limits: 'limits',
  offcuts: 'offcuts',
  layers: 'layers',
  labels: 'labels',
  'labels.margin': 'margin',
  costs: 'costs',
  'costs.labour': 'labour',
  'costs.edge-band': 'edge-band',
  'costs.hardware.*': 'hardware',
  'variants.*': 'a variant',
  'readings.*': 'a reading',
  'offcuts.*': 'an offcut',
  'offcuts.*.from': 'from',
  'offcuts.*.used-by': 'used-by',
  'offcuts.*.keep-out.*': 'a keep-out',
};

/** What to write for a key that must not be missing. */
export const MISSING_HINTS: Readonly<Record<string, string>> = {
  unit: 'write unit: mm, or unit: in',
  materials: 'write materials: { birch18: { thickness: 18, sheets: [{ size: 2440 x 1220 }] } }',
  parts:
    'write parts: and under it a list, such as - { name: Side, material: birch18, size: 720 x 560 }',
  readings: 'write readings: and under it a list, such as - { kind: bare, vacuum: 12.5 kPa }',
  format: 'write format: holdfast-rack/1',
  id: 'write id: and what its label says, such as R12',
  grain: 'write grain: first, second or none, by the two numbers of its size',
  thickness: 'write thickness: 18, or whatever it is',
  name: 'write name: and what the shop calls the part',
  material: 'write material: and the key of one of the materials',
};

/** What the words of a key mean, where a near one would say too little. */
export const WORD_HINTS: Readonly<Record<string, string>> = {
  stages:
    '2 is strips, then pieces; 3 cuts the pieces of a strip once more; 4 yet again; free is as often as need be',
};
