/**
 * Sums over the ten published instances of each class, for 20, 40, 60, 80 and 100 pieces. Rule of the instances: ../packing/class-instances.ts.
 * Sheets: the least reported in
 * Gonçalves & Resende 2013, "A biased random key genetic algorithm for 2D and 3D bin packing problems", Int. J. of Production Economics 145, 500-510;
 * Parreño, Alvarez-Valdes, Oliveira & Tamarit 2010, "A hybrid GRASP/VND algorithm for two- and three-dimensional bin packing", Annals of OR 179, 203-220;
 * Blum & Schmid 2013, "Solving the 2D bin packing problem by means of a hybrid evolutionary algorithm", Procedia Computer Science 18, 899-908.
 * `still` is of the one method that does best over all, `stillBest` takes the best of several, class by class. Bounds: dual feasible functions, reckoned from the rule.
 */
export interface PublishedClass {
  readonly still: readonly number[];
  readonly stillBest: readonly number[];
  readonly stillBound: readonly number[];
  readonly turned: readonly number[];
  readonly turnedBound: readonly number[];
}

export const PUBLISHED: readonly PublishedClass[] = [
  {
    still: [71, 134, 200, 275, 317],
    stillBest: [71, 134, 200, 275, 317],
    stillBound: [70, 132, 199, 275, 317],
    turned: [66, 128, 195, 270, 313],
    turnedBound: [66, 128, 195, 270, 313],
  },
  {
    still: [10, 19, 25, 31, 39],
    stillBest: [10, 19, 25, 31, 39],
    stillBound: [10, 19, 25, 31, 39],
    turned: [10, 19, 25, 31, 39],
    turnedBound: [10, 19, 25, 31, 39],
  },
  {
    still: [51, 94, 139, 189, 223],
    stillBest: [51, 94, 139, 189, 223],
    stillBound: [49, 92, 136, 188, 220],
    turned: [47, 92, 134, 182, 220],
    turnedBound: [47, 91, 132, 182, 215],
  },
  {
    still: [10, 19, 25, 31, 37],
    stillBest: [10, 19, 23, 31, 37],
    stillBound: [10, 19, 23, 30, 37],
    turned: [10, 19, 23, 31, 37],
    turnedBound: [10, 19, 23, 30, 37],
  },
  {
    still: [65, 119, 180, 247, 281],
    stillBest: [65, 119, 180, 247, 281],
    stillBound: [64, 116, 178, 241, 279],
    turned: [59, 114, 172, 239, 277],
    turnedBound: [59, 113, 170, 236, 272],
  },
  {
    still: [10, 16, 21, 30, 33],
    stillBest: [10, 16, 21, 30, 32],
    stillBound: [10, 15, 21, 30, 32],
    turned: [10, 16, 21, 30, 32],
    turnedBound: [10, 15, 21, 30, 32],
  },
  {
    still: [55, 111, 158, 232, 271],
    stillBest: [55, 111, 158, 232, 271],
    stillBound: [55, 110, 157, 227, 271],
    turned: [52, 102, 146, 208, 250],
    turnedBound: [47, 99, 140, 200, 239],
  },
  {
    still: [58, 113, 161, 224, 278],
    stillBest: [58, 113, 161, 224, 277],
    stillBound: [57, 112, 160, 223, 274],
    turned: [53, 103, 147, 204, 252],
    turnedBound: [50, 97, 141, 198, 242],
  },
  {
    still: [143, 278, 437, 577, 695],
    stillBest: [143, 278, 437, 577, 695],
    stillBound: [143, 278, 437, 577, 694],
    turned: [143, 275, 435, 573, 693],
    turnedBound: [143, 275, 435, 573, 693],
  },
  {
    still: [42, 74, 100, 128, 158],
    stillBest: [42, 74, 100, 128, 158],
    stillBound: [41, 72, 98, 124, 153],
    turned: [41, 72, 99, 125, 154],
    turnedBound: [39, 70, 95, 122, 153],
  },
];
