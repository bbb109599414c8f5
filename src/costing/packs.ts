import type { PackSurplus } from '../model/costs.ts';
import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import { soldBy } from '../model/stock.ts';

/** Whole sheets that are bought and not cut, because they are sold in packs only. */
export function packSurplus(job: Job, layouts: readonly Layout[]): readonly PackSurplus[] {
  return layouts.flatMap(({ material, sheets }) =>
    job.materials[material]!.sheets.flatMap((own) => {
      const { index, priceCents } = own;
      const taken = sheets.filter(({ stock }) => stock === index).length;
      const pack = soldBy(own);
      const count = (pack - (taken % pack)) % pack;
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
