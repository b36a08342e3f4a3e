/** English for what pictures say. */
import type { PictureStatement } from '../pictured.ts';
import type { Sentences } from '../sentences.ts';
import { capital, listed } from './counted.ts';
import { noteValue, tempoName } from './notevalue.ts';
import { setupName } from './setupname.ts';
import { shortDay, shortMonth, spanName } from './shortday.ts';
import { sideName } from './sides.ts';

export const pictureSentences: Sentences<PictureStatement> = {
  'picture-ring-title': ({ sticking, tempoBpm, perBeat }, noteNames) => `Stroke ring of ${sticking}, ${tempoName(tempoBpm, perBeat, noteNames)}`,
  'picture-ring-desc': ({ strokeCount, cycleCount, feet, graces }) =>
    [
      `One cycle of ${strokeCount} strokes as a circle, from the notch at the top round to the right, over ${cycleCount} cycles.`,
      'A line across the circle marks where a stroke is written. Its letter stands where it came: before the line early, after it late; the larger, the louder.',
      'The thick arc is the range that holds its true place 95 times in 100.',
      ...(feet ? ['Hands stand outside the circle, feet inside.'] : []),
      ...(graces ? ['Small letters are grace strokes; the table says how far before they come.'] : []),
      'The table says the same in figures.',
    ].join(' '),
  'picture-ring-note': ({ times }) => `${times === 1 ? 'Early and late as they came' : `Early and late enlarged ${times} times`} · larger is louder`,
  'picture-ring-marks': ({ missed, notAudible }) =>
    [...(missed ? ['−2 beside a letter: missed twice'] : []), ...(notAudible ? ['?: could not be heard'] : [])].join(' · '),
  'picture-cycles-title': ({ tempoBpm, perBeat }, noteNames) => `Every stroke over the cycles, ${tempoName(tempoBpm, perBeat, noteNames)}`,
  'picture-cycles-desc': ({ placeCount, cycleCount }) =>
    `A row for each of ${placeCount} strokes: across, ${cycleCount} cycles; up, milliseconds from where it is written, minus is early. A cross at the foot of a row is a missed stroke.`,
  'picture-cycles-across': () => 'Cycle',
  'picture-cycles-up': () => 'ms, minus is early',
  'picture-tempo-title': () => 'Clean tempo over the days',
  'picture-tempo-desc': ({ pointCount, unknownCount }) =>
    `${pointCount} days with a clean tempo; each bar is the range that holds it 9 times in 10. ${unknownCount} days had too little to tell; a short line at the foot marks them. An open mark rests on the player’s word alone.`,
  'picture-tempo-up': ({ perBeat }, noteNames) => `${noteValue(perBeat, noteNames)}, beats a minute`,
  'picture-tempo-wanted': ({ goalBpm }) => `wanted: ${goalBpm}`,
  'picture-tempo-none': () => 'Too little yet to tell a clean tempo.',
  'picture-cell-title': ({ of }) => (of === 'space' ? 'Space of the double over the weeks' : 'Volume of the second stroke over the weeks'),
  'picture-cell-desc': ({ of, weekCount, unknownCount }) =>
    `${weekCount} weeks with a figure; each bar is the range that holds the mean of the week 95 times in 100. ${of === 'space' ? 'Below 100 the two strokes sit too close.' : 'Below 0 the second stroke is softer than the first.'} ${unknownCount} weeks had too few blocks; a short line at the foot marks them.`,
  'picture-cell-up': ({ of }) => (of === 'space' ? 'space, % of what is written' : 'second against first, dB'),
  'picture-cell-even': ({ of }) => (of === 'space' ? 'as written' : 'alike'),
  'picture-cell-none': () => 'Too few blocks yet to tell a week.',
  'picture-then-now-title': ({ sticking, tempoBpm, perBeat }, noteNames) => `${sticking}, ${tempoName(tempoBpm, perBeat, noteNames)}`,
  'picture-then-now-desc': ({ thenDay, nowDay }) =>
    `Two stroke rings of the same phrase at the same tempo: ${shortDay(thenDay, true)} on the left, ${shortDay(nowDay, true)} on the right, with what changed in words.`,
  'picture-then': ({ of, day }) => `${capital(sideName(of, 'then'))}, ${shortDay(day, true)}`,
  'picture-now': ({ of, day }) => `${capital(sideName(of, 'now'))}, ${shortDay(day, true)}`,
  'picture-whole-title': ({ from, to }) => `The whole diary, ${spanName(from, to)}`,
  'picture-whole-desc': ({ phrases, away, changes, lessons }) =>
    `Time runs from left to right. A lane for each of ${phrases} phrases, from begun to closed or put aside: a line is its clean tempo, a dashed one the tempo wanted. Shaded are ${away} stretches of days away; dotted lines are ${changes} changes of set-up, dashed upright ones ${lessons} lessons. The tables say the same in words and figures.`,
  'picture-lane': ({ firstBpm, lastBpm, wantedBpm, perBeat, known, is, day }, noteNames) => {
    const tempo = known
      ? `${noteValue(perBeat, noteNames)} ${firstBpm === lastBpm ? '' : `${firstBpm} to `}${lastBpm}, wanted ${wantedBpm}`
      : `${noteValue(perBeat, noteNames)}, wanted ${wantedBpm}`;
    return is === 'open' ? tempo : `${tempo}; ${is === 'closed' ? 'closed' : 'put aside'} ${shortDay(day, false)}`;
  },
  'picture-whole-key': ({ away, setup, lesson, stood, jump, lines, more }) =>
    [
      ...(lines ? ['All lanes have one scale.'] : []),
      ...(away ? ['Shaded: more than three days away on end.'] : []),
      ...(setup ? ['Dotted: another set-up.'] : []),
      ...(lesson ? ['Dashed upright: a lesson.'] : []),
      ...(stood ? ['Bar at the foot of a lane: it stood still.'] : []),
      ...(jump ? ['Triangle: a jump.'] : []),
      ...(more > 0 ? [`${more} more without a number ${more === 1 ? 'is' : 'are'} in the table.`] : []),
    ].join(' '),
  'picture-whole-stood': ({ name, from, to, bpm, perBeat }, noteNames) =>
    `Bar: ${name} stood at about ${bpm} (${noteValue(perBeat, noteNames)}), ${spanName(from, to)}.`,
  'picture-whole-jump': ({ name, from, beforeBpm, afterBpm, perBeat }, noteNames) =>
    `Triangle: ${name} ${afterBpm > beforeBpm ? 'was clearly faster' : 'was slower'} since about ${shortDay(from, true)}, ${noteValue(perBeat, noteNames)} ${beforeBpm} just before, ${afterBpm} at last.`,
  'picture-whole-setup': ({ day, names, values }) =>
    `${shortDay(day, true)}: new set-up, ${listed(names.map((name, k) => `${setupName(name)} “${values[k]}”`))}.`,
  'picture-whole-lesson': ({ day, text }) => `${shortDay(day, true)}, a lesson: “${text}”`,
  'picture-month': ({ day }) => shortMonth(day),
  'picture-day': ({ day, withYear }) => shortDay(day, withYear),
};
