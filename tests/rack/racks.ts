/** A rack of two offcuts, as a person writes it; `extra` goes behind them. */
export function smallRack(extra = ''): string {
  return `# Rack by the door
format: holdfast-rack/1
unit: mm
offcuts:
  # the good one
  - id: R1
    material: ply
    thickness: 18
    size: 800 x 400 # measured twice
    grain: first
  - { id: R2, material: ply, thickness: 18, size: 300 x 500, grain: none, note: bruised }
${extra}`;
}

/** What a plan leaves and takes, as far as the rack looks at it. */
export function planText(
  left: readonly (readonly [number, number])[],
  taken: readonly { readonly id: string; readonly size: readonly [number, number] }[] = [],
  job = 'Stool',
): string {
  const sheet = (
    number: number,
    rack: string | null,
    [length, width]: readonly [number, number],
  ) => ({
    number,
    rack,
    length,
    width,
    grainDeg: 0,
    offcuts: rack === null ? left.map(([l, w]) => ({ x: 0, y: 0, length: l, width: w })) : [],
  });
  const sheets = [
    sheet(1, null, [2440, 1220]),
    ...taken.map(({ id, size }, i) => sheet(i + 2, id, size)),
  ];
  return JSON.stringify({
    format: 'holdfast-plan/1',
    job,
    materials: [{ material: 'ply', thickness: 18, sheets }],
  });
}
