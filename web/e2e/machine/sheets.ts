/** Sheets to engrave in Node and in the browser: the same function runs in both. */
import { contentId, readContent } from '@evenhand/core/exercise';
import { engraveSvg } from '@evenhand/core/sheet';
import { readSticking } from '@evenhand/core/sticking';

const PHRASES: readonly (readonly [sticking: string, perBeat: number])[] = [
  ['RLRLKK', 4],
  ['l>RLRr>LRL', 3],
  ['llR>LrrL>R', 2],
  ['{2:RLR}KK(R)Lz-R/', 4],
  ['RLRLK', 5],
  ['RRLLRRL-', 8],
  ['R+KL+H(L)', 7],
];

/** Ids and sheets of several phrases at two widths, as one text. */
export function sheets(): string {
  const contents = PHRASES.map(([text, perBeat]) => readContent(readSticking(text).value!, { perBeat }).value!);
  return contents
    .flatMap((content) => [contentId(content), engraveSvg(content, { widthPx: 360 }), engraveSvg(content, { widthPx: 1100 })])
    .join('\n');
}
