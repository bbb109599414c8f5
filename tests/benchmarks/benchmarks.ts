import type { Benchmark } from './benchmark.ts';
import { boards } from './boards.ts';
import { drawings } from './drawings.ts';
import { furniture } from './furniture.ts';
import { fuzz } from './fuzz.ts';
import { holding } from './holding.ts';
import { jobs } from './jobs.ts';
import { kill } from './kill.ts';
import { leftover } from './leftover.ts';
import { outlines } from './outlines.ts';
import { rack } from './rack.ts';
import { rectangles } from './rectangles.ts';
import type { Name } from './request.ts';
import { saw } from './saw.ts';
import { scaling } from './scaling.ts';
import { strips } from './strips.ts';

export const BENCHMARKS: Readonly<Record<Name, Benchmark>> = {
  rectangles,
  furniture,
  saw,
  scaling,
  strips,
  outlines,
  boards,
  holding,
  rack,
  kill,
  leftover,
  drawings,
  fuzz,
  jobs,
};
