/** Six practice sheets to look at as an engraver would: `EVENHAND_LOOK=FOLDER node bench/run.mjs bench/page/pages.ts` writes them as PDF, and as PNG where pdftoppm is installed. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { practiceSheet } from '../../adapters/src/paper/index.ts';
import { defaultFocus, type Exercise, exercisesFor, ownExercise, readContent, type ShelfOptions } from '../../core/src/exercise/index.ts';
import { RUDIMENTS, readSticking, stickingOfRudiment } from '../../core/src/sticking/index.ts';
import { say } from '../../core/src/words/index.ts';

const folder = process.env.EVENHAND_LOOK;
if (!folder) {
  console.error('Say where to: EVENHAND_LOOK=FOLDER node bench/run.mjs bench/page/pages.ts');
  process.exit(2);
}

function shelf(text: string, perBeat: number, options: ShelfOptions): readonly Exercise[] {
  const sticking = readSticking(text).value!;
  return exercisesFor(readContent(sticking, { perBeat }).value!, defaultFocus(sticking), options).exercises;
}

const rudiments = (lead: 'R' | 'L'): readonly Exercise[] =>
  RUDIMENTS.map((rudiment) => ownExercise(readContent(stickingOfRudiment(rudiment, lead), { perBeat: rudiment.perBeat }).value!, rudiment.name));

const pages: Readonly<Record<string, readonly Exercise[]>> = {
  dozen: shelf('RLRLKK', 4, { limit: 12, piece: { title: 'Blue Hour', place: 'bridge', tempoBpm: 92 } }),
  'grooves-and-fills': shelf('RLRLKK', 4, { families: ['groove', 'fill'], limit: 10 }),
  flams: shelf('l>RLRr>LRL', 3, { limit: 12 }),
  groups: shelf('RL/KR{2:LRL}', 6, { limit: 12 }),
  'rudiments-right': rudiments('R'),
  'rudiments-left': rudiments('L'),
};

mkdirSync(folder, { recursive: true });
for (const [name, exercises] of Object.entries(pages)) {
  const sheets = exercises.map((exercise) => ({ content: exercise, title: say(exercise.title), reason: say(exercise.reason), startBpm: 72 }));
  const file = join(folder, `${name}.pdf`);
  writeFileSync(file, await practiceSheet({ title: name, exercises: sheets, madeMs: 0 }));
  spawnSync('pdftoppm', ['-r', '100', '-png', file, join(folder, name)]);
  console.log(file);
}
