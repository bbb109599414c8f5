const PULL_ACROSS =
  'strength against a pull across the panel: a tab bends or shears, and the tool uses no such strength';

/** Values that were collected with the others and take no part in what the tool reckons, and why. */
export const NOT_OURS: readonly (readonly [id: string, why: string])[] = [
  ['A_orifice_exponent_crack', 'cracks: air comes through porous layers and sharp-edged openings'],
  ['A_vac_airtight', 'level advised for airtight sheets: the usual pump is one for a porous board'],
  ['C_OSB_IB_range', PULL_ACROSS],
  ['C_EN312_P2_IB_12', PULL_ACROSS],
  ['C_EN312_P2_IB_18', PULL_ACROSS],
  ['C_EN312_P2_IB_25', PULL_ACROSS],
  ['C_EN622_5_IB_18', PULL_ACROSS],
  [
    'C_slip_limit_surface',
    'ellipse of push and moment: the tool searches for the point about which a thing turns, which promises less on hollow and long outlines',
  ],
];
