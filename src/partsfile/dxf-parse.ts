import library, {
  type IArcEntity,
  type IEntity,
  type IInsertEntity,
  type ILineEntity,
  type ILwpolylineEntity,
  type IPolylineEntity,
  type DxfParser as Parser,
} from 'dxf-parser';
import { BODIES } from './dxf-screen.ts';
import type { Fault } from './fault.ts';

/** What the library makes of a kind of entity, or all its groups where the library would lose some of them. */
export type DxfEntity = (
  | (ILineEntity & { readonly type: 'LINE' })
  | (IArcEntity & { readonly type: 'ARC' })
  | (ILwpolylineEntity & { readonly type: 'LWPOLYLINE' })
  | (IPolylineEntity & { readonly type: 'POLYLINE' })
  | (IInsertEntity & { readonly type: 'INSERT' })
  | DxfGroups
) & { readonly layer?: string; readonly visible?: boolean; readonly inPaperSpace?: boolean };

export interface DxfGroups {
  readonly type: (typeof KEPT_WHOLE)[number];
  /** The line of the drawing at which it begins. */
  readonly handle: number;
  readonly groups: readonly (readonly [code: number, value: number])[];
}

export interface DxfBlock {
  readonly name: string;
  readonly base: { readonly x: number; readonly y: number };
  readonly entities: readonly DxfEntity[];
  /** Another drawing stands in its place. */
  readonly isOutside: boolean;
}

export interface DxfContent {
  /** By their names in small letters: DXF does not tell small from capital. */
  readonly blocks: ReadonlyMap<string, DxfBlock>;
  readonly entities: readonly DxfEntity[];
}

/** The library forgets which way circles and ellipses face, and the weights of splines; of bodies only the layer is wanted. */
const KEPT_WHOLE = ['CIRCLE', 'ELLIPSE', 'SPLINE', ...BODIES] as const;

/** The flags of a block that is a reference to another file. */
const OUTSIDE = 4 | 8;

/** The package gives its class itself where its types promise a module with the class in it. */
const DxfParser = library as unknown as new () => Parser;

/** Reads what `screenDxf` has let through. */
export function parseDxf(screened: string): DxfContent | Fault {
  const parser = new DxfParser();
  for (const name of KEPT_WHOLE) parser.registerEntityHandler(keeping(name));
  try {
    const dxf = parser.parseSync(screened);
    const blocks = Object.values(dxf?.blocks ?? {}).map(({ name, position, entities, type }) => ({
      name,
      base: { x: position?.x ?? 0, y: position?.y ?? 0 },
      entities: (entities ?? []) as unknown as readonly DxfEntity[],
      isOutside: ((type ?? 0) & OUTSIDE) !== 0,
    }));
    return {
      blocks: new Map(blocks.map((block) => [block.name.toLowerCase(), block])),
      entities: (dxf?.entities ?? []) as unknown as readonly DxfEntity[],
    };
  } catch (error) {
    // The library throws plain texts about groups that do not follow one another as they should.
    const message = `the drawing is not sound: ${error instanceof Error ? error.message : error}`;
    return { code: 'drawing-broken', message, hint: 'save it anew as an ASCII DXF drawing' };
  }
}

interface Scanner {
  next(): { readonly code: number; readonly value: number | string | boolean };
  isEOF(): boolean;
}

/** The library wants a class for each kind. */
function keeping(name: (typeof KEPT_WHOLE)[number]) {
  return class {
    // The library's type lists the kinds that it knows itself.
    readonly ForEntityName = name as 'CIRCLE';

    parseEntity(scanner: Scanner) {
      const entity: Record<string, unknown> = { type: name };
      const groups: [number, unknown][] = [];
      for (let group = scanner.next(); group.code !== 0; group = scanner.next()) {
        if (group.code === 5) entity.handle = group.value;
        if (group.code === 8) entity.layer = group.value;
        if (group.code === 60) entity.visible = group.value === 0;
        if (group.code === 67) entity.inPaperSpace = group.value !== 0;
        groups.push([group.code, group.value]);
      }
      return { ...entity, groups } as unknown as IEntity;
    }
  };
}
