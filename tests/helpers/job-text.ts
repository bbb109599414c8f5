/** A parts file of one part with these keys, in 18 mm plywood of 2440 x 1220 mm. */
export function jobText(keys: string, unit: 'mm' | 'in' = 'mm'): string {
  return `unit: ${unit}
materials: { ply: { family: plywood, thickness: 18mm, sheets: [{ size: 2440mm x 1220mm }] } }
parts:
  - { name: Box, material: ply, ${keys} }
`;
}
