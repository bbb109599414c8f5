import { describe, expect, it } from 'vitest';
import { parseRequest } from './request.ts';

const PLAIN = {
  file: null,
  efforts: ['quick'],
  seeds: [1],
  variants: [],
  only: [],
  every: 1,
  draw: null,
  count: null,
  jobs: 1,
  fresh: false,
};

describe('parseRequest', () => {
  it.each([
    { line: 'rectangles', request: { benchmark: 'rectangles' } },
    {
      line: 'rectangles --effort long --only 4,6_40 --every 3 --turned --seed 7 --jobs 2 --draw 5',
      request: {
        benchmark: 'rectangles',
        efforts: ['long'],
        only: ['4', '6_40'],
        every: 3,
        variants: ['turned'],
        seeds: [7],
        jobs: 2,
        draw: 5,
      },
    },
    {
      line: 'furniture orders.json --still --fresh',
      request: { benchmark: 'furniture', file: 'orders.json', variants: ['still'], fresh: true },
    },
    { line: 'scaling --effort normal', request: { benchmark: 'scaling', efforts: ['normal'] } },
    { line: 'kill --what moving', request: { benchmark: 'kill', variants: ['moving'] } },
    { line: 'holding --seed 2', request: { benchmark: 'holding', seeds: [2] } },
    {
      line: 'fuzz --only yaml,csv --count 2000',
      request: { benchmark: 'fuzz', only: ['yaml', 'csv'], count: 2000 },
    },
    { line: 'jobs', request: { benchmark: 'jobs' } },
    {
      line: 'jobs --count 10000 --seed 3',
      request: { benchmark: 'jobs', count: 10_000, seeds: [3] },
    },
    { line: 'jobs --count 201', request: { benchmark: 'jobs', count: 201 } },
    { line: 'strips s.json', request: { benchmark: 'strips', file: 's.json' } },
    { line: 'boards b.json', request: { benchmark: 'boards', file: 'b.json' } },
    { line: 'outlines', request: { benchmark: 'outlines', efforts: ['1e9'] } },
    {
      line: 'outlines folder --work 1e6,1e7 --seeds 3',
      request: {
        benchmark: 'outlines',
        file: 'folder',
        efforts: ['1e6', '1e7'],
        seeds: [1, 2, 3],
      },
    },
  ])('reads $line', ({ line, request }) => {
    expect(parse(line).result).toEqual({ ...PLAIN, ...request });
  });

  it.each([
    { line: 'rectangles --effort endless', said: 'quick, normal, long' },
    { line: 'rectangles --turned --still', said: 'cannot be used with' },
    { line: 'rectangles --every 0', said: 'A whole number from 1' },
    { line: 'outlines --work much', said: 'An amount of work' },
    { line: 'furniture', said: "missing required argument 'file'" },
    { line: 'circles', said: "unknown command 'circles'" },
  ])('refuses $line', ({ line, said }) => {
    const { result, text } = parse(line);
    expect(result).toBe(1);
    expect(text).toContain(said);
  });

  it('helps', () => {
    const { result, text } = parse('--help');
    expect(result).toBe(0);
    expect(text).toMatch(/rectangles.*furniture.*scaling.*strips.*outlines.*boards/s);
  });
});

function parse(line: string) {
  let text = '';
  const result = parseRequest(line.split(' '), (more) => {
    text += more;
  });
  return { result, text };
}
