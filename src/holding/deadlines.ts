/**
 * Orders of cutting that keep deadlines: the most kerf that may be open when a piece has been cut.
 *
 * If any order keeps all deadlines, that of rising deadlines does, where a piece inside a cut-out
 * has that of the piece around it if that is earlier. Wishes are granted one after the other, each
 * as long as all deadlines so far can still be kept.
 * Source: Lawler 1973, as in `best-least.ts`, with lateness as the cost.
 * Cost: the square of the number of pieces where not all wishes can be granted together.
 */
import { type Block, openedUm } from './open-kerf.ts';

export interface Wish {
  readonly block: number;
  readonly deadlineUm: number;
}

/** `deadlinesUm` with the wishes that can be granted; the first wishes go first. */
export function grantWishes(
  blocks: readonly Block[],
  deadlinesUm: readonly number[],
  wishes: readonly Wish[],
): readonly number[] {
  const all = wishes.reduce(withWish, deadlinesUm);
  if (canKeep(blocks, all)) return all;
  return wishes.reduce((granted, wish) => {
    const more = withWish(granted, wish);
    return canKeep(blocks, more) ? more : granted;
  }, deadlinesUm);
}

/** By rising deadline, what lies in a cut-out first. */
export function byDeadline(blocks: readonly Block[], deadlinesUm: readonly number[]): number[] {
  const around = blocks.map((_, i) => hostsOf(blocks, i));
  const due = around.map((hosts, i) =>
    hosts.reduce((earliest, host) => Math.min(earliest, deadlinesUm[host]!), deadlinesUm[i]!),
  );
  return [...blocks.keys()].sort(
    (a, b) => compare(due[a]!, due[b]!) || around[b]!.length - around[a]!.length,
  );
}

/** Whether an order cuts what lies in a cut-out before the piece around it, and keeps all deadlines. */
export function keepsDeadlines(
  blocks: readonly Block[],
  deadlinesUm: readonly number[],
  order: readonly number[],
): boolean {
  const cut = new Uint8Array(blocks.length);
  let openUm = 0;
  for (const i of order) {
    const { host } = blocks[i]!;
    if (host !== null && cut[host] === 1) return false;
    openUm += openedUm(blocks[i]!, cut);
    if (openUm > deadlinesUm[i]!) return false;
    cut[i] = 1;
  }
  return true;
}

/** The pieces around one, the nearest first. */
export function hostsOf(blocks: readonly Block[], index: number): number[] {
  const hosts: number[] = [];
  for (let i = blocks[index]!.host; i !== null; i = blocks[i]!.host) hosts.push(i);
  return hosts;
}

function canKeep(blocks: readonly Block[], deadlinesUm: readonly number[]): boolean {
  return keepsDeadlines(blocks, deadlinesUm, byDeadline(blocks, deadlinesUm));
}

function withWish(deadlinesUm: readonly number[], { block, deadlineUm }: Wish): readonly number[] {
  return deadlinesUm.with(block, Math.min(deadlinesUm[block]!, deadlineUm));
}

/** Also of two that are infinite. */
function compare(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
