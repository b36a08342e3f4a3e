import { expect, test } from 'vitest';
import { readSticking } from '../sticking/index.ts';
import { say } from '../words/index.ts';
import { type Exercise, exercisesFor, readContent, readFocus } from './index.ts';
import { TEACHER_LISTS, type TeacherList } from './teacher.case.ts';

const known = ({ title, sticking, surfaces }: Exercise): string => `${say(title)} | ${sticking} | ${surfaces.join(' ')}`;

/** The first fifteen for a list's sticking point. */
function fifteen({ sticking, perBeat, cell }: TeacherList): readonly string[] {
  const read = readSticking(sticking).value!;
  return exercisesFor(readContent(read, { perBeat }).value!, readFocus(cell, read).value!, { limit: 15 }).exercises.map(known);
}

test.each(TEACHER_LISTS)('common practice, no source (issue 6): nine of a teacher’s twelve for $sticking are among the first fifteen', (list) => {
  const shown = fifteen(list);
  const lacking = list.ideas.filter(({ found }) => !shown.some((each) => found.test(each)));
  expect(list.ideas).toHaveLength(12);
  expect(lacking.map(({ of }) => of).length, lacking.map(({ of }) => of).join('; ')).toBeLessThanOrEqual(3);
});
