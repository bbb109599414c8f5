import { holeTexts, pocketTexts } from '../../drawing/depth-texts.ts';
import { middleOf } from '../../drawing/outline.ts';
import { AFTERWARDS, isCutAfterwards, isCutOtherwise } from '../../drawing/saw-texts.ts';
import { placeText } from '../../drawing/sheet-table.ts';
import type { LaidPiece, SheetView } from '../../drawing/sheet-view.ts';
import { plainText } from '../../drawing/text.ts';
import { formatForce, formatLength, formatSize, joinedLengths } from '../../model/format.ts';
import { adviceOf, type Holding } from '../../model/holding.ts';
import type { FileUnit } from '../../model/job.ts';
import { type Part, SIDES } from '../../model/part.ts';
import { formatVacuum } from '../../model/readings.ts';
import { ADVICE_WORDS, adviceSentence } from '../wording.ts';
import type { PieceData, VerdictData } from './page-data.ts';

type Fact = readonly [string, string];

/** The size as it is said beside the drawing: finished at a router, at a saw as cut. */
export function sizeText({ measures }: LaidPiece, unit: FileUnit): string {
  return joinedLengths(measures, unit);
}

/** Everything that is said of a piece but its name, its size and its reckoning, in the order in which it is asked. */
export function pieceFacts(view: SheetView, laid: LaidPiece): readonly Fact[] {
  const { unit } = view.job;
  const { part, piece } = laid;
  return [
    ...otherSize(view, part),
    ['Piece', laid.count.replace('/', ' of ')],
    ['Material', plainText(view.material.name)],
    ['Thickness', formatLength(view.material.thickness, unit)],
    ['Sheet', `${view.number} of ${view.of}`],
    ['Order', orderText(view, laid)],
    ...setFact(view, laid),
    ...remedyFacts(laid.holding, unit),
    ['Place', placeOf(laid, unit)],
    ['Grain', grainText(laid)],
    ...bandFact(part, unit),
    ...featureFacts(part, unit),
    ...(part.group === null ? [] : [['Group', plainText(part.group)] as const]),
    ...(part.note === null ? [] : [['Note', plainText(part.note)] as const]),
    ...(piece.set === null && part.showEdges.length > 0
      ? [['Seen edges', part.showEdges.join(', ')] as const]
      : []),
  ];
}

/** What a person does about the piece, said in whole sentences. */
export function todoTexts(view: SheetView, { holding, part }: LaidPiece): PieceData['todo'] {
  if (view.sawing !== null && isCutAfterwards(part)) return [capital(`${AFTERWARDS}.`)];
  if (holding === null) return [];
  const advice = adviceOf(holding);
  return advice === 'none' ? [] : [adviceSentence(advice)];
}

export function verdictOf({ holding }: LaidPiece): VerdictData | null {
  if (holding === null) return null;
  const { verdict, margin, marginLow, action, marginAfter, verdictAfter, why } = holding;
  return {
    word: verdict,
    margin: `margin ${margin.toFixed(2)}, at the low end ${marginLow.toFixed(2)}`,
    after:
      action === 'none'
        ? null
        : `With ${ADVICE_WORDS[action]}: ${verdictAfter}, margin ${marginAfter.toFixed(2)}`,
    why,
  };
}

function otherSize({ job }: SheetView, part: Part): readonly Fact[] {
  if (!isCutOtherwise(part)) return [];
  return job.machine.kind === 'router'
    ? [['Cut to', formatSize(part.width, part.height, job.unit)]]
    : [['Finished', formatSize(part.finishedWidth, part.finishedHeight, job.unit)]];
}

function orderText({ sawing, pieces, waste }: SheetView, { holding, doneBy }: LaidPiece): string {
  if (holding !== null) {
    const last = Math.max(...[...pieces, ...waste].map((thing) => thing.holding?.cutOrder ?? 0));
    return `number ${holding.cutOrder} of ${last} to come free`;
  }
  if (sawing === null || doneBy === null) return 'not cut';
  return `done by cut ${doneBy} of ${sawing.steps.length}`;
}

function setFact({ job }: SheetView, { piece, setTag }: LaidPiece): readonly Fact[] {
  if (piece.set === null || setTag === null) return [];
  const { name, pieces } = job.sets[piece.set]!;
  const place = `${setTag}: place ${piece.setOrder} of ${pieces.length} in ${plainText(name)}`;
  return [['Matched set', `${place}; keep them in order`]];
}

function remedyFacts(holding: Holding | null, unit: FileUnit): readonly Fact[] {
  if (holding === null) return [];
  const { tabs, skin, clamp, vacuumKpa, holdingForceN, cuttingForceN } = holding;
  const [tab] = tabs;
  const ofTabs =
    tab === undefined
      ? []
      : [
          [
            'Tabs',
            `${tabs.length} of ${formatSize(tab.width, tab.height, unit)} (width × height) at ${tabs.map(({ at }) => placeText(unit, at)).join(' ')}`,
          ] as const,
        ];
  return [
    ...ofTabs,
    ...(skin > 0 ? [['Skin', formatLength(skin, unit)] as const] : []),
    ...(clamp === null ? [] : [['Middle of clamp', placeText(unit, middleOf(clamp))] as const]),
    ['Vacuum here', formatVacuum(vacuumKpa, unit)],
    [
      'Forces',
      `held down by ${formatForce(holdingForceN, unit)}, pushed by ${formatForce(cuttingForceN, unit)} when it is cut free`,
    ],
  ];
}

function placeOf({ box, placement: { turn, mirrored } }: LaidPiece, unit: FileUnit): string {
  const corner = `lower left corner at ${placeText(unit, { x: box.minX, y: box.minY })}`;
  const turned = turn === 0 ? '' : `, turned ${turn}°`;
  return `${corner}${turned}${mirrored ? ', mirrored: good face down' : ''}`;
}

function grainText({ part: { grain }, measures }: LaidPiece): string {
  if (grain === 'any') return 'of no account';
  return `along the ${measures[grain === 'along' ? 0 : 1]}`;
}

function bandFact({ edgeBands }: Part, unit: FileUnit): readonly Fact[] {
  const sides = SIDES.filter((side) => edgeBands[side] > 0);
  if (sides.length === 0) return [];
  const texts = sides.map((side) => `${side} ${formatLength(edgeBands[side], unit)}`);
  return [['Edge bands', texts.join(', ')]];
}

function featureFacts({ holes, pockets, shape }: Part, unit: FileUnit): readonly Fact[] {
  const fact = (name: string, texts: readonly string[]): readonly Fact[] =>
    texts.length === 0 ? [] : [[name, texts.join('; ')]];
  return [
    ...fact('Holes', holeTexts(holes, unit)),
    ...fact('Pockets', pocketTexts(pockets, unit)),
    ...fact('Cut-outs', shape.inner.length === 0 ? [] : [`${shape.inner.length}`]),
  ];
}

function capital(text: string): string {
  return `${text[0]!.toUpperCase()}${text.slice(1)}`;
}
