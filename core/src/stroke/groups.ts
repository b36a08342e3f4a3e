/** Groups of like shapes, so that a take's strokes fall into its few sounds. */

/** Indices of the shapes in at most `count` groups of like ones (k-means from far-apart starts); empty groups are left out. */
export const groupByShape = (shapes: readonly Float64Array[], count: number): number[][] => {
  const centres: Float64Array[] = [shapes[0]!];
  while (centres.length < Math.min(count, shapes.length)) {
    const distances = shapes
      .map((shape, i) => ({ i, d: Math.min(...centres.map((c) => distance(shape, c))) }))
      .sort((a, b) => a.d - b.d || a.i - b.i);
    centres.push(shapes[distances[Math.floor(0.9 * (distances.length - 1))]!.i]!);
  }
  let groups: number[][] = [];
  for (let round = 0; round < 8; round++) {
    groups = centres.map(() => []);
    shapes.forEach((shape, i) => {
      groups[nearest(shape, centres)]!.push(i);
    });
    groups.forEach((members, g) => {
      if (members.length > 0) centres[g] = centres[g]!.map((_, k) => members.reduce((sum, i) => sum + shapes[i]![k]!, 0) / members.length);
    });
  }
  return groups.filter((members) => members.length > 0);
};

const distance = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i]! - b[i]!) ** 2;
  return sum;
};

const nearest = (shape: Float64Array, centres: readonly Float64Array[]): number => {
  let best = 0;
  for (let g = 1; g < centres.length; g++) if (distance(shape, centres[g]!) < distance(shape, centres[best]!)) best = g;
  return best;
};
