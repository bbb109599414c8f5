import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cuttingOrder, type OrderedPiece, type Standing } from '../../src/holding/cutting-order.ts';

describe('the cutting order', () => {
  it('cuts holes, then cut-outs, then the outline', () => {
    expect(shown([piece(7, { holes: 2, cutOuts: 1 })])).toEqual([
      'hole 7.0',
      'hole 7.1',
      'cut-out 7.0',
      'outline 7.0',
    ]);
  });

  it('cuts what lies in a cut-out before the piece around it, to any depth', () => {
    const nested = [
      piece(0, { cutOuts: 1 }),
      piece(1, { host: 0, cutOuts: 1, at: [900, 0] }),
      piece(2, { host: 1, at: [950, 0] }),
    ];
    expect(outlines(nested)).toEqual([2, 1, 0]);
  });

  it('cuts early pieces first, then weak ones, weakest first, then the rest by the shortest way', () => {
    const pieces = [
      piece(0, { at: [100, 0], margin: 9 }),
      piece(1, { at: [500, 0], margin: 9 }),
      piece(2, { at: [300, 0], margin: 9 }),
      piece(3, { standing: 'weak', margin: 0.9, at: [0, 0] }),
      piece(4, { standing: 'weak', margin: 0.2, at: [700, 0] }),
      piece(5, { standing: 'early', margin: 2.1, at: [600, 0] }),
    ];
    expect(outlines(pieces)).toEqual([5, 4, 3, 0, 2, 1]);
  });

  it('starts with the weakest where all are strong', () => {
    const pieces = [
      piece(0, { at: [0, 0], margin: 9 }),
      piece(1, { at: [100, 0], margin: 3 }),
      piece(2, { at: [150, 0], margin: 5 }),
    ];
    expect(outlines(pieces)).toEqual([1, 2, 0]);
  });

  it('pulls a piece in a cut-out forward with an urgent piece around it', () => {
    const pieces = [
      piece(0, { at: [0, 0] }),
      piece(1, { standing: 'weak', margin: 0.5, at: [500, 0], cutOuts: 1 }),
      piece(2, { host: 1, at: [510, 0] }),
    ];
    expect(outlines(pieces)).toEqual([2, 1, 0]);
  });

  it('keeps its rules, leaves nothing out, and is the same for a mirrored or turned sheet', () => {
    fc.assert(
      fc.property(fc.array(randomPieces, { minLength: 1, maxLength: 12 }), (drafts) => {
        const pieces = drafts.map((draft, i) => {
          const host = draft.host < i && drafts[draft.host]!.cutOuts > 0 ? draft.host : null;
          return piece(i, { ...draft, host });
        });
        const steps = cuttingOrder(pieces);
        const when = (i: number): number =>
          steps.findIndex((step) => step.piece === i && step.kind === 'outline');
        const firstOf = (i: number): number => steps.findIndex((step) => step.piece === i);
        pieces.forEach(({ host, holes, cutOuts }, i) => {
          expect(steps.filter((step) => step.piece === i)).toHaveLength(holes + cutOuts + 1);
          if (host !== null) expect(when(i)).toBeLessThan(firstOf(host));
        });
        const turned = pieces.map((p) => ({ ...p, centre: { x: -p.centre.y, y: p.centre.x } }));
        const mirrored = pieces.map((p) => ({ ...p, centre: { x: -p.centre.x, y: p.centre.y } }));
        expect(cuttingOrder(turned)).toEqual(steps);
        expect(cuttingOrder(mirrored)).toEqual(steps);
      }),
      { seed: 5, numRuns: 200 },
    );
  });
});

const randomPieces = fc.record({
  host: fc.integer({ min: 0, max: 11 }),
  holes: fc.integer({ min: 0, max: 2 }),
  cutOuts: fc.integer({ min: 0, max: 1 }),
  standing: fc.constantFrom<Standing>('early', 'weak', 'strong'),
  margin: fc.integer({ min: 0, max: 20 }),
  at: fc.tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 0, max: 9 })),
});

type Draft = Partial<Omit<OrderedPiece, 'piece' | 'centre'>> & { at?: readonly [number, number] };

function piece(index: number, { at = [0, 0], ...draft }: Draft): OrderedPiece {
  const plain = { holes: 0, cutOuts: 0, host: null, standing: 'strong', margin: 5 } as const;
  return { piece: index, ...plain, ...draft, centre: { x: at[0], y: at[1] } };
}

function shown(pieces: readonly OrderedPiece[]): string[] {
  return cuttingOrder(pieces).map((step) => `${step.kind} ${step.piece}.${step.feature}`);
}

function outlines(pieces: readonly OrderedPiece[]): number[] {
  return cuttingOrder(pieces).flatMap((step) => (step.kind === 'outline' ? [step.piece] : []));
}
