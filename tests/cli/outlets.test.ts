import { Writable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { outletOf } from '../../src/cli/outlets.ts';

/** What a stream says when it is written to, whether that is a failure, and what is told of it. */
const CASES: readonly { code: string; hasFailed: boolean; told: readonly string[] }[] = [
  { code: 'EPIPE', hasFailed: false, told: [] },
  { code: 'EOF', hasFailed: false, told: [] },
  { code: 'ENOSPC', hasFailed: true, told: ['the disk is full'] },
  { code: 'EIO', hasFailed: true, told: ['the disk failed'] },
  { code: 'EBADF', hasFailed: true, told: ['the system says EBADF'] },
];

describe('an output', () => {
  it.each(CASES)('says $code once, and leaves out the rest', async ({ code, hasFailed, told }) => {
    let writes = 0;
    const stream = new Writable({
      write: (_chunk, _encoding, done) => {
        writes++;
        done(Object.assign(new Error(code), { code }));
      },
    });
    const said: string[] = [];
    const outlet = outletOf(stream, (reason) => said.push(reason));
    outlet.write('one');
    outlet.write('two');
    await new Promise((resolve) => setImmediate(resolve));
    outlet.write('three');
    expect(said).toEqual(told);
    expect(outlet.hasFailed()).toBe(hasFailed);
    expect(writes).toBe(1);
  });

  it('has not failed as long as all is taken', () => {
    const taken: string[] = [];
    const stream = new Writable({
      decodeStrings: false,
      write: (chunk, _encoding, done) => {
        taken.push(chunk);
        done();
      },
    });
    const outlet = outletOf(stream, (reason) => taken.push(reason));
    outlet.write('one');
    outlet.write('two');
    expect(taken).toEqual(['one', 'two']);
    expect(outlet.hasFailed()).toBe(false);
  });
});
