/** A fault that changes nothing that a test could see, or nothing that is right or wrong. */
export interface Same {
  readonly seed: number;
  readonly file: string;
  /** The line, what is changed on it, and into what; of several alike in the file, which. */
  readonly at: string;
  readonly was: string;
  readonly now: string;
  readonly nth: number;
  readonly why: string;
}

/** None of these is run. */
export const SAME: readonly Same[] = [
  {
    seed: 1,
    file: 'src/packing/rectangles/box-task.ts',
    at: 'orientation: column((box) => box?.orientation ?? -1),',
    was: '-1',
    now: '1',
    nth: 1,
    why: 'a box that there is not is as wide as NO_BOX, so it is never placed, and only the orientations of placed boxes are read',
  },
  {
    seed: 1,
    file: 'src/packing/panelsaw/slicing-decoder.ts',
    at: 'work = 0;',
    was: '0',
    now: '1',
    nth: 1,
    why: 'the count of work starts a unit too high once a search, of millions; work is read by differences',
  },
  {
    seed: 1,
    file: 'src/packing/boards/lp.ts',
    at: "model.options.set({ output_flag: false, presolve: 'off', solver: 'simplex' });",
    was: 'false',
    now: 'true',
    nth: 1,
    why: 'the library as built for this platform writes nothing with either; the option is for a build that would',
  },
  {
    seed: 1,
    file: 'src/packing/boards/board-task.ts',
    at: "const cost = objective === 'cost' ? (priceCents ?? 0) : 1;",
    was: '0',
    now: '1',
    nth: 1,
    why: 'money is the objective only where every stock has a price',
  },
  {
    seed: 1,
    file: 'src/packing/boards/dive.ts',
    at: 'if (amount < NEARLY) continue;',
    was: '<',
    now: '<=',
    nth: 1,
    why: 'another choice only for an amount of just NEARLY, and one as good',
  },
  {
    seed: 2,
    file: 'src/holding/calibrate-check.ts',
    at: `const side = friction < least ? \`under \${least}\` : \`over \${most}\`;`,
    was: '<',
    now: '<=',
    nth: 1,
    why: 'a friction of just the least is believable, so the function has ended before',
  },
  {
    seed: 2,
    file: 'src/partsfile/layers.ts',
    at: 'return false;',
    was: 'false',
    now: 'true',
    nth: 3,
    why: 'the name is refused by a problem already, so the file has no job whose layers could be read',
  },
];
