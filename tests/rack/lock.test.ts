import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Lock, lockOf } from '../../src/cli/lock.ts';
import { folderWith } from '../helpers/command.ts';

const HOST = hostname().replaceAll(/[^A-Za-z0-9]/g, '-');
/** No system gives a process so high a number. */
const DEAD = `999999999.1-0.${HOST}`;
const DEAD_TOO = `999999998.1-0.${HOST}`;

describe('the lock of a file', () => {
  it('is held by one, who gives it back without a trace', async () => {
    const file = join(folderWith(), 'rack.yaml');
    const lock = await locked(file);
    expect(lock.isHeld()).toBe(true);
    let got: Lock | null = null;
    const waiting = locked(file).then((next) => {
      got = next;
      return next;
    });
    await new Promise((resolve) => setTimeout(resolve, 80));
    expect(got).toBe(null);
    lock.release();
    expect((await waiting).isHeld()).toBe(true);
    expect(lock.isHeld()).toBe(false);
    lock.release();
    // What another holds by now is not given back.
    expect(readdirSync(join(file, '..'))).toEqual(['.rack.yaml.lock']);
    (await waiting).release();
    expect(readdirSync(join(file, '..'))).toEqual([]);
  });

  it.each<[string, Readonly<Record<string, string>>]>([
    ['a dead run', { '.rack.yaml.lock': DEAD }],
    [
      'two dead runs, one the successor of the other',
      { '.rack.yaml.lock': DEAD, [`.rack.yaml.lock.${DEAD}`]: DEAD_TOO },
    ],
    ['a dead run that was giving it back', { [`.rack.yaml.lock.${DEAD}`]: DEAD_TOO }],
  ])('comes from %s to one of those that wait', async (_, left) => {
    const folder = folderWith(left);
    const file = join(folder, 'rack.yaml');
    let holders = 0;
    let most = 0;
    const work = async () => {
      const lock = await locked(file);
      most = Math.max(most, ++holders);
      await new Promise((resolve) => setTimeout(resolve, 5));
      expect(lock.isHeld()).toBe(true);
      holders--;
      lock.release();
    };
    await Promise.all([1, 2, 3, 4, 5].map(work));
    expect(most).toBe(1);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('is not held any more by a run that was passed over', async () => {
    const folder = folderWith();
    const lock = await locked(join(folder, 'rack.yaml'));
    const token = readFileSync(join(folder, '.rack.yaml.lock'), 'utf8');
    writeFileSync(join(folder, `.rack.yaml.lock.${token}`), DEAD);
    expect(lock.isHeld()).toBe(false);
    rmSync(join(folder, `.rack.yaml.lock.${token}`));
    expect(lock.isHeld()).toBe(true);
  });
});

async function locked(file: string): Promise<Lock> {
  const lock = await lockOf(file);
  if ('holder' in lock) throw new Error(`held by ${lock.holder}`);
  return lock;
}
