// Draws where everything that is bought goes: a stacked bar for each material, and for all of them, with a legend and every share written under its segment.
// Idea: a bar is as wide as the page whatever its amount, since shares are compared. A label stands under the middle of its segment, or beside the next
//   one where that is too near, with a line up to the segment. Each use has a pattern or a lightness of its own, so that grey paper shows it as well.
// Source: our own.
// Cost: linear in the materials.
// Degenerate cases: nothing laid out gives no drawing; what rounds to 0.0 % has no segment; long names are cut short.
import { formatArea, formatRun, formatShare, formatTenths } from '../model/format.ts';
import type { Plan } from '../model/plan.ts';
import {
  YIELD_USES,
  type Yield,
  type YieldKind,
  type YieldUse,
  yieldWord,
} from '../model/yield.ts';
import { type Drawing, group, type Item, type Layer, line, rectangle } from './display-list.ts';
import { type Frame, frameAt, lettering } from './marks.ts';
import { LETTERS, type StyleName } from './styles.ts';
import { plainText, textWidth } from './text.ts';

/** Millimetres of paper. */
const WIDTH = 174;
const KEY = 7;
const HEAD = 4.4;
const BAR = 5;
/** From a narrow segment down to its label, a tick and then a line aslant. */
const LEADER = { tick: 0.7, height: 3 } as const;
const LINE = 2.7;
const GAP = 3;
const PITCH = HEAD + BAR + LEADER.height + 2 * LINE + GAP;
const LABEL_GAP = 2;
const SWATCH = { width: 5.5, height: 2.8, gap: 1.2, after: 4 } as const;

/** More bars than this go into another drawing, so that a page can hold each. */
const MOST_BARS = 10;

interface Look {
  readonly style: StyleName;
  readonly letters: StyleName;
  /** Under letters where lines would cross them. */
  readonly plate: StyleName | null;
}

const LOOKS: Readonly<Record<YieldUse, Look>> = {
  pieces: { style: 'yield-pieces', letters: 'text', plate: null },
  offcuts: { style: 'yield-offcuts', letters: 'text', plate: 'plate-earlier' },
  kerf: { style: 'yield-kerf', letters: 'text-reversed', plate: null },
  trim: { style: 'yield-trim', letters: 'text', plate: 'plate-keep-out' },
  keepOuts: { style: 'keep-out', letters: 'text', plate: 'plate-keep-out' },
  skeleton: { style: 'yield-skeleton', letters: 'text', plate: null },
  loose: { style: 'waste', letters: 'text', plate: 'plate-waste' },
};

interface Bar {
  readonly name: string;
  readonly kind: YieldKind;
  readonly own: Yield;
}

/** In millimetres of paper, as wide as an upright page has room. */
export function drawYieldBars(plan: Plan): readonly Drawing[] {
  const bars = barsOf(plan);
  const pages = Array.from({ length: Math.ceil(bars.length / MOST_BARS) }, (_, i) =>
    bars.slice(i * MOST_BARS, (i + 1) * MOST_BARS),
  );
  return pages.map((page, i) => drawPage(plan, page, i + 1));
}

/** A material with sheets and boards has a bar of each; all together where there are several. */
function barsOf({ job, costs: { yields } }: Plan): readonly Bar[] {
  return (['sheets', 'boards'] as const).flatMap((kind): readonly Bar[] => {
    const own = job.materials.flatMap(({ name, index }): readonly Bar[] => {
      const each = yields.materials[index]![kind];
      return each === null ? [] : [{ name, kind, own: each }];
    });
    const all = yields.job[kind];
    return own.length < 2 || all === null ? own : [...own, { name: `All ${kind}`, kind, own: all }];
  });
}

function drawPage(plan: Plan, bars: readonly Bar[], number: number): Drawing {
  const height = KEY + bars.length * PITCH;
  const paper = frameAt({ x: 0, y: 0 }, 1);
  const chart = bars.flatMap((bar, i) => {
    const frame = frameAt(paper.at(0, height - KEY - i * PITCH), 1);
    return [...drawHead(plan, bar, frame), ...drawBar(bar, frame)];
  });
  const layers: readonly Layer[] = [
    {
      name: 'background',
      groups: [group([rectangle('background', paper.at(0, 0), paper.at(WIDTH, height))])],
    },
    { name: 'legend', groups: [group(drawKey(bars, frameAt(paper.at(0, height), 1)))] },
    { name: 'chart', groups: [group(chart)] },
  ];
  return {
    id: `yield-${number}`,
    title: `Where the stock goes: ${plainText(plan.job.name)}`,
    left: 0,
    bottom: 0,
    width: WIDTH,
    height,
    paperScale: 1,
    toScale: false,
    layers,
  };
}

/** What the patterns mean that occur in these bars. */
function drawKey(bars: readonly Bar[], frame: Frame): Item[] {
  const y = -SWATCH.height;
  let x = 0;
  return YIELD_USES.flatMap((use) => {
    const having = bars.filter(({ own }) => own.tenths[use] > 0);
    if (having.length === 0) return [];
    const text = [...new Set(having.map(({ kind }) => yieldWord(use, kind)))].join(', ');
    const width = textWidth(text, LETTERS.table);
    const from = x;
    x += SWATCH.width + SWATCH.gap + width + SWATCH.after;
    const low = frame.at(from, y - SWATCH.height / 2);
    const high = frame.at(from + SWATCH.width, y + SWATCH.height / 2);
    const how = { style: 'text', size: LETTERS.table, anchor: 'start', maxWidth: width } as const;
    return [
      rectangle(LOOKS[use].style, low, high),
      ...lettering(frame, from + SWATCH.width + SWATCH.gap, y, text, how),
    ];
  });
}

/** The name on the left, how much was bought and both yields on the right; the frame's origin is the upper left corner of the bar's place. */
function drawHead({ job }: Plan, { name, kind, own }: Bar, frame: Frame): Item[] {
  const used = kind === 'sheets' ? 'area used' : 'length used';
  const bought =
    kind === 'sheets' ? formatArea(own.bought, job.unit) : formatRun(own.bought, job.unit);
  const share = formatTenths(own.tenths.pieces);
  const facts = `${bought} · yield on purchase ${share}, on ${used} ${formatShare(own.onUsed)}`;
  const factsWidth = textWidth(facts, LETTERS.table);
  const y = -HEAD / 2;
  return [
    ...lettering(frame, 0, y, plainText(name), {
      style: 'text',
      size: LETTERS.name,
      anchor: 'start',
      maxWidth: WIDTH - factsWidth - 4,
    }),
    ...lettering(frame, WIDTH, y, facts, {
      style: 'text-soft',
      size: LETTERS.table,
      anchor: 'end',
      maxWidth: factsWidth,
    }),
  ];
}

function drawBar({ kind, own }: Bar, frame: Frame): Item[] {
  const segments = segmentsOf(kind, own);
  const narrow = segments.filter((each) => !isInside(each));
  const places = labelPlaces(
    narrow.map(({ from, to }) => (from + to) / 2),
    narrow.map(({ word, share }) => Math.max(widthOf(word), widthOf(share))),
  );
  return [
    ...segments.map(({ use, from, to }) =>
      rectangle(LOOKS[use].style, frame.at(from, -HEAD - BAR), frame.at(to, -HEAD)),
    ),
    ...segments.filter(isInside).flatMap((each) => drawInside(each, frame)),
    ...narrow.flatMap((each, i) => drawUnder(each, places[i]!, frame)),
  ];
}

interface Segment {
  readonly use: YieldUse;
  readonly word: string;
  readonly share: string;
  readonly from: number;
  readonly to: number;
}

function segmentsOf(kind: YieldKind, { tenths }: Yield): readonly Segment[] {
  let to = 0;
  return YIELD_USES.filter((use) => tenths[use] > 0).map((use) => {
    const from = to;
    to += (tenths[use] * WIDTH) / 1000;
    return { use, word: yieldWord(use, kind), share: formatTenths(tenths[use]), from, to };
  });
}

/** Whether the label has room in its segment. */
function isInside({ word, share, from, to }: Segment): boolean {
  return widthOf(`${word} ${share}`) + 4 <= to - from;
}

function drawInside({ use, word, share, from, to }: Segment, frame: Frame): Item[] {
  const { letters, plate } = LOOKS[use];
  const text = `${word} ${share}`;
  const [x, y] = [(from + to) / 2, -HEAD - BAR / 2];
  const [wide, high] = [widthOf(text) / 2 + 1, 1.5];
  return [
    ...(plate === null
      ? []
      : [rectangle(plate, frame.at(x - wide, y - high), frame.at(x + wide, y + high))]),
    ...write(frame, x, y, text, letters),
  ];
}

/** The share, and the word under it. */
function drawUnder({ word, share, from, to }: Segment, x: number, frame: Frame): Item[] {
  const middle = (from + to) / 2;
  const bottom = -HEAD - BAR;
  const [knee, end] = [bottom - LEADER.tick, bottom - LEADER.height];
  return [
    line('dimension', frame.at(middle, bottom), frame.at(middle, knee)),
    line('dimension', frame.at(middle, knee), frame.at(x, end)),
    ...write(frame, x, end - LINE / 2 - 0.2, share, 'text'),
    ...write(frame, x, end - 1.5 * LINE - 0.2, word, 'text-soft'),
  ];
}

function write(frame: Frame, x: number, y: number, text: string, style: StyleName): Item[] {
  const how = { style, size: LETTERS.table, anchor: 'middle', maxWidth: widthOf(text) } as const;
  return lettering(frame, x, y, text, how);
}

function widthOf(text: string): number {
  return textWidth(text, LETTERS.table);
}

/** Middles of the labels: each as near to its segment as those beside it and the edges let it, pushed to the right first and then back. */
function labelPlaces(middles: readonly number[], widths: readonly number[]): readonly number[] {
  const lefts: number[] = [];
  let free = 0;
  middles.forEach((middle, i) => {
    const left = Math.max(free, middle - widths[i]! / 2);
    lefts.push(left);
    free = left + widths[i]! + LABEL_GAP;
  });
  let end = WIDTH;
  for (let i = lefts.length - 1; i >= 0; i--) {
    lefts[i] = Math.min(lefts[i]!, end - widths[i]!);
    end = lefts[i]! - LABEL_GAP;
  }
  return lefts.map((left, i) => left + widths[i]! / 2);
}
