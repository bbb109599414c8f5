import type { Draw } from './draw.ts';
import { oddWord } from './odd-words.ts';

/** The text of an SVG drawing; `odd` is the share of its values that are odd. */
export function drawnSvg(draw: Draw): string {
  const odd = draw.weighed([
    [4, 0],
    [4, 0.02],
    [1, 0.2],
  ]);
  const value = (usual: string) => (draw.chance(odd) ? escaped(oddWord(draw)) : usual);
  const elements = draw.list(1, draw.chance(0.05) ? 30 : 4, (i) => elementText(i, draw, value));
  const size = draw.pick([
    'width="300mm" height="200mm" viewBox="0 0 300 200"',
    'width="12in" height="8in" viewBox="0 0 1200 800"',
    'width="300mm" height="200mm"',
    'viewBox="-10 -10 500 500"',
    'width="100%" height="100%"',
    'width="300" height="200" viewBox="0 0 300 200"',
    'width="30cm" height="20cm" viewBox="0 0 300 200" preserveAspectRatio="none"',
    '',
  ]);
  const head = draw.weighed([
    [8, ''],
    [3, '<?xml version="1.0" encoding="UTF-8"?>\n'],
    [
      1,
      '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">\n',
    ],
    [1, '<!DOCTYPE svg [<!ENTITY a "b"><!ENTITY c "&a;&a;&a;">]>\n'],
    [1, '<?xml-stylesheet href="a.css"?>\n'],
    [1, '\ufeff'],
  ]);
  const name = draw.weighed([
    [20, 'svg'],
    [1, 'svg:svg'],
    [1, 'html'],
  ]);
  return `${head}<${name} xmlns="http://www.w3.org/2000/svg" ${value(size)}>\n${elements.join('\n')}\n</${name}>`;
}

type Value = (usual: string) => string;

function elementText(index: number, draw: Draw, value: Value): string {
  const id = draw.chance(0.2) ? ` id="${value(draw.pick(['p', 'q', 'constructor']))}"` : '';
  const transform = draw.chance(0.25) ? ` transform="${value(transformText(draw))}"` : '';
  const style = draw.chance(0.15)
    ? draw.pick([
        ' style="display:none"',
        ' display="none"',
        ' fill="none"',
        ' visibility="hidden"',
        ' style="transform:scale(2)"',
      ])
    : '';
  const more = `${id}${transform}${style}`;
  // The first is mostly large, so that what follows lies inside.
  const [x, y, w, h] = index === 0 ? [0, 0, 280, 180] : draw.list(4, 4, () => draw.between(5, 90));
  return draw.weighed([
    [
      4,
      () =>
        `<rect x="${value(`${x}`)}" y="${y}" width="${value(`${w}`)}" height="${value(`${h}`)}"${draw.chance(0.2) ? ` rx="${value('9')}"` : ''}${more}/>`,
    ],
    [
      2,
      () =>
        `<circle cx="${value(`${x! + w! / 2}`)}" cy="${y! + h! / 2}" r="${value(`${h! / 2}`)}"${more}/>`,
    ],
    [
      1,
      () =>
        `<ellipse cx="${x! + w! / 2}" cy="${y! + h! / 2}" rx="${value(`${w! / 2}`)}" ry="${value(`${h! / 2}`)}"${more}/>`,
    ],
    [
      2,
      () =>
        `<polygon points="${value(`${x},${y} ${x! + w!},${y} ${x! + w!},${y! + h!} ${x},${y! + h! / 2}`)}"${more}/>`,
    ],
    [
      1,
      () =>
        `<polyline points="${value(`${x} ${y} ${x! + w!} ${y} ${x} ${y! + h!} ${x} ${y}`)}"${more}/>`,
    ],
    [1, () => `<line x1="${x}" y1="${y}" x2="${x! + w!}" y2="${value(`${y! + h!}`)}"${more}/>`],
    [5, () => `<path d="${value(pathText(draw, x!, y!, w!, h!))}"${more}/>`],
    [2, () => `<g${more}>${elementText(index, draw, value)}</g>`],
    [
      1,
      () =>
        draw.pick([
          '<use href="#p"/>',
          '<image href="a.png"/>',
          '<text x="5">A</text>',
          '<script>x</script>',
          '<defs><rect width="5" height="5"/></defs>',
          '<foreignObject/>',
          '<style>rect{}</style>',
          '<!-- a -->',
          '<![CDATA[x]]>',
          '&a;',
          '<symbol><circle r="1"/></symbol>',
          '<title>a</title>',
          '<animate/>',
          '<constructor/>',
          '<svg><rect width="9" height="9"/></svg>',
        ]),
    ],
  ])();
}

/** Path text with any of its commands; closed for the most part. */
export function pathText(draw: Draw, x: number, y: number, w: number, h: number): string {
  if (draw.chance(0.4)) return `M${x} ${y}h${w}v${h}h${-w}z`;
  const number = () =>
    draw.weighed([
      [6, () => String(draw.between(0, 200))],
      [2, () => (draw.below(40_000) / 100 - 100).toFixed(2)],
      [1, () => draw.pick(['.5', '-.5', '1e2', '0', '5.', '1e-9', '1e30', '+3', '0.0001'])],
    ])();
  const counts: Readonly<Record<string, number>> = {
    M: 2,
    L: 2,
    H: 1,
    V: 1,
    C: 6,
    S: 4,
    Q: 4,
    T: 2,
  };
  const command = () => {
    const letter = draw.pick([...Object.keys(counts), 'A', 'A', 'Z']);
    const own = draw.chance(0.5) ? letter : letter.toLowerCase();
    if (letter === 'Z') return own;
    if (letter === 'A')
      return `${own}${number()} ${number()} ${number()} ${draw.below(2)}${draw.pick([' ', ',', ''])}${draw.below(2)} ${number()} ${number()}`;
    return `${own}${Array.from({ length: counts[letter]! }, number).join(draw.pick([' ', ',']))}`;
  };
  return `M${x},${y} ${draw.list(1, 6, command).join(' ')}${draw.chance(0.85) ? 'Z' : ''}`;
}

function transformText(draw: Draw): string {
  const n = () => draw.pick(['0', '1', '-1', '10', '45', '0.5', '-30', '90', '1e-12', '1000']);
  return draw
    .list(1, 3, () =>
      draw.pick([
        `translate(${n()} ${n()})`,
        `rotate(${n()})`,
        `rotate(${n()},${n()},${n()})`,
        `scale(${n()})`,
        `scale(${n()},${n()})`,
        `skewX(${n()})`,
        `skewY(${n()})`,
        `matrix(${n()} ${n()} ${n()} ${n()} ${n()} ${n()})`,
      ]),
    )
    .join(' ');
}

function escaped(text: string): string {
  return text.replaceAll('"', '&quot;').replaceAll('<', '&lt;');
}
