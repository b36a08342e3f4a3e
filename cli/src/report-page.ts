/** What a diary holds, as one page to read or print: of each exercise that was heard, the sentence, the ring and the figures, then and now. */
import { comes, comesOf } from '@evenhand/adapters/report';
import type { BlockBody, DiaryView } from '@evenhand/core/diary';
import { expectedCycle } from '@evenhand/core/exercise';
import { spacesMs } from '@evenhand/core/finding';
import { escaped } from '@evenhand/core/markup';
import { ringPicture } from '@evenhand/core/picture';
import type { Statement } from '@evenhand/core/problem';
import { measurementOfHeard } from '@evenhand/core/progress';
import type { Limb } from '@evenhand/core/sticking';
import { limbNames, say, tempoName } from '@evenhand/core/words';

type Heard = NonNullable<BlockBody['heard']>;

/** An exercise with the first and the latest time it was heard at its latest tempo. */
export interface Reported {
  readonly body: BlockBody;
  readonly day: string;
  readonly heard: Heard;
  readonly before: { readonly day: string; readonly heard: Heard } | null;
}

/** The page, and how many exercises are on it. */
export function reportPage(view: DiaryView): { readonly html: string; readonly exerciseCount: number } {
  const reported = reportedIn(view);
  const parts = reported.length === 0 ? ['<p>Nothing has been heard yet.</p>'] : reported.map(partOf);
  return { html: `${HEAD}<h1>What was heard</h1>\n${parts.join('\n')}\n</body></html>\n`, exerciseCount: reported.length };
}

const HEAD = `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>What was heard</title><style>
body{font:1.05rem/1.5 Georgia,serif;max-width:46rem;margin:2rem auto;padding:0 1rem;color:#221c14;background:#fff}
section{break-inside:avoid;border-top:1px solid #b9ad98;padding:1rem 0}.said{font-size:1.4rem;line-height:1.3}
table{border-collapse:collapse}th,td{text-align:left;padding:.15rem .9rem .15rem 0}svg{max-width:100%;height:auto}
</style></head><body>`;

/** Latest first; a block that repeats an exercise stands for it. */
export function reportedIn({ days }: DiaryView): Reported[] {
  const blocks = days
    .flatMap(({ day, sessions }) =>
      sessions.flatMap(({ blocks: of }) => of.flatMap(({ body }) => (body.heard ? [{ day, body, heard: body.heard }] : []))),
    )
    .sort((a, b) => (a.day < b.day ? 1 : a.day > b.day ? -1 : b.body.position - a.body.position));
  const ids = [...new Set(blocks.map(({ body }) => body.exercise.id))];
  return ids.map((id) => {
    const of = blocks.filter(({ body }) => body.exercise.id === id);
    const latest = of[0]!;
    const before = of.filter(({ body }) => body.tempoBpm === latest.body.tempoBpm).at(-1)!;
    return { ...latest, before: before === latest ? null : before };
  });
}

function partOf(reported: Reported, number: number): string {
  const { body, day, heard } = reported;
  const { exercise } = body;
  const [first, ...others] = heard.findings;
  const more = [...(fitsIn(first) ?? []), ...others];
  return [
    `<section><h2>${escaped(exercise.sticking)}, ${tempoName(body.tempoBpm, exercise.perBeat)}</h2>`,
    `<p>${day}</p>`,
    first ? `<p class="said">${escaped(say(first))}</p>` : '',
    ...more.map((said) => `<p>${escaped(say(said))}</p>`),
    ringPicture(measurementOfHeard(heard, body.tempoBpm), expectedCycle(exercise), {
      widthPx: 380,
      id: `ring-${number}`,
      sticking: exercise.sticking,
      perBeat: exercise.perBeat,
    }),
    tableOf(reported),
    '</section>',
  ].join('\n');
}

/** Likely reasons that were told with a finding; older diaries have none. */
const fitsIn = (finding: Heard['findings'][number] | undefined): readonly Statement[] | undefined =>
  (finding as { readonly fits?: readonly Statement[] } | undefined)?.fits;

function tableOf({ body, heard, before, day }: Reported): string {
  const cycle = expectedCycle(body.exercise);
  const columns = [...(before ? [before] : []), { day, heard }].map((told) => {
    const measurement = measurementOfHeard(told.heard, body.tempoBpm);
    return { ...told, places: measurement.places, spaces: spacesMs(measurement, cycle) };
  });
  const rows = heard.places.map(({ index, limb }) => {
    const times = columns.map(({ places, spaces }) => {
      const place = places.find((each) => each.index === index);
      return say(place ? comes(comesOf(place), spaces[index]!) : { code: 'report-cannot-tell', params: {} });
    });
    return `<tr>${[`${index + 1}`, limbNames[limb as Limb], ...times].map((cell) => `<td>${cell}</td>`).join('')}</tr>`;
  });
  const heads = ['Stroke', 'Limb', ...(before ? [`Then (${before.day})`, 'Now'] : ['Comes'])];
  return `<table><tr>${heads.map((head) => `<th>${head}</th>`).join('')}</tr>${rows.join('')}</table>`;
}
