import type { PanelSaw } from '../model/machine.ts';
import type { Part } from '../model/part.ts';
import type { Material } from '../model/stock.ts';
import { showLength, showSize } from './lengths.ts';
import { child, type Field, keySpot } from './tree.ts';
import type { Reading } from './values.ts';

/** What a saw cannot do, and what it does otherwise than the file may hope. */
export function checkSawnParts(
  parts: readonly Part[],
  { kerf }: PanelSaw,
  { unit, report }: Reading,
): void {
  for (const { name, width, height, rectangular, shape, place } of parts) {
    const spot = { place, path: 'parts' };
    if (Math.min(width, height) < kerf) {
      const message = `${name}, ${showSize(width, height, unit)}, is thinner than the kerf of ${showLength(kerf, unit)}`;
      report.error(spot, 'thinner-than-kerf', message, 'is the size right, and the unit?');
    } else if (!rectangular || shape.inner.length > 0) {
      const message = `the saw cuts ${name} as a rectangle of ${showSize(width, height, unit)}`;
      const hint = 'cut its outline and its openings afterwards';
      report.warning(spot, 'sawn-as-rectangle', message, hint);
    }
  }
}

/** A stack that is lower than a single sheet is hardly what was meant: the sheets are cut one at a time then. */
export function checkStack(
  root: Field,
  parts: readonly Part[],
  materials: readonly Material[],
  { stackHeight }: PanelSaw,
  { unit, report }: Reading,
): void {
  const machine = child(root, 'machine');
  if (machine === null || stackHeight === null) return;
  const thick = materials.find(
    ({ thickness }, i) => thickness > stackHeight && parts.some(({ material }) => material === i),
  );
  if (thick === undefined) return;
  const message = `a stack of ${showLength(stackHeight, unit)} is lower than one sheet of ${thick.name}, ${showLength(thick.thickness, unit)}`;
  const hint = 'is it right, and the unit? the sheets are cut one at a time';
  report.warning(keySpot(machine, 'stack'), 'stack-too-low', message, hint);
}

/** At a saw nothing lies under vacuum: what the file says of it is not looked at, which has to be told. */
export function checkIdleKeys(root: Field, { report }: Reading): void {
  const limits = child(root, 'limits');
  const idle = [
    ...(child(root, 'table') === null ? [] : [{ field: root, key: 'table' }]),
    ...(limits === null || child(limits, 'holding') === null
      ? []
      : [{ field: limits, key: 'holding' }]),
  ];
  for (const { field, key } of idle) {
    const message = `nothing is held by vacuum at a panel saw: ${key} is not looked at`;
    report.warning(
      keySpot(field, key),
      'misplaced-key',
      message,
      `write kind: router, or take ${key} out`,
    );
  }
}
