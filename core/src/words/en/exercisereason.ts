/** English for why an exercise is there. */
import type { ExerciseReason } from '../../exercise/index.ts';
import type { Sentences } from '../sentences.ts';
import { capital, counted, countedAloud, drumName, limbName, listed, pieceName, placesListed, strokesOf } from './counted.ts';
import { noteValue } from './notevalue.ts';

export const exerciseReasons: Sentences<ExerciseReason> = {
  'reason-own': () => 'Written by hand.',
  'reason-own-from': ({ text }) => `Your own, from “${text}”.`,
  'reason-phrase': () => 'The phrase itself, to hear where it stands now.',
  'reason-whole': ({ cell }) => `Put ${cell} back where it came from and listen whether it now sits in the phrase.`,
  'reason-cell-alone': ({ cell, strokeCount }) =>
    strokeCount === 1
      ? `Only ${cell}, over and over: nothing else to think about, so every stroke can be heard against the one before.`
      : `Only ${cell}, over and over without a rest: if it is uneven here too, the trouble is in these strokes and not in the way into them.`,
  'reason-cell-space': ({ cell }) => `${cell}, then a rest at least as long: time to hear what was just played and to set up the next.`,
  'reason-cell-beat': ({ cell, beats }) =>
    beats === 1
      ? `${cell} begins on every beat, so the click tells at once where its first stroke lands.`
      : `${cell} begins on the beat, every ${beats} beats.`,
  'reason-cell-bar': ({ cell, bars }) =>
    `${cell} once ${bars === 1 ? 'a bar' : `every ${bars} bars`}, always on 1, cold: nothing before it helps, and the time until the next is there to get ready.`,
  'reason-under-hats': ({ cell }, noteNames) =>
    `The hand keeps ${noteValue(1, noteNames)} and tells the foot where ${cell} begins. Four bars with the heel down, then four with the heel up.`,
  'reason-breath': ({ cell, restSlots, perBeat }, noteNames) =>
    `${capital(counted(restSlots))} of the ${noteValue(perBeat, noteNames)} before ${cell} ${restSlots === 1 ? 'is a rest' : 'are rests'}: if ${cell} is even now, the strokes before it were in the way.`,
  'reason-one-at-a-time': ({ cell, stickings }) =>
    `Each stroke of ${cell} alone in its own place, then ${stickings.length === 3 ? 'both' : `all ${counted(stickings.length - 1)}`}: the one that comes late or soft alone is the one to work on.`,
  'reason-approach': ({ cell }) =>
    `${cell} with two strokes before it, then four, then six, and back to four, each from a standing start: find out how long a run-up it still holds after.`,
  'reason-built-up': ({ stickings }) =>
    `The first two strokes with a rest after them, then more, then all of ${stickings.at(-1)}: the stroke that makes it wobble is the one just added.`,
  'reason-flat-flams': ({ flamCount }) =>
    `${flamCount === 1 ? 'The flam' : flamCount === 2 ? 'Both flams' : `All ${counted(flamCount)} flams`} first with both hands at once, on purpose. Then let the small stroke come just a little before, from close to the head.`,
  'reason-together': ({ cell, together }) =>
    `In ${together} the two strokes of ${cell} fall at the same time, so it is heard which limb is late. Then one after the other, each as sure of its place.`,
  'reason-one-hand': ({ limb, strokeCount }) =>
    `${capital(limbName(limb))} alone plays its ${counted(strokeCount)} ${strokeCount === 1 ? 'stroke' : 'strokes'} of the phrase and the rest is silence. Then everything comes back, and this hand should do nothing else than before.`,
  'reason-both-leads': ({ from, sticking }) => `${from}, then ${sticking}, the same with the hands exchanged: neither hand can rest on its own half.`,
  'reason-one-hand-around': ({ hand, drums }) =>
    `${capital(limbName(hand))} moves one drum down each time through (${listed(drums.map(drumName))}), the other hand stays on the snare: the melody is in one hand, and the other must not follow it.`,
  'reason-across-beat': ({ cell }) =>
    `The first stroke of ${cell} falls just before the beat and the next one on it, so the click is in the middle of the cell.`,
  'reason-overload': ({ cell, threes, back }) =>
    `${threes} asks for three in a row where ${back === cell ? 'the cell' : 'the phrase'} has two. Going back to ${back} straight after, two feel easy.`,
  'reason-check': ({ check, doubled, limb }) =>
    `A bar of ${check} sets the speed. Then ${limb === 'K' || limb === 'H' ? `every stroke of ${limbName(limb)} becomes two` : 'every stroke becomes two'} in the same time: ${doubled}. Nothing else should change.`,
  'reason-second-accented': ({ sticking }) =>
    `The second stroke of each pair is the one that gets lost. With the accent on it, ${sticking}, it has to be played, not left to bounce.`,
  'reason-hand-to-hand': ({ model, feet }) =>
    feet
      ? `${model} has the same rhythm in the hands alone. Then the feet join in, and it should sound just as even.`
      : `${model} has the same rhythm hand to hand. Then the phrase itself, and it should sound just as even.`,
  'reason-other-hand': ({ model, cell }) => `First ${model}, then ${cell} in the same places: each hand hears how the other one does it.`,
  'reason-value': ({ perBeat, wasPerBeat }, noteNames) =>
    `The same strokes as ${noteValue(perBeat, noteNames)} instead of ${noteValue(wasPerBeat, noteNames)}, so that the beat falls on other strokes. Choose the tempo anew.`,
  'reason-moved-to-hands': ({ sticking, strokeCount }) =>
    `${sticking} with ${strokeCount === 1 ? 'the one stroke' : `the ${counted(strokeCount)} strokes`} of the feet played by a hand: for a day without a pedal, and to hear how the rhythm goes.`,
  'reason-other-lead': ({ from }) => `${from} with right and left exchanged: what one hand knows, the other can borrow.`,
  'reason-leaning': ({ cell, second, first }) =>
    `Everything but ${cell} is ghosted, so its two strokes stand free. First the second one leads, ${second}, then the first, ${first}: whoever can choose can also play them alike.`,
  'reason-soft-cell': ({ cell }) => `${cell} is ghosted and every other stroke is loud: it has to stay in time while it is hardly heard.`,
  'reason-moving-accent': ({ strokeCount }) =>
    `${capital(counted(strokeCount))} times through, each time the accent one stroke further, so every stroke has to be the loud one once. The others stay as they were.`,
  'reason-long-runs': ({ times }) =>
    `Once through and a rest, then ${listed(times.slice(1).map((count) => (count === 2 ? 'twice' : `${counted(count)} times`)))} without one: stop making it longer where it no longer sounds like the first.`,
  'reason-soft-surface': ({ surface }) =>
    `First on a ${drumName(surface)}, which gives nothing back, so every stroke has to be lifted. Then as it was, with the rebound back for free. Strokes on a ${drumName(surface)} are hardly heard: go by feel.`,
  'reason-crescendo': ({ bars }) =>
    `${capital(counted(bars))} bars, each louder than the one before: ghosted, only the beats louder, all of it, all of it accented. The tempo does not grow with it.`,
  'reason-groups': ({ lengths }) =>
    `An accent on the first stroke of each group (${lengths.join(' + ')}): the ear hears groups, and the cell has its place in one.`,
  'reason-varied': ({ begun, accentCount, right, left }) => {
    const news = [
      ...(begun ? ['another stroke on 1'] : []),
      ...(accentCount > 0 ? [accentCount === 1 ? 'an accent' : `${counted(accentCount)} accents`] : []),
      ...(right === '' && left === '' ? [] : ['other drums']),
    ];
    return `The phrase with ${listed(news)}: ${news.length === 1 ? 'one new thing' : `${counted(news.length)} new things`}, the strokes as they were.`;
  },
  'reason-all-soft': () => 'Every stroke ghosted: without force only control is left, and what is uneven shows.',
  'reason-accent': ({ place, limb, inCell }) =>
    `The accent on stroke ${place}, ${limbName(limb)}${inCell ? ', in the cell' : ''}, and nowhere else: the strokes beside it must not get louder with it.`,
  'reason-accents': ({ places }) => `Accents on strokes ${listed(places.map(String))} and nowhere else.`,
  'reason-doubled-kick': ({ kickCount }) =>
    `${kickCount === 1 ? 'The kick has' : `Each of the ${counted(kickCount)} kicks has`} a floor tom with it: a flam between hand and foot tells which of them is early.`,
  'reason-over-feet': ({ feet }) =>
    feet === 'both'
      ? 'Kick and hi-hat foot keep the time underneath, so the hands have something to line up with, and the feet stay steady.'
      : `${capital(limbName(feet))} plays every beat underneath: it must not be pulled along by the phrase.`,
  'reason-split': ({ cell, first, second }) =>
    `The two strokes of ${cell} on ${drumName(first)} and ${drumName(second)}: the second cannot be left to bounce when it has to travel.`,
  'reason-by-limb': ({ right, left }) =>
    `Right on the ${drumName(right)}, left on the ${drumName(left)}: each hand sounds different, so it can be heard which one is uneven.`,
  'reason-cycle-lower': ({ drums }) => `Once on each of ${listed(drums.map(drumName))}: the same strokes, another rebound every time.`,
  'reason-around': ({ drums }) =>
    `Every hand stroke on the next of ${listed(drums.map(drumName))}: the way between the drums must not be heard in the time.`,
  'reason-crash-on-one': () => 'Crash and kick mark 1, and the phrase goes straight on from there.',
  'reason-accents-out': ({ accentCount, right, left }) =>
    `The ${accentCount === 1 ? 'accent moves' : 'accents move'} out, right to the ${drumName(right)}, left to the ${drumName(left)}: a melody that comes from the sticking itself.`,
  'reason-drums': ({ ways, drums }) =>
    `One of the ${ways} ways to lay ${counted(drums.length)} hand ${drums.length === 1 ? 'stroke' : 'strokes'} over snare and floor tom.`,
  'reason-groove': ({ stroke, hand, beats, lengths, replacedOn, replaced, feet, hats, rolls }) =>
    `Begun on stroke ${stroke}, ${replacedOn.length === 0 ? `${limbName(hand)} falls on ${listed(beats.map(String))} by itself` : `with ${replacedText(replacedOn, replaced, hand)}, ${limbName(hand)} has ${listed(beats.map(String))}`}: the backbeat. Its unaccented strokes are ghosted${rolls ? ', rolls apart' : ''}${lengths.at(-1) === lengths[0] ? '' : `, and every bar begins anew (${lengths.join(' + ')})`}.${addedFeet(feet, hats)}`,
  'reason-moved': ({ cell, over, offsets, inBar }) =>
    `${over === 'hats' ? 'Under the cymbal and a backbeat' : 'Over the feet'}, ${cell} stands on another place of the beat in each of the ${counted(offsets.length)} bars, ${inBar === 1 ? 'once' : inBar === 2 ? 'twice' : `${counted(inBar)} times`} in a bar: a cell that holds in one place only does not hold yet.`,
  'reason-moved-one': ({ cell, places, perBeat, over }) =>
    `${cell} as “${countedAloud(places, perBeat)}” ${over === 'hats' ? 'under cymbal and backbeat' : 'over the feet'}: one place until it is safe, then the next.`,
  'reason-fill-bar': ({ lengths, landing, timeBars }) =>
    `${capital(counted(timeBars))} bars to settle, one to play it (${lengths.join(' + ')}), ${landed(landing)}: as it will be needed. It is only a burst, so try it a little faster than the plain exercise.`,
  'reason-resolved': ({ lengths, landing }) =>
    `The phrase does not fill the bar and is cut where it ends (${lengths.join(' + ')}), ${landed(landing)}: keep counting, and 1 is not a surprise.`,
  'reason-fill-short': ({ beats, landing }) =>
    `Only the last ${beats === 1 ? 'beat' : `${counted(beats)} beats`} of two bars, ${landed(landing)}: a little of it, often.`,
  'reason-fill-two-bars': ({ lengths, landing }) => `Two bars without the safety of the beat (${lengths.join(' + ')}), ${landed(landing)}.`,
  'reason-time-and-phrase': ({ bars, landing }) =>
    `${capital(counted(bars))} bars of groove and ${counted(bars)} of the phrase, ${landed(landing)}: the change there and back is where it falls apart in music.`,
  'reason-in-piece': ({ recorded, title, place, tempoBpm, timeBars, bars, landing, sticking }) =>
    `${recorded ? 'The recording goes round and does not wait' : `As it will be needed in ${pieceName(title, place)} at ${Math.round(tempoBpm)}`}: ${counted(timeBars)} ${timeBars === 1 ? 'bar' : 'bars'} of time, ${counted(bars)} of ${sticking}, ${landed(landing)}. What holds alone has to hold beside other people.`,
  'reason-free': ({ cell, bars }) =>
    `${capital(counted(bars))} bars of groove, then ${counted(bars)} that are yours: ${cell} opens each of them, and what comes after it is free. What is free is not written, so your own word counts here.`,
  'reason-in-time': ({ cell, beat }) =>
    `A plain groove, and once in two bars ${cell} before the backbeat on ${beat}: it must not push the beat along.`,
  'reason-feet-in-time': ({ kickCount }) =>
    `The hands keep time and the feet play what they play in the phrase, ${counted(kickCount)} ${kickCount === 1 ? 'stroke' : 'strokes'} each time through: the foot has to find its place without the hands before it.`,
  'reason-rudiment': (params) => rudiment(params),
  'reason-linked': ({ from, to, joinRun, joinLimb, link }) =>
    `${from} straight into ${to} would make ${strokesOf(joinRun, joinLimb)} in a row. ${link === '' ? 'A rest up to the bar line keeps them apart' : `One stroke of ${limbName(link)} and a rest keep them apart`}.`,
  'reason-inversion': (params) => `${placed(params)}${join(params.from, params.joinRun, params.joinLimb)}`,
};

type Of<Code extends ExerciseReason['code']> = Extract<ExerciseReason, { readonly code: Code }>['params'];

const landed = (landing: string): string =>
  landing === 'both' ? 'then crash and kick on 1' : 'then the crash alone on 1, since the kick has just played';

const replacedText = (on: readonly number[], replaced: readonly string[], hand: string): string =>
  listed(on.map((beat, i) => `${replaced[i] === '-' ? 'the rest' : limbName(replaced[i]!)} on ${beat} replaced by ${limbName(hand)}`));

function addedFeet(feet: string, hats: string): string {
  if (feet === '') return '';
  const where = hats === 'quarters' ? ' on every beat' : '';
  return ` Added: ${feet === 'KH' ? `kick and hi-hat foot${where}` : feet === 'K' ? 'the kick' : `the hi-hat foot${where || ' on the backbeat'}`}.`;
}

function rudiment({ word, times, hold, hand, foot, cell, lead }: Of<'reason-rudiment'>): string {
  const part = word === cell ? word : `${word}, part of ${cell},`;
  const given =
    foot === '' ? '' : ` The ${hand === 'R' ? 'right' : 'left'} hand’s strokes are given to ${foot === 'K' ? 'the kick' : 'the hi-hat foot'}.`;
  const led = lead === 'L' ? ' Led by the left.' : '';
  if (hold === 'graces-counted') return `It has ${part} when the small strokes count too.${led}`;
  const held = `It holds ${part} ${times === 1 ? 'once' : times === 2 ? 'twice' : `${counted(times)} times`} each time through`;
  return `${held}${hold === 'graces-between' ? ', with small strokes between' : ''}: the same movement in an old, well-known shape.${given}${led}`;
}

function placed({ cell, place, perBeat, beginsOn, beganOn }: Of<'reason-inversion'>): string {
  if (place === 'first') return `${cell} opens the cycle, so it comes without a run-up the first time.`;
  if (place === 'last') return `${cell} closes the cycle and leads straight back into the start.`;
  if (place === 'across') return `${cell} is split: it begins at the end of the cycle and ends at its start, so the repeat falls inside it.`;
  if (beginsOn.join() === beganOn.join()) return 'Another stroke stands on 1, so the phrase is heard, and counted, from another side.';
  return `${cell} now begins on ${placesListed(beginsOn, perBeat)}; in the phrase as it stands, on ${placesListed(beganOn, perBeat)}.`;
}

/** What happens on the way from the phrase as given into this one. */
function join(from: string, run: number, limb: string): string {
  if (run === 0) return '';
  return ` Coming straight from ${from}, the join makes ${strokesOf(run, limb)} in a row: leave a beat between, or take it on purpose.`;
}
