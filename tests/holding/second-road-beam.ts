/**
 * A slender beam, clamped at one end and pushed aside at the other, as a chain of short beams.
 *
 * Each link has a deflection and a slope at either end and the stiffness of Euler and Bernoulli's beam between them.
 * The far end is moved by a unit; the force that this takes and the moments along the beam follow from the solved
 * chain. Source: direct stiffness method, any text on structures.
 */
export interface Beam {
  /** Across the force. */
  readonly widthMm: number;
  /** Along the force. */
  readonly depthMm: number;
  readonly lengthMm: number;
  /** Whether the far end stays parallel to itself, or may turn. */
  readonly end: 'guided' | 'free to turn';
}

const LINKS = 10;
const ELASTIC_MPA = 1000;

/** The force at the far end at which the bending stress somewhere in the beam reaches a strength. */
export function forceAtStrengthN(beam: Beam, strengthMpa: number): number {
  const { widthMm, depthMm, lengthMm, end } = beam;
  const inertia = (widthMm * depthMm ** 3) / 12;
  const link = linkStiffness(ELASTIC_MPA * inertia, lengthMm / LINKS);
  const tip = 2 * LINKS;
  const known = new Map([
    [0, 0],
    [1, 0],
    [tip, 1],
  ]);
  if (end === 'guided') known.set(tip + 1, 0);
  const moved = solve(assembled(link), known);
  let [most, force] = [0, 0];
  for (let k = 0; k < LINKS; k++) {
    const ends = link.map((row) => row.reduce((sum, s, i) => sum + s * moved[2 * k + i]!, 0));
    most = Math.max(most, Math.abs(ends[1]!), Math.abs(ends[3]!));
    force = ends[2]!;
  }
  const stress = (most * (depthMm / 2)) / inertia;
  return (force * strengthMpa) / stress;
}

type Matrix = readonly (readonly number[])[];

/** Forces and moments at both ends for deflections and slopes there. */
function linkStiffness(bending: number, h: number): Matrix {
  const rows = [
    [12, 6 * h, -12, 6 * h],
    [6 * h, 4 * h * h, -6 * h, 2 * h * h],
    [-12, -6 * h, 12, -6 * h],
    [6 * h, 2 * h * h, -6 * h, 4 * h * h],
  ];
  return rows.map((row) => row.map((entry) => (entry * bending) / h ** 3));
}

function assembled(link: Matrix): number[][] {
  const size = 2 * LINKS + 2;
  const whole = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let k = 0; k < LINKS; k++)
    link.forEach((row, i) => {
      row.forEach((entry, j) => {
        whole[2 * k + i]![2 * k + j]! += entry;
      });
    });
  return whole;
}

/** The equations with some unknowns given, by elimination. */
function solve(matrix: number[][], known: ReadonlyMap<number, number>): readonly number[] {
  const size = matrix.length;
  const rows = matrix.map((row, i) => {
    if (!known.has(i)) return [...row, 0];
    return [...row.map((_, j) => (i === j ? 1 : 0)), known.get(i)!];
  });
  for (let k = 0; k < size; k++)
    for (let i = 0; i < size; i++) {
      if (i === k) continue;
      const factor = rows[i]![k]! / rows[k]![k]!;
      for (let j = k; j <= size; j++) rows[i]![j]! -= factor * rows[k]![j]!;
    }
  return rows.map((row, i) => row[size]! / row[i]!);
}
