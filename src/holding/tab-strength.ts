/**
 * What a tab can take, and how tabs share a load.
 *
 * A tab is a short beam across the kerf, held at both ends: it bends in the plane of the sheet or
 * out of it, is pulled, or shears; the weakest counts, at 0.8 of the standard strength. The thing
 * on its tabs is a rigid body on equal springs: a push is shared evenly, its moment about the
 * middle of the tabs by distance, and the tab that carries most decides. About a side over which
 * the thing tips, each tab pulls in proportion to its distance from it.
 * Source: beam held at both ends, one of which moves sideways; shear as in Eurocode 5 (from memory); strengths as in the table of constants.
 */
import type { Point } from '../geometry/point.ts';
import type { Ring } from '../geometry/shape.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { leftOfLineMm, type Tip } from './body.ts';
import { CONSTANTS, type Strength } from './constants.ts';
import type { Push } from './cutting-force.ts';
import type { Load } from './margins.ts';

/** Sizes in mm: along the cut, from the table up, and across the kerf. */
export interface TabSize {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly kerfMm: number;
}

/** Most force on one tab in the plane of the sheet, N. */
export function tabPushN(size: TabSize, strength: Strength): number {
  const { tensionMpa, panelShearMpa, bendingMpa } = strength;
  return (
    CONSTANTS.strengthShare.value *
    Math.min(
      tabBendingN(bendingMpa, size.heightMm, size.widthMm, size.kerfMm),
      tabSectionN(tensionMpa, size),
      tabShearN(panelShearMpa, size),
    )
  );
}

/** Most upward force on one tab, N. */
export function tabLiftN(size: TabSize, strength: Strength): number {
  const { planarShearMpa, bendingMpa } = strength;
  return (
    CONSTANTS.strengthShare.value *
    Math.min(
      tabBendingN(bendingMpa, size.widthMm, size.heightMm, size.kerfMm),
      tabShearN(planarShearMpa, size),
    )
  );
}

/** Force that bends a tab to its strength; `deepMm` is its measure in the direction of the force. */
export function tabBendingN(
  strengthMpa: number,
  wideMm: number,
  deepMm: number,
  kerfMm: number,
): number {
  return (strengthMpa * wideMm * deepMm * deepMm) / (3 * kerfMm);
}

/** Force that shears a tab off: in a bent beam of rectangular section the stress in the middle is half as much again as the mean. */
function tabShearN(strengthMpa: number, size: TabSize): number {
  return tabSectionN(strengthMpa, size) / 1.5;
}

/** Force that breaks a section with the same stress all over, as a pull does. */
export function tabSectionN(strengthMpa: number, { widthMm, heightMm }: TabSize): number {
  return strengthMpa * widthMm * heightMm;
}

/** Least number of tabs for a push that friction does not take, were it shared evenly. */
export function tabCount(demandN: number, frictionN: number, tabN: number): number {
  return Math.max(0, Math.ceil((demandN - frictionN) / tabN));
}

/**
 * How many times the load may grow before the worst tab gives way in the plane of the sheet. The
 * cutter acts at the corners of `ring`, along either side that meets there, its push in either
 * sense along the cut and across it.
 */
export function tabSlipMargin(
  tabs: readonly Point[],
  ring: Ring,
  load: Load,
  tabN: number,
): number {
  const middle = middleOf(tabs);
  const reaches = tabs.map((tab) => vectorMm(middle, tab));
  const stiffness = reaches.reduce((sum, { x, y }) => sum + x * x + y * y, 0);
  let mostN = 0;
  ring.forEach((from, i) => {
    const to = ring[(i + 1) % ring.length] as Point;
    for (const push of load.pushes.flatMap((each) => sensesOf(each, from, to))) {
      for (const end of [from, to]) {
        const arm = vectorMm(middle, end);
        const twist = (arm.x * push.y - arm.y * push.x) / stiffness;
        for (const { x, y } of reaches) {
          const shareX = push.x / tabs.length - twist * y;
          const shareY = push.y / tabs.length + twist * x;
          mostN = Math.max(mostN, Math.sqrt(shareX * shareX + shareY * shareY));
        }
      }
    }
  });
  return tabN / mostN;
}

/** Moment about a side of the hull that the tabs can take before the farthest gives way, N mm. */
export function tabTipNmm(tabs: readonly Point[], tip: Tip, tabN: number): number {
  const reaches = tabs.map((tab) => Math.max(0, leftOfLineMm(tab, tip.from, tip.to)));
  const farthest = Math.max(...reaches);
  if (farthest <= 0) return 0;
  return (tabN * reaches.reduce((sum, reach) => sum + reach * reach, 0)) / farthest;
}

export const LEAST_TABS = 2;

/** At least two tabs, three for a thing with more or fewer than four corners. */
export function fewestTabs(ring: Ring): number {
  return ring.length === 4 ? LEAST_TABS : LEAST_TABS + 1;
}

function middleOf(points: readonly Point[]): Point {
  const sum = points.reduce((a, p) => ({ x: a.x + p.x, y: a.y + p.y }), { x: 0, y: 0 });
  return { x: sum.x / points.length, y: sum.y / points.length };
}

/** A push along a side as a vector, in both senses along it; turning both parts round gives the same share on every tab. */
function sensesOf({ alongN, acrossN }: Push, from: Point, to: Point): Point[] {
  const side = vectorMm(from, to);
  const length = Math.sqrt(side.x * side.x + side.y * side.y);
  const [ux, uy] = [side.x / length, side.y / length];
  return [alongN, -alongN].map((along) => ({
    x: along * ux - acrossN * uy,
    y: along * uy + acrossN * ux,
  }));
}

function vectorMm(from: Point, to: Point): Point {
  return { x: (to.x - from.x) / UNITS_PER_MM, y: (to.y - from.y) / UNITS_PER_MM };
}
