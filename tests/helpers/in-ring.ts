interface Place {
  readonly x: number;
  readonly y: number;
}

/** Whether a point lies inside a ring, by the sides that a level ray from it crosses. */
export function isInRing({ x, y }: Place, ring: readonly Place[]): boolean {
  let odd = false;
  let from = ring.at(-1)!;
  for (const to of ring) {
    const crosses = from.y > y !== to.y > y;
    if (crosses && x < from.x + ((y - from.y) * (to.x - from.x)) / (to.y - from.y)) odd = !odd;
    from = to;
  }
  return odd;
}
