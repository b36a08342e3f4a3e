/** Where the errors sit that remain, and what confidence has meant: tables, and a plot of both. */
import { type Judged, outcomesOf, type TrueStroke } from './scorer.ts';

const BANDS = ['under −6', '−6 to 0', '0 to 6', '6 to 15', '15 and more'] as const;

const bandOf = ({ smrDb }: TrueStroke): (typeof BANDS)[number] => {
  const edges = [-6, 0, 6, 15];
  const above = edges.filter((edge) => (smrDb ?? Number.POSITIVE_INFINITY) >= edge).length;
  return BANDS[above]!;
};

interface Share {
  readonly name: string;
  strokes: number;
  within5: number;
  late: number;
}

/** Strokes by a property: how many, found within 5 ms, found 5 to 25 ms off; the rest were not found. */
export const budgetOf = (takes: readonly Judged[], shiftMs: number, by: (stroke: TrueStroke) => string, order?: readonly string[]): Share[] => {
  const shares = new Map<string, Share>((order ?? []).map((name) => [name, { name, strokes: 0, within5: 0, late: 0 }]));
  for (const take of takes) {
    const near = outcomesOf(take, 0.005, shiftMs).outcomes;
    const far = outcomesOf(take, 0.025, shiftMs).outcomes;
    near.forEach(({ stroke, detection }, i) => {
      const name = by(stroke);
      const share = shares.get(name) ?? { name, strokes: 0, within5: 0, late: 0 };
      shares.set(name, share);
      share.strokes++;
      if (detection) share.within5++;
      else if (far[i]!.detection) share.late++;
    });
  }
  return [...shares.values()].filter(({ strokes }) => strokes > 0);
};

/** The three tables of one detector: by masking, by volume as written, by drum. */
export const budgetTables = (name: string, takes: readonly Judged[], shiftMs: number): string[] => [
  `${name}, where the errors sit:`,
  '',
  '| strokes | of them | within 5 ms | 5–25 ms off | not found |',
  '| --- | --- | --- | --- | --- |',
  ...[
    ...budgetOf(takes, shiftMs, bandOf, BANDS).map((share) => ({ ...share, name: `smr ${share.name} dB` })),
    ...budgetOf(takes, shiftMs, ({ grace, extra, level }) => (grace ? 'grace' : extra ? 'bounce' : level)),
    ...budgetOf(takes, shiftMs, ({ surface }) => surface),
  ].map(({ name: what, strokes, within5, late }) => `| ${what} | ${strokes} | ${within5} | ${late} | ${strokes - within5 - late} |`),
];

interface Bin {
  readonly fromShare: number;
  readonly count: number;
  readonly said: number;
  readonly is: number;
}

/** Detections said at least .5 in ten bins: how many, what was said in the mean, and the share truly within 5 ms. */
export const confidenceBins = (takes: readonly Judged[], shiftMs: number): Bin[] => {
  const bins = Array.from({ length: 10 }, () => ({ count: 0, said: 0, hits: 0 }));
  for (const take of takes) {
    const hits = new Set(outcomesOf(take, 0.005, shiftMs).outcomes.map(({ detection }) => detection));
    for (const detection of take.detections) {
      const confidence = detection.confidence ?? 0;
      if (confidence < 0.5) continue;
      const bin = bins[Math.min(9, Math.floor((confidence - 0.5) * 20))]!;
      bin.count++;
      bin.said += confidence;
      if (hits.has(detection)) bin.hits++;
    }
  }
  return bins.map(({ count, said, hits }, i) => ({ fromShare: 0.5 + i / 20, count, said: said / count, is: hits / count }));
};

export const confidenceTable = (bins: readonly Bin[]): string[] => [
  '| said from | strokes | said, mean | within 5 ms |',
  '| --- | --- | --- | --- |',
  ...bins.map(({ fromShare, count, said, is }) => `| ${fromShare.toFixed(2)} | ${count} | ${said.toFixed(2)} | ${is.toFixed(2)} |`),
];

const SIZE = { width: 640, height: 260, left: 40, top: 30, plot: 190 } as const;

/** Left: what became of strokes by how masked they are. Right: what confidence has meant, against the line where it means what it says. */
export const budgetPlot = (takes: readonly Judged[], bins: readonly Bin[], shiftMs: number): string => {
  const { width, height, left, top, plot } = SIZE;
  const text = (x: number, y: number, said: string, anchor = 'middle') => `<text x="${x}" y="${y}" text-anchor="${anchor}">${said}</text>`;
  const bars = budgetOf(takes, shiftMs, bandOf, BANDS).flatMap(({ name, strokes, within5, late }, i) => {
    const x = left + 10 + i * 52;
    const tall = (count: number) => (plot * count) / strokes;
    return [
      `<rect x="${x}" y="${(top + plot - tall(within5)).toFixed(1)}" width="40" height="${tall(within5).toFixed(1)}" fill="#1f5f8b"/>`,
      `<rect x="${x}" y="${(top + plot - tall(within5 + late)).toFixed(1)}" width="40" height="${tall(late).toFixed(1)}" fill="#c98b2b"/>`,
      text(x + 20, top + plot + 14, name),
      text(x + 20, top + plot + 27, `of ${strokes}`),
    ];
  });
  const from = 360;
  const at = (share: number) => ({ x: from + (share - 0.5) * 2 * plot * 1.2, y: top + plot - (share - 0.5) * 2 * plot });
  const dots = bins
    .filter(({ count }) => count > 0)
    .map(
      ({ said, is, count }) =>
        `<circle cx="${at(said).x.toFixed(1)}" cy="${at(is).y.toFixed(1)}" r="${(2 + Math.log10(count) * 1.5).toFixed(1)}" fill="#1f5f8b"/>`,
    );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" font-family="sans-serif" font-size="10" fill="#222">`,
    '<title>Strokes found by how masked they are, and what confidence has meant</title>',
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    text(left, 18, 'Found within 5 ms (blue), 5 to 25 ms off (brown), by smr in dB', 'start'),
    `<path d="M${left} ${top}V${top + plot}H${left + 270}" fill="none" stroke="#222"/>`,
    text(left - 6, top + 4, '1', 'end'),
    text(left - 6, top + plot, '0', 'end'),
    ...bars,
    text(from, 18, 'Share within 5 ms against confidence said', 'start'),
    `<path d="M${from} ${top}V${top + plot}H${from + plot * 1.2}" fill="none" stroke="#222"/>`,
    `<path d="M${at(0.5).x} ${at(0.5).y}L${at(1).x} ${at(1).y}" stroke="#999" stroke-dasharray="3 3"/>`,
    text(from - 6, top + 4, '1', 'end'),
    text(from - 6, top + plot, '.5', 'end'),
    text(at(1).x, top + plot + 14, '1'),
    ...dots,
    '</svg>',
    '',
  ].join('\n');
};
