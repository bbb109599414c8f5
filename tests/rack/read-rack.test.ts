import { describe, expect, it } from 'vitest';
import { fromMm } from '../../src/model/units.ts';
import { readRack } from '../../src/rack/read-rack.ts';
import { smallRack } from './racks.ts';

describe('a rack file', () => {
  it('reads sizes, grain and state, and takes each offcut as one sheet that costs nothing', () => {
    const { rack, problems } = readRack(
      smallRack(
        '  - { id: R9, material: mdf, thickness: 12, size: 600 x 600, grain: second, trim: 5, price: 3.50, state: used, used-by: { job: Box, date: 2026-03-31 } }\ncurrency: EUR\n',
      ),
    );
    expect(problems).toEqual([]);
    expect(rack?.nextNumber).toBe(10);
    expect(rack?.entries.map(({ id, used }) => [id, used?.job ?? null])).toEqual([
      ['R1', null],
      ['R2', null],
      ['R9', 'Box'],
    ]);
    const [first, second, third] = rack?.entries ?? [];
    expect(first?.stock).toMatchObject({
      length: fromMm(800),
      width: fromMm(400),
      grainAxis: 'x',
      onHand: 1,
      priceCents: 0,
      rack: 'R1',
    });
    expect(second?.stock.grainAxis).toBe(null);
    expect(second?.note).toBe('bruised');
    expect(third?.stock).toMatchObject({ grainAxis: 'y', priceCents: 350 });
    expect(third?.stock.trim.top).toBe(fromMm(5));
  });

  it.each([
    ['Windows line ends', smallRack().replaceAll('\n', '\r\n')],
    ['a byte order mark', `\ufeff${smallRack()}`],
    [
      'inches',
      smallRack()
        .replace('unit: mm', 'unit: in')
        .replace('800 x 400', '31-1/2 x 15 3/4')
        .replace('300 x 500', '12 x 20'),
    ],
    ['no list', 'format: holdfast-rack/1\nunit: mm\n'],
    ['an empty list', 'format: holdfast-rack/1\nunit: mm\noffcuts:\n'],
  ])('reads %s', (_, text) => {
    expect(readRack(text).problems).toEqual([]);
    expect(readRack(text).rack).not.toBe(null);
  });

  it.each([
    ['an empty file', '', '1:1', 'empty-file', /offcuts add makes a new one/],
    ['broken YAML', smallRack('  - { id: R3, material: [ply\n'), '12:25', 'yaml-syntax', null],
    ['no text', `\0${smallRack()}`, '1:1', 'not-text', /rack file/],
    ['another format', smallRack().replace('rack/1', 'rack/7'), '2:9', 'unknown-word', /rack\/1/],
    [
      'no format',
      smallRack().replace('format: holdfast-rack/1\n', ''),
      '2:1',
      'missing-key',
      /rack\/1/,
    ],
    ['no unit', smallRack().replace('unit: mm\n', ''), '2:1', 'missing-key', /unit: mm/],
    [
      'an unknown key',
      smallRack().replace('grain: first', 'grian: first'),
      '10:5',
      'unknown-key',
      /grain/,
    ],
    [
      'no grain',
      smallRack().replace('    grain: first\n', ''),
      '6:5',
      'missing-key',
      /first, second or none/,
    ],
    [
      'a grain that is none',
      smallRack().replace('grain: first', 'grain: along'),
      '10:12',
      'unknown-word',
      null,
    ],
    ['a size that is none', smallRack().replace('800 x 400', '800 x'), '9:11', 'bad-size', null],
    ['a comma', smallRack().replace('800 x 400', '800,5 x 400'), '9:11', 'decimal-comma', null],
    ['a label twice', smallRack().replace('R2', 'r1'), '11:11', 'duplicate-name', /label/],
    [
      'a label with a slash',
      smallRack().replace('id: R1', 'id: ../R1'),
      '6:9',
      'bad-name',
      /letters and digits/,
    ],
    [
      'a date that is none',
      smallRack().replace('note: bruised', 'date: 2026-02-30'),
      '11:81',
      'bad-date',
      /2026-03-31/,
    ],
    [
      'a price without currency',
      smallRack().replace('note: bruised', 'price: 4'),
      '11:82',
      'missing-key',
      /currency/,
    ],
    [
      'used-by on the rack',
      smallRack().replace('note: bruised', 'used-by: { job: A }'),
      '11:84',
      'misplaced-key',
      /state: used/,
    ],
    [
      'a trim without rest',
      smallRack().replace('note: bruised', 'trim: 200'),
      '11:81',
      'trim-too-wide',
      null,
    ],
    ['no mapping', '- R1\n', '1:1', 'wrong-type', null],
  ] as const)('tells of %s with its place', (_, text, place, code, hint) => {
    const { rack, problems } = readRack(text);
    expect(rack).toBe(null);
    const [first] = problems;
    expect(`${first?.place?.line}:${first?.place?.column} ${first?.code}`).toBe(`${place} ${code}`);
    if (hint !== null) expect(first?.hint).toMatch(hint);
    expect(JSON.stringify(problems)).not.toMatch(/holdfast new|parts file/);
  });

  it('collects all problems of a file', () => {
    const text = smallRack().replace('800 x 400', 'wide').replace('300 x 500', '300 x 500 km');
    expect(readRack(text).problems.map(({ place }) => place?.line)).toEqual([9, 11]);
  });
});
