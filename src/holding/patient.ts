import type { Box } from '../geometry/box.ts';
import type { Region } from '../geometry/shape.ts';
import type { Action, Holding, LooseKind, Tab, Verdict } from '../model/holding.ts';
import type { FileUnit } from '../model/job.ts';
import type { Body } from './body.ts';
import type { TabSite } from './tab-places.ts';
import { verdictOf } from './verdict.ts';

/** A loose thing and what of its sheet a remedy needs to know. */
export interface Patient {
  readonly kind: LooseKind;
  readonly body: Body;
  readonly region: Region;
  readonly site: TabSite;
  /** The whole sheet, which skins and tabs tie the thing to. */
  readonly sheet: Body;
  /** Whether by then so little of the vacuum is left that the sheet itself holds nothing. */
  readonly isSheetLost: boolean;
  /** Kerf that is open on the sheet when everything is cut. */
  readonly wholeKerfMm: number;
  /** What leaving a skin and taking it off costs, s; null where no skin can be left. */
  readonly skinS: number | null;
  /** The unit in which tabs get round sizes. */
  readonly unit: FileUnit;
}

export interface Remedy {
  readonly action: Action;
  readonly margin: number;
  readonly marginLow: number;
  readonly verdict: Verdict;
  /** What it costs, s. */
  readonly seconds: number;
  /** Base lengths; 0 without a skin. */
  readonly skin: number;
  readonly skinFor: Holding['skinFor'];
  readonly tabs: readonly Tab[];
  /** What keeps it from holding more: itself, the light pass that ends it, or the sheet that it ties to. */
  readonly limit: 'own' | 'last pass' | 'sheet';
  /** Whether tabs stand on an edge that is seen later. */
  readonly onShow: boolean;
  /** Null without a clamp. */
  readonly clamp: Box | null;
}

/** A remedy with its verdict; what is left out is not part of it. */
export function remedyOf(
  action: Action,
  margins: { readonly margin: number; readonly marginLow: number },
  seconds: number,
  means: Partial<Pick<Remedy, 'skin' | 'skinFor' | 'tabs' | 'clamp' | 'limit' | 'onShow'>> = {},
): Remedy {
  const { margin, marginLow } = margins;
  const verdict = verdictOf(margin, marginLow);
  const none = {
    skin: 0,
    skinFor: null,
    tabs: [],
    limit: 'own',
    onShow: false,
    clamp: null,
  } as const;
  return { action, margin, marginLow, verdict, seconds, ...none, ...means };
}
