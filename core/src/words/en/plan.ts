/** English for what a plan says. */
import type { PlanProblem, PlanStatement } from '../../plan/index.ts';
import type { Sentences } from '../sentences.ts';
import { capital, counted, listed } from './counted.ts';
import { dayName } from './dayname.ts';
import { familyInside, familyName } from './familyname.ts';
import { tempoName } from './notevalue.ts';

export const planSentences: Sentences<PlanStatement | PlanProblem> = {
  'plan-aim-warm-up': ({ tempoBpm, perBeat }, noteNames) =>
    `Loosen up, soft and slow: ${tempoName(tempoBpm, perBeat, noteNames)}. Nothing is judged.`,
  'plan-aim-learn': ({ tempoBpm, perBeat }, noteNames) =>
    `Get to know it: every stroke there and in order, ${tempoName(tempoBpm, perBeat, noteNames)}.`,
  'plan-aim-clean': ({ tempoBpm, perBeat, goalBpm }, noteNames) =>
    tempoBpm >= goalBpm
      ? `Eight in a row as you want them, ${tempoName(tempoBpm, perBeat, noteNames)}: the tempo it is wanted at.`
      : `Eight in a row as you want them, from ${tempoName(tempoBpm, perBeat, noteNames)}, on the way to ${goalBpm}.`,
  'plan-aim-reference': ({ tempoBpm, perBeat }, noteNames) =>
    `Play it as it is, ${tempoName(tempoBpm, perBeat, noteNames)}: this take is there to compare with.`,
  'plan-aim-phrase': ({ tempoBpm, perBeat }, noteNames) => `The phrase, and make it sound good: ${tempoName(tempoBpm, perBeat, noteNames)}.`,
  'plan-aim-easy': ({ tempoBpm, perBeat }, noteNames) => `Relaxed and clean, ${tempoName(tempoBpm, perBeat, noteNames)}. Not faster today.`,
  'plan-aim-sound': ({ tempoBpm, perBeat }, noteNames) => `Stay ${tempoName(tempoBpm, perBeat, noteNames)} and make it sound good.`,
  'plan-aim-bursts': ({ tempoBpm, perBeat }, noteNames) =>
    `Once through ${tempoName(tempoBpm, perBeat, noteNames)}, then as long a rest. Stay loose; whether it is clean does not matter yet.`,
  'plan-aim-own': ({ tempoBpm, perBeat }, noteNames) => `Your own, as you like it, ${tempoName(tempoBpm, perBeat, noteNames)}.`,
  'plan-reason-warm-up': () => 'Warm hands first, before anything is asked of them.',
  'plan-reason-new': ({ family }) => `${familyName(family)}, new today: it gets its time in a row, and nothing else new begins beside it.`,
  'plan-reason-learning': ({ family }) => `${familyName(family)}, still new: it comes first until it is familiar.`,
  'plan-reason-again': ({ family }) =>
    `${familyName(family)} again, in short turns: mixed practice holds better later, even when it feels harder now.`,
  'plan-reason-returns': ({ family, sessionsAgo }) =>
    `${familyName(family)} back again after ${sessionsAgo} sessions, to see that it is still there.`,
  'plan-reason-phrase': () => 'The phrase itself: all the rest is for its sake.',
  'plan-reason-ends': () => 'The day ends on the phrase, so that it is the last thing the hands did.',
  'plan-reason-ends-in-music': () => 'The day ends on the phrase, in music.',
  'plan-reason-reference': ({ week }) =>
    `The take of week ${week}: the same phrase at the same tempo every week, so that then and now can be compared.`,
  'plan-reason-instead': () => 'In place of what cannot be played here today.',
  'plan-reason-stuck': ({ days }) => `It has not become faster on ${days} days, so one turn tries the tempo it is wanted at, a little at a time.`,
  'plan-reason-bursts': () => 'You asked for it: the tempo it is wanted at, a little at a time.',
  'plan-reason-check': () => 'Weeks later: to see that it is still there.',
  'plan-reason-own-warm-up': () => 'Your own warm-up. It is never judged.',
  'plan-reason-repertoire': () => 'Your own music, kept in every session.',
  'plan-tempo-known': () => 'Where it stands by your results.',
  'plan-tempo-wanted': () => 'The tempo it is wanted at: by your results it is there.',
  'plan-tempo-first': () => 'Nothing is known yet, so it starts at three quarters of the tempo it is wanted at.',
  'plan-tempo-shares-sticking': ({ fromBpm }) => `Its sticking is the phrase’s, so it starts a little below the phrase’s own ${fromBpm}.`,
  'plan-tempo-shares-rhythm': ({ fromBpm }) => `Its rhythm is the phrase’s, the sticking is not, so it starts below the phrase’s own ${fromBpm}.`,
  'plan-tempo-shares-nothing': ({ fromBpm }) => `It is a new setting, so it starts well below the phrase’s own ${fromBpm}.`,
  'plan-tempo-carried': ({ fromBpm, percent, pairCount }) =>
    `It starts ${percent} percent below the phrase’s own ${fromBpm}: so much did not come over in ${pairCount === 1 ? 'the exercise' : `the ${pairCount} exercises`} like it that you played.`,
  'plan-tempo-warm-up': () => 'Slow enough to be easy.',
  'plan-tempo-fixed': () => 'Always the same, so that the weeks can be compared.',
  'plan-tempo-below-planned': ({ fromBpm }) => `Another setting than planned, so it starts below the ${fromBpm} that were.`,
  'plan-tempo-tired': () => 'Slower, because your hands are tired.',
  'plan-tempo-slow-day': () => 'Slower, because today is a slow day.',
  'plan-tempo-back': ({ days }) => `A little slower, after ${days} days away. If it is all there, the tempo is soon back.`,
  'plan-tempo-hurt': () => 'Slow, because something hurt lately. Not faster today, even if it feels good.',
  'plan-tempo-bursts': () => 'The tempo it is wanted at, for a moment at a time.',
  'plan-tempo-up-and-back': () => 'Two steps up, one back.',
  'plan-tempo-stays': () => 'It stays at one tempo for these days, to make it sound good.',
  'plan-tempo-capped': ({ capBpm }) => `No faster than ${capBpm} for now: so it was agreed.`,
  'plan-tempo-own': () => 'The tempo you gave it.',
  'plan-unchanged': () => 'Nothing had to change.',
  'plan-session-moved': ({ from, to, count, until }) =>
    count > 1
      ? `${capital(counted(count))} planned sessions were not played, from ${dayName(from)}, to ${dayName(until)}. They come first now, from ${dayName(to)}, on; the others follow.`
      : `What was planned for ${dayName(from)} is now on ${dayName(to)}; the sessions after it follow.`,
  'plan-check-moved': ({ from, to }) => `On ${dayName(from)}, it was to be tried again, and was not played; that is on ${dayName(to)} now.`,
  'plan-ends-later': ({ from, to }) => `The last session moves from ${dayName(from)} to ${dayName(to)}.`,
  'plan-checks': ({ days }) => `To see that it stays, it is tried again on ${days.map((day) => dayName(day)).join(', and on ')}.`,
  'plan-opened-again': ({ sessionCount }) => `It is worked on again: ${sessionCount} sessions were planned from what is known of it.`,
  'plan-made-again': ({ sessionCount }) =>
    sessionCount === 1 ? 'The session that is left was planned again.' : `The ${sessionCount} sessions that are left were planned again.`,
  'plan-too-hard': ({ count }) =>
    count === 1
      ? 'One exercise is too hard now: it rests for some weeks, and others take its place.'
      : `${count} exercises are too hard now: they rest for some weeks, and others take their place.`,
  'plan-minutes-changed': ({ fromMinutes, toMinutes }) => `${toMinutes} minutes instead of ${fromMinutes}.`,
  'plan-reference-left-out': () => 'This week’s reference take is left out today.',
  'plan-exercise-instead': ({ blockCount }) =>
    blockCount === 1 ? 'One block is played as something else.' : `${blockCount} blocks are played as something else.`,
  'plan-slower': ({ tempoPercent }) => `Everything but the warm-up ${tempoPercent} percent slower.`,
  'plan-feet-heard': () => 'The feet play on a practice pedal and are heard.',
  'plan-feet-not-heard': () => 'The feet play on the floor, where they cannot be heard: your word counts for them.',
  'plan-feet-asked': () =>
    'There are feet in this session. Is there a practice pedal, do they play on the floor, do the hands take their strokes, or do only the hands prepare?',
  'plan-nothing-left': () => 'Nothing of today’s session can be played here. It is not lost: it stays in the plan.',
  'plan-hurts': () => 'No playing today. Rest; if it lasts or comes back, ask a licensed clinician.',
  'plan-quiet': () => 'Soft, on a pad: nothing is compared with other days.',
  'plan-no-microphone': () => 'Nothing is heard today: your word counts.',
  'plan-back': () => 'Nothing new today, and a little slower than before.',
  'plan-back-hurt': ({ tempoPercent }) =>
    `Slow today, because something hurt before: ${tempoPercent} percent slower, nothing new, and no tempo rises. If it hurts again, stop; if it lasts or comes back, see a licensed clinician.`,
  'plan-one-more': () => 'One more, short and with nothing new. The plan stays as it is.',
  'plan-minutes-range': ({ minutes, least, most }) =>
    `A session of ${minutes === 1 ? '1 minute' : `${minutes} minutes`} cannot be planned. Choose ${least} to ${most}.`,
  'plan-own-too-long': ({ minutes, own, least }) =>
    `Of ${minutes} minutes your own music takes ${own}; at least ${least} must be left. Give it fewer, or the session more.`,
  'plan-weeks-range': ({ weeks, most }) => `A plan of ${weeks} weeks cannot be made. Choose whole weeks, 1 to ${most}.`,
  'plan-closing': ({ families }) => `To close the phrase, these count: ${listed(families.map(familyInside))}.`,
  'plan-days-range': ({ days }) => `${days} days a week cannot be planned. Choose 1 to 7.`,
  'plan-start-not-a-day': ({ start }) => `${start} is not a day. Write it as year, month, day: 2025-01-06.`,
  'plan-tempo-range': ({ tempoBpm, least }) => `A phrase cannot be planned towards ${tempoBpm}. Type the tempo it is wanted at, ${least} or more.`,
  'plan-not-a-plan': () => 'This file holds no plan. Choose the JSON that the plan was written to.',
  'plan-session-unreadable': ({ session }) =>
    `Session ${session} of this plan cannot be read. Make the plan again, or mend its day, minutes and blocks.`,
  'plan-day-twice': ({ date }) => `This plan has two sessions on ${date}. Take one of them out.`,
  'plan-no-exercises': () => 'No exercises are on the shelf yet, so the plan holds the phrase alone. Lay some out, and plan again.',
};
