import type { Random } from '../../src/packing/random.ts';

/** A record as its tree, to be changed in place. */
// biome-ignore lint/suspicious/noExplicitAny: a tamper may put anything anywhere
export type Tree = any;

/**
 * One way to make a record untrue. `act` changes the record and says whether it could: only then is it untrue, for the reason in `why`.
 * `codes` are those of which at least one has to be told.
 */
export interface Tamper {
  readonly kind: string;
  readonly why: string;
  readonly codes: readonly string[];
  readonly act: (plan: Tree, random: Random) => boolean;
}

export const TAMPERS: readonly Tamper[] = [
  {
    kind: 'a thousandth too near',
    why: 'the two stood exactly the spacing apart, one above the other',
    codes: ['spacing', 'not-cut-out', 'cut-elsewhere', 'set-gap'],
    act: (plan, random) => {
      const pairs = sheetsOf(plan).flatMap((sheet) => tightPairs(sheet, plan.machine.spacing));
      const pair = pick(pairs, random);
      if (pair !== null) shift(pair, 0, 0.001);
      return pair !== null;
    },
  },
  {
    kind: 'onto another piece',
    why: 'its box and that of another now have the same middle, so both cover that place or lie within one another',
    codes: ['overlap', 'cut-out', 'spacing', 'outside'],
    act: onPlacement((piece, random, sheet) => {
      const other = pick(
        sheet.placements.filter(
          (each: Tree) => each !== piece && each.cutOuts.length === 0 && each.outline.length === 4,
        ),
        random,
      );
      if (other === null || piece.cutOuts.length > 0 || piece.outline.length !== 4) return false;
      const [from, to] = [boxOf(piece), boxOf(other)];
      shift(piece, to.minX - from.minX, to.minY - from.minY);
      return true;
    }),
  },
  {
    kind: 'beyond the trim',
    why: 'it reaches a thousandth or more over the trimmed edge',
    codes: ['outside'],
    act: onPlacement((piece, random, sheet) => {
      const box = boxOf(piece);
      const by = random() < 0.5 ? 0.001 : round(random() * 100 + 0.001);
      const sides = [
        [sheet.trim.left - box.minX - by, 0],
        [sheet.length - sheet.trim.right - box.maxX + by, 0],
        [0, sheet.trim.bottom - box.minY - by],
        [0, sheet.width - sheet.trim.top - box.maxY + by],
      ] as const;
      const [dx, dy] = pick(sides, random)!;
      shift(piece, dx, dy);
      return true;
    }),
  },
  {
    kind: 'onto a keep-out',
    why: 'its lower left corner lies in the middle of the bad place, and it is a rectangle',
    codes: ['keep-out'],
    act: onPlacement((piece, random, sheet) => {
      const place = pick(sheet.keepOuts as Tree[], random);
      if (place === null || piece.outline.length !== 4) return false;
      const { minX, minY } = boxOf(piece);
      shift(piece, place.x + place.length / 2 - minX, place.y + place.width / 2 - minY);
      return true;
    }),
  },
  {
    kind: 'moved without its outline',
    why: 'x or y and the outline say different places',
    codes: ['outline'],
    act: onPlacement((piece, random) => {
      const key = random() < 0.5 ? 'x' : 'y';
      piece[key] = round(piece[key] + (random() < 0.5 ? 0.002 : random() * 50 + 0.002));
      return true;
    }),
  },
  {
    kind: 'off the grid',
    why: 'no base length is so long',
    codes: ['not-whole'],
    act: onPlacement((piece) => {
      piece.x = round(piece.x + 0.00003);
      return true;
    }),
  },
  {
    kind: 'turned',
    why: 'turning about the origin of a part, a corner of its box, moves its outline',
    codes: ['outline', 'turn', 'grain'],
    act: onPlacement((piece, random) => {
      piece.turn = (piece.turn + pick([90, 180, 270, 45, 360], random)!) % 720;
      return true;
    }),
  },
  {
    kind: 'mirrored',
    why: 'mirroring at the origin of a part moves its outline',
    codes: ['outline', 'mirrored'],
    act: onPlacement((piece) => {
      piece.mirrored = !piece.mirrored;
      return true;
    }),
  },
  {
    kind: 'deleted',
    why: 'the job has one more piece',
    codes: ['missing'],
    act: onPlacement((piece, _, sheet) => remove(sheet.placements, piece)),
  },
  {
    kind: 'there twice',
    why: 'there is one such piece only',
    codes: ['twice'],
    act: onPlacement((piece, random, _, plan) => {
      pick(sheetsOf(plan), random)!.placements.push(structuredClone(piece));
      return true;
    }),
  },
  {
    kind: 'two names swapped',
    why: 'pieces of different size do not have one another’s outline',
    codes: ['outline', 'unknown-piece', 'other-material'],
    act: onPlacement((piece, random, sheet) => {
      const others = sheet.placements.filter((each: Tree) => sizeOf(each) !== sizeOf(piece));
      const other = pick<Tree>(others, random);
      if (other === null) return false;
      [piece.part, other.part] = [other.part, piece.part];
      [piece.piece, other.piece] = [other.piece, piece.piece];
      return true;
    }),
  },
  {
    kind: 'on the wrong sheet',
    why: 'a sheet of another material has it',
    codes: ['other-material', 'missing'],
    act: onPlacement((piece, random, sheet, plan) => {
      const own = plan.materials.find((each: Tree) => each.sheets.includes(sheet));
      const others = plan.materials.filter((each: Tree) => each !== own);
      const to = pick<Tree>(
        others.flatMap((each: Tree) => each.sheets),
        random,
      );
      if (to === null) return false;
      remove(sheet.placements, piece);
      to.placements.push(piece);
      return true;
    }),
  },
  {
    kind: 'of no part',
    why: 'the parts file has no such part or no such copy',
    codes: ['unknown-piece'],
    act: onPlacement((piece, random) => {
      if (random() < 0.5) piece.part = `${piece.part}x`;
      else piece.piece = pick([0, -1, 999, 1e15], random);
      return true;
    }),
  },
  {
    kind: 'listed as left out as well',
    why: 'it lies on a sheet',
    codes: ['twice'],
    act: onPlacement(({ part, piece }, _, sheet, plan) => {
      const own = plan.materials.find((each: Tree) => each.sheets.includes(sheet));
      own.unplaced.push({ part, piece, why: 'no-stock' });
      return true;
    }),
  },
  whole('left out, but no such piece', ['unknown-piece'], (plan, random) => {
    const why = pick(['no-room', 'no-stock'], random);
    pick<Tree>(plan.materials, random).unplaced.push({ part: 'Nobody', piece: 1, why });
    return true;
  }),
  whole('a pocket', ['piece'], (plan, random) => {
    const pieces = sheetsOf(plan).flatMap(({ placements }) => placements);
    const piece = pick(
      pieces.filter(({ pockets }) => pockets.length > 0),
      random,
    );
    if (piece === null) return false;
    if (random() < 0.5) piece.pockets[0].depth += 1;
    else piece.pockets[0].outline[0][1] += 0.01;
    return true;
  }),
  {
    kind: 'a corner of an outline',
    why: 'the part has no corner there',
    codes: ['outline'],
    act: onPlacement((piece, random) => {
      const corner = pick<Tree>(pick([piece.outline, ...piece.cutOuts], random), random);
      const axis = random() < 0.5 ? 0 : 1;
      corner[axis] = round(corner[axis] + (random() < 0.5 ? 0.0015 : random() * 20 + 0.0015));
      return true;
    }),
  },
  {
    kind: 'a corner less or a cut-out less',
    why: 'the part has it',
    codes: ['outline'],
    act: onPlacement((piece, random) => {
      const lists = [piece.cutOuts, ...(piece.outline.length > 3 ? [piece.outline] : [])];
      const list = pick(
        lists.filter((each: Tree) => each.length > 0),
        random,
      );
      return list !== null && remove(list, pick<Tree>(list, random));
    }),
  },
  {
    kind: 'a hole',
    why: 'the part has it elsewhere, or of another kind',
    codes: ['piece'],
    act: (plan, random) => {
      const pieces = sheetsOf(plan).flatMap(({ placements }) => placements);
      const piece = pick(
        pieces.filter(({ holes }) => holes.length > 0),
        random,
      );
      const hole = pick<Tree>(piece?.holes ?? [], random);
      if (hole === null) return false;
      const way = pick(['x', 'y', 'diameter', 'depth', 'gone'], random)!;
      if (way === 'gone') return remove(piece.holes, hole);
      hole[way] = hole[way] === 'through' ? 3 : round(hole[way] + 0.01);
      return true;
    },
  },
  {
    kind: 'grain, set or face of a piece',
    why: 'the part and its turn say otherwise',
    codes: ['piece'],
    act: onPlacement((piece, random) => {
      const way = pick(['grainDeg', 'set', 'setOrder', 'face'], random)!;
      if (way === 'face') piece.face = piece.face === 'up' ? 'down' : 'up';
      else if (way === 'grainDeg') piece.grainDeg = piece.grainDeg === 0 ? 90 : 0;
      else piece[way] = (piece[way] ?? 0) + 1;
      return true;
    }),
  },
  claims('used', ['used'], (own, random) => {
    own.used += pick([-1, 1, 0.5, 100], random)!;
  }),
  claims('atLeast above used', ['bound'], (own, random) => {
    own.atLeast = own.used + 1 + Math.floor(random() * 3);
  }),
  claims('atLeast below nothing', ['bound'], (own) => {
    own.atLeast = -1;
  }),
  claims('status', ['status'], (own) => {
    own.status = own.status === 'proved' ? 'limit' : 'proved';
  }),
  claims('proved though the bound is lower', ['status'], (own) => {
    own.status = 'proved';
    own.atLeast = own.used - 1;
  }),
  claims('impossible though all is there', ['status'], (own) => {
    own.status = 'impossible';
  }),
  claims('objective', ['used', 'bound'], (own) => {
    own.objective = own.objective === 'cost' ? 'sheets' : 'cost';
  }),
  claims('thickness', ['material'], (own) => {
    own.thickness += 1;
  }),
  claims('material', ['unknown-material', 'missing'], (own) => {
    own.material += 'x';
  }),
  whole('a material less', ['missing'], (plan, random) =>
    remove(plan.materials, pick<Tree>(plan.materials, random)),
  ),
  whole('a material twice', ['unknown-material', 'twice', 'figure'], (plan, random) => {
    plan.materials.push(structuredClone(pick<Tree>(plan.materials, random)));
    return true;
  }),
  onSheet('a fact of a sheet', ['sheet'], (sheet, random) => {
    const way = pick(['length', 'width', 'trim', 'grainDeg', 'keepOuts', 'boundary'], random)!;
    if (way === 'trim') sheet.trim[pick(['left', 'right', 'bottom', 'top'], random)!] += 0.5;
    else if (way === 'grainDeg') sheet.grainDeg = sheet.grainDeg === 0 ? 90 : 0;
    else if (way === 'keepOuts') {
      if (sheet.keepOuts.length === 0)
        sheet.keepOuts.push({ x: 0, y: 0, length: 1, width: 1, why: '' });
      else sheet.keepOuts.pop();
    } else if (way === 'boundary') sheet.boundary[1][0] -= 1;
    else sheet[way] += 1;
    return true;
  }),
  onSheet('a stock that there is not', ['unknown-stock'], (sheet, random) => {
    if (random() < 0.5) sheet.stock = '9999 x 9999';
    else sheet.rack = 'R99';
    return true;
  }),
  onSheet('the number of a sheet', ['figure', 'holding'], (sheet) => {
    sheet.number += 50;
    return true;
  }),
  onSheet('used length or yield', ['figure'], (sheet, random) => {
    if (random() < 0.5) sheet.usedLength = round(sheet.usedLength - 0.001);
    else sheet.yield = round(sheet.yield + 0.00001);
    return true;
  }),
  onSheet('an empty sheet', ['empty-sheet', 'missing'], (sheet) => {
    sheet.placements = [];
    return true;
  }),
  onSheet('an offcut on a piece', ['offcut'], (sheet, random) => {
    const { minX, minY, maxX, maxY } = boxOf(pick<Tree>(sheet.placements, random));
    const box = { x: minX, y: minY, length: round(maxX - minX), width: round(maxY - minY) };
    sheet.offcuts.push(box);
    return true;
  }),
  onSheet('a larger offcut', ['offcut', 'figure'], (sheet, random) => {
    const offcut = pick<Tree>(sheet.offcuts, random);
    if (offcut === null) return false;
    offcut[pick(['length', 'width'], random)!] += 0.001;
    return true;
  }),
  onSheet('an offcut in the trim', ['offcut'], (sheet) => {
    if (sheet.trim.left === 0) return false;
    sheet.offcuts = [{ x: 0, y: sheet.trim.bottom, length: 1, width: 1 }];
    return true;
  }),
  onSheet('a saw cut', ['cut-elsewhere', 'not-cut-out', 'figure', 'stray-cut'], (sheet, random) => {
    const cut = pick<Tree>(sheet.cuts, random);
    if (cut === null) return false;
    const way = pick(['at', 'panel', 'axis', 'gone', 'setting', 'number'], random)!;
    if (way === 'gone') return remove(sheet.cuts, cut);
    if (way === 'axis') cut.axis = cut.axis === 'along' ? 'across' : 'along';
    else if (way === 'panel') cut.panel.maxX += 1;
    else cut[way] += way === 'at' ? 0.5 : 1;
    return true;
  }),
  onBoard('a length moved', ['overlap', 'kerf', 'outside', 'defect'], (board, random) => {
    const piece = pick<Tree>(board.pieces, random);
    piece.at = pick([-0.001, board.length - piece.length + 0.001], random);
    return board.trim >= 0;
  }),
  onBoard('two lengths in one place', ['overlap'], (board, random) => {
    if (board.pieces.length < 2) return false;
    const i = 1 + Math.floor(random() * (board.pieces.length - 1));
    board.pieces[i].at = board.pieces[i - 1].at;
    return true;
  }),
  onBoard('a length less', ['missing'], (board, random) =>
    remove(board.pieces, pick<Tree>(board.pieces, random)),
  ),
  onBoard('a length twice', ['twice'], (board, random) => {
    board.pieces.push(structuredClone(pick<Tree>(board.pieces, random)));
    return true;
  }),
  onBoard('of another length than its part', ['figure'], (board, random) => {
    pick<Tree>(board.pieces, random).length += 0.5;
    return true;
  }),
  onBoard('a fact of a board', ['unknown-stock', 'figure'], (board, random) => {
    const way = pick(['stock', 'length', 'trim', 'yield', 'number'], random)!;
    if (way === 'stock') board.stock += 'x';
    else board[way] = round(board[way] + (way === 'yield' ? 0.001 : 1));
    return true;
  }),
  onHeld('held, but not there', ['holding'], (loose, random) => {
    if (random() < 0.5) loose.part = 'Nobody';
    else loose.sheet = 99;
    return true;
  }),
  onHeld('a figure of the hold-down', ['figure'], (loose, random) => {
    const ways = [
      'vacuumKpa',
      'holdingForceN',
      'cuttingForceN',
      'margin',
      'marginLow',
      'cutOrder',
      'marginAfter',
      'skinMm',
      'remedySeconds',
    ];
    loose[pick(ways, random)!] += 1;
    return true;
  }),
  onHeld('a verdict or a remedy', ['figure'], (loose, random) => {
    if (random() < 0.5) loose.verdict = loose.verdict === 'stays' ? 'moves' : 'stays';
    else loose.action = loose.action === 'none' ? 'skin' : 'none';
    return true;
  }),
  onHeld(
    'the sheet while pockets are cut, or which cuts a skin is in',
    ['figure'],
    (loose, random) => {
      if (loose.pocketing !== null && random() < 0.5) loose.pocketing.margin += 1;
      else if (random() < 0.5) loose.skinFor = loose.skinFor === null ? 'waste' : null;
      else loose.skinCuts.push(99);
      return true;
    },
  ),
  whole('the hold-down of a piece less', ['figure'], (plan, random) =>
    remove(plan.holding, pick<Tree>(plan.holding, random)),
  ),
  whole('the hold-down of a piece twice', ['holding'], (plan, random) => {
    const loose = pick<Tree>(
      plan.holding.filter(({ kind }: Tree) => kind === 'piece'),
      random,
    );
    if (loose !== null) plan.holding.push(structuredClone(loose));
    return loose !== null;
  }),
  whole('another parts file', ['other-file'], (plan) => {
    plan.partsFileSha256 = plan.partsFileSha256.replace(/^./, (digit: string) =>
      digit === '0' ? '1' : '0',
    );
    return true;
  }),
  whole('another drawing', ['head'], (plan, random) => {
    const drawing = pick<Tree>(plan.drawings, random);
    if (drawing !== null) drawing.sha256 = '0'.repeat(64);
    return drawing !== null;
  }),
  whole('another machine', ['head'], (plan, random) => {
    const way = pick(['kind', 'cut', 'spacing'], random)!;
    if (way === 'kind') plan.machine.kind = plan.machine.kind === 'router' ? 'panel-saw' : 'router';
    else plan.machine[way] += 0.001;
    return true;
  }),
  whole('a price', ['figure'], (plan, random) => {
    const way = pick(['total', 'sheet', 'quote'], random)!;
    if (way === 'total') plan.costs.totalMinor += 1;
    else if (way === 'quote') plan.costs.quote.totalMinor += 1;
    else pick<Tree>(plan.costs.sheets, random).priceMinor += 1;
    return true;
  }),
  whole('a share or a yield', ['figure'], (plan, random) => {
    const way = pick(['shares', 'job', 'material', 'weight', 'length'], random)!;
    if (way === 'shares') pick<Tree>(plan.costs.sheets, random).shares.kerf += 0.0001;
    else if (way === 'job') plan.yields.job.sheets.yieldOnUsed += 0.0001;
    else if (way === 'material')
      pick<Tree>(
        plan.yields.materials.filter((each: Tree) => each.sheets),
        random,
      ).sheets.percent.pieces += 0.1;
    else if (way === 'weight') pick<Tree>(plan.costs.sheets, random).weightKg += 0.01;
    else plan.costs.cutLengthMm += 1;
    return true;
  }),
];

/** One of a list; null of an empty one. */
export function pick<T>(list: readonly T[], random: Random): T | null {
  return list[Math.floor(random() * list.length)] ?? null;
}

function whole(kind: string, codes: readonly string[], act: Tamper['act']): Tamper {
  return { kind, why: 'the job and its layout say otherwise', codes, act };
}

function onPlacement(
  act: (piece: Tree, random: Random, sheet: Tree, plan: Tree) => boolean,
): Tamper['act'] {
  return (plan, random) => {
    const sheet = pick(sheetsOf(plan), random)!;
    return act(pick(sheet.placements, random), random, sheet, plan);
  };
}

function onSheet(
  kind: string,
  codes: readonly string[],
  act: (sheet: Tree, random: Random) => boolean,
): Tamper {
  return whole(kind, codes, (plan, random) => act(pick(sheetsOf(plan), random), random));
}

function onBoard(
  kind: string,
  codes: readonly string[],
  act: (board: Tree, random: Random) => boolean,
): Tamper {
  return whole(kind, codes, (plan, random) => {
    const board = pick<Tree>(
      plan.materials.flatMap((each: Tree) => each.boards),
      random,
    );
    return board !== null && act(board, random);
  });
}

function onHeld(
  kind: string,
  codes: readonly string[],
  act: (loose: Tree, random: Random) => boolean,
): Tamper {
  return whole(kind, codes, (plan, random) => {
    const loose = pick<Tree>(plan.holding, random);
    return loose !== null && act(loose, random);
  });
}

/** A false word of a material about itself; where pieces are left out, a bound may be above what is used, and the stock too little. */
function claims(
  kind: string,
  codes: readonly string[],
  act: (material: Tree, random: Random) => void,
): Tamper {
  return whole(kind, codes, (plan, random) => {
    const complete = plan.materials.filter((each: Tree) => each.unplaced.length === 0);
    const material = pick(complete, random);
    if (material !== null) act(material, random);
    return material !== null;
  });
}

function sheetsOf(plan: Tree): Tree[] {
  return plan.materials.flatMap((each: Tree) => each.sheets);
}

/** Pieces with a rectangle exactly the spacing above them. */
function tightPairs({ placements }: Tree, spacing: number): Tree[] {
  const rectangles = placements.filter((each: Tree) => each.outline.length === 4);
  return rectangles.filter((piece: Tree) => {
    const own = boxOf(piece);
    return rectangles.some((each: Tree) => {
      const other = boxOf(each);
      const isBeside = own.minX < other.maxX && other.minX < own.maxX;
      return isBeside && round(other.minY - own.maxY) === spacing;
    });
  });
}

/** Moves a piece with all that is drawn of it, so that it is true in itself. */
function shift(piece: Tree, dx: number, dy: number): void {
  const move = (corner: Tree) => {
    corner[0] = round(corner[0] + dx);
    corner[1] = round(corner[1] + dy);
  };
  const rings = [
    piece.outline,
    ...piece.cutOuts,
    ...piece.pockets.map((each: Tree) => each.outline),
  ];
  for (const ring of rings) ring.forEach(move);
  for (const each of [piece, ...piece.holes]) {
    each.x = round(each.x + dx);
    each.y = round(each.y + dy);
  }
}

function boxOf({ outline }: Tree) {
  const [xs, ys] = [outline.map(([x]: Tree) => x), outline.map(([, y]: Tree) => y)];
  return {
    minX: Math.min(...xs),
    minY: Math.min(...ys),
    maxX: Math.max(...xs),
    maxY: Math.max(...ys),
  };
}

function sizeOf(piece: Tree): string {
  const { minX, minY, maxX, maxY } = boxOf(piece);
  return [round(maxX - minX), round(maxY - minY)].sort((a, b) => a - b).join(' x ');
}

function round(mm: number): number {
  return Math.round(mm * 1e6) / 1e6;
}

function remove(list: Tree[], item: Tree): boolean {
  const at = list.indexOf(item);
  if (at >= 0) list.splice(at, 1);
  return at >= 0;
}
