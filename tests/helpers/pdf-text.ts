import { inflateSync } from 'node:zlib';

/** The written text of each page of a PDF file with one embedded font, all that it draws, and the size of each page in points. */
export interface PdfPage {
  readonly text: string;
  readonly content: string;
  readonly width: number;
  readonly height: number;
}

/** Reads what our own writer makes: objects in a row, streams deflated, text as glyph numbers with a table back to letters. */
export function readPdf(bytes: Uint8Array): readonly PdfPage[] {
  const objects = readObjects(Buffer.from(bytes).toString('latin1'));
  const letters = readLetters(objects);
  return [...objects.values()]
    .filter(({ head }) => /\/Type \/Page\b(?!s)/.test(head))
    .map(({ head }) => {
      const [, width = '', height = ''] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(head) ?? [];
      const [contents = ''] = /\/Contents (\[[^\]]*\]|\d+ 0 R)/.exec(head) ?? [];
      const content = [...contents.matchAll(/(\d+) 0 R/g)]
        .map(([, number = '']) => objects.get(number)?.stream ?? '')
        .join('');
      return {
        text: readText(content, letters),
        content,
        width: Number(width),
        height: Number(height),
      };
    });
}

interface PdfObject {
  readonly head: string;
  readonly stream: string;
}

function readObjects(file: string): ReadonlyMap<string, PdfObject> {
  const objects = new Map<string, PdfObject>();
  for (const [, number = '', body = ''] of file.matchAll(/(\d+) 0 obj\n(.*?)\nendobj/gs)) {
    const start = body.indexOf('stream\n');
    const head = start < 0 ? body : body.slice(0, start);
    const raw = start < 0 ? '' : body.slice(start + 7, body.lastIndexOf('\nendstream'));
    const stream = head.includes('/FlateDecode')
      ? inflateSync(Buffer.from(raw, 'latin1')).toString('latin1')
      : raw;
    objects.set(number, { head, stream });
  }
  return objects;
}

/** Glyph number, in four hexadecimal digits, to letters. */
function readLetters(objects: ReadonlyMap<string, PdfObject>): ReadonlyMap<string, string> {
  const letters = new Map<string, string>();
  const map = [...objects.values()].find(({ stream }) => stream.includes('beginbfrange'));
  const ranges = map?.stream.matchAll(/<([\da-f]+)> <[\da-f]+> \[(.*?)\]/gs) ?? [];
  for (const [, first = '', list = ''] of ranges) {
    [...list.matchAll(/<([\da-f ]+)>/g)].forEach(([, hex = ''], i) => {
      const glyph = (Number.parseInt(first, 16) + i).toString(16).padStart(4, '0');
      const bytes = Buffer.from(hex.replace(/ /g, ''), 'hex');
      letters.set(glyph, bytes.swap16().toString('utf16le'));
    });
  }
  return letters;
}

/** One line of text a show operator. */
function readText(content: string, letters: ReadonlyMap<string, string>): string {
  return [...content.matchAll(/\[(.*?)\] TJ/g)]
    .map(([, shown = '']) =>
      [...shown.matchAll(/<([\da-f]+)>/g)]
        .flatMap(([, hex = '']) => hex.match(/.{4}/g) ?? [])
        .map((glyph) => letters.get(glyph) ?? '\ufffd')
        .join(''),
    )
    .join('\n');
}
