import type { PackSurplus } from '../model/costs.ts';
import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';

/** Whole sheets that are bought and not cut, because they are sold in packs only. What is on hand is not bought. */
export function packSurplus(job: Job, layouts: readonly Layout[]): readonly PackSurplus[] {
  return layouts.flatMap(({ material, sheets }) =>
    job.materials[material]!.sheets.flatMap(({ index, pack, onHand, priceCents }) => {
      const taken = sheets.filter(({ stock }) => stock === index).length;
      const count = onHand === null ? (pack - (taken % pack)) % pack : 0;
      if (count === 0) return [];
      return [
        {
          material,
          stock: index,
          count,
          priceCents: priceCents === null ? null : count * priceCents,
        },
      ];
    }),
  );
}
