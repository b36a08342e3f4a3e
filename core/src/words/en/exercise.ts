/** English for what an exercise is called, and what can be wrong with one that was asked for. */
import type { ExerciseProblem, ExerciseReason, ExerciseTitle } from '../../exercise/index.ts';
import type { Sentences } from '../sentences.ts';
import { capital, counted, countedAloud, drumName, limbName, listed, pieceName } from './counted.ts';
import { exerciseReasons } from './exercisereason.ts';
import { noteValue } from './notevalue.ts';

const exerciseTitles: Sentences<ExerciseTitle> = {
  'title-own': ({ text }) => text,
  'title-whole': ({ sticking }) => `The phrase as it stands: ${sticking}`,
  'title-cell-alone': ({ sticking }) => `The cell alone: ${sticking}`,
  'title-cell-space': ({ sticking }) => `The cell with space: ${sticking}`,
  'title-cell-beat': ({ sticking }) => `The cell on the beat: ${sticking}`,
  'title-cell-bar': ({ cell, bars }) => `The cell once ${bars === 1 ? 'a bar' : `every ${bars} bars`}: ${cell}, then rest`,
  'title-under-hats': ({ sticking }, noteNames) => `${sticking} under hi-hat ${noteValue(1, noteNames)}`,
  'title-breath': ({ sticking }) => `A breath before the cell: ${sticking}`,
  'title-one-at-a-time': ({ stickings }) => `One stroke at a time: ${stickings.join(', ')}`,
  'title-approach': ({ stickings }) => `A run-up that grows: ${stickings.join(', ')}`,
  'title-built-up': ({ stickings }) => `Built up: ${stickings.join(', ')}`,
  'title-flat-flams': ({ flat, sticking }) => `Both hands together, then the flam: ${flat}, ${sticking}`,
  'title-together': ({ cell, together, sticking }) => `${cell} together first, then one after the other: ${together}, ${sticking}`,
  'title-one-hand': ({ limb, alone, sticking }) => `Only ${limbName(limb)}, then all of it: ${alone}, ${sticking}`,
  'title-both-leads': ({ sticking, from }) => `Both leads in turn: ${from} ${sticking}`,
  'title-one-hand-around': ({ sticking, hand }) => `${sticking}: ${limbName(hand)} goes around the drums`,
  'title-across-beat': ({ cell }) => `${cell} across the beat`,
  'title-overload': ({ threes, back }) => `One too many, then back: ${threes}, ${back}`,
  'title-check': ({ check, doubled }) => `Singles, then doubled: ${check}, ${doubled}`,
  'title-second-accented': ({ sticking }) => `The accent on the second: ${sticking}`,
  'title-hand-to-hand': ({ model, sticking, feet, bars }) =>
    `${feet ? 'The hands show the foot' : 'Hand to hand first'}: ${barsOf(bars)} of ${model}, ${barsOf(bars)} of ${sticking}`,
  'title-other-hand': ({ model, cell }) => `The other hand shows it: ${model}, then ${cell}`,
  'title-value': ({ sticking, perBeat }, noteNames) => `In ${noteValue(perBeat, noteNames)}: ${sticking}`,
  'title-moved-to-hands': ({ moved }) => `The foot’s strokes in the hands: ${moved}`,
  'title-other-lead': ({ sticking }) => `The other hand leads: ${sticking}`,
  'title-leaning': ({ second, first }) => `Leaning into the second, then the first: ${second}, ${first}`,
  'title-soft-cell': ({ sticking }) => `Soft cell, loud rest: ${sticking}`,
  'title-moving-accent': ({ sticking }) => `An accent that moves through ${sticking}`,
  'title-long-runs': ({ sticking, times }) => `Longer and longer: ${sticking} ${listed(times.map(timesSaid))} through`,
  'title-soft-surface': ({ sticking, surface }) => `On a ${drumName(surface)}, then back: ${sticking}`,
  'title-crescendo': ({ sticking, bars }) => `Louder over ${counted(bars)} bars: ${sticking}`,
  'title-groups': ({ sticking, lengths }) => `The groups heard, ${lengths.join(' + ')}: ${sticking}`,
  'title-varied': ({ sticking, right, left }) => {
    const where = [right && `right on the ${drumName(right)}`, left && `left on the ${drumName(left)}`].filter((each) => each !== '');
    return `Varied: ${[sticking, ...where].join(', ')}`;
  },
  'title-all-soft': ({ sticking }) => `All of it soft: ${sticking}`,
  'title-accent': ({ sticking }) => `One accent: ${sticking}`,
  'title-accents': ({ sticking }) => `Two accents: ${sticking}`,
  'title-doubled-kick': ({ made }) => `The floor tom with the kick: ${made}`,
  'title-over-feet': ({ sticking, feet }) =>
    feet === 'both' ? `${sticking} over kick and hi-hat foot` : `${sticking} over ${feet === 'K' ? 'the kick' : 'the hi-hat foot'} on every beat`,
  'title-split': ({ cell, first, second }) => `${cell} over two drums: ${drumName(first)}, ${drumName(second)}`,
  'title-by-limb': ({ sticking, right, left }) => `${sticking}: right on the ${drumName(right)}, left on the ${drumName(left)}`,
  'title-cycle-lower': ({ sticking }) => `${sticking} down the drums, one drum each time`,
  'title-around': ({ sticking }) => `${sticking} around the drums, a drum each hand stroke`,
  'title-crash-on-one': ({ sticking }) => `${sticking} with crash and kick on 1`,
  'title-accents-out': ({ sticking }) => `${sticking} with its accents on the toms`,
  'title-drums': ({ sticking, drums }) => `${sticking} on ${listed(drums.map(drumName))}`,
  'title-groove': ({ sticking, stroke, beats, hand, meter }) =>
    `A groove${meter === '' ? '' : ` in ${meter}`}, begun on stroke ${stroke}: ${sticking}, ${limbName(hand)} on ${listed(beats.map(String))}`,
  'title-moved': ({ cell, perBeat, places, offsets }) =>
    `${cell} moved through the beat: ${listed(
      offsets.map(
        (offset) =>
          `“${countedAloud(
            places.map((slot) => slot + offset),
            perBeat,
          )}”`,
      ),
    )}`,
  'title-moved-one': ({ cell, perBeat, places }) => `${cell} as “${countedAloud(places, perBeat)}”`,
  'title-fill-bar': ({ sticking, timeBars }) => `A fill: ${counted(timeBars)} bars of time, one bar of ${sticking}`,
  'title-resolved': ({ sticking, lengths }) => `${sticking} over the bar, landing on 1: ${lengths.join(' + ')}`,
  'title-fill-short': ({ sticking, beats }) => `A fill of ${beats === 1 ? 'one beat' : `${counted(beats)} beats`}: ${sticking}`,
  'title-fill-two-bars': ({ sticking }) => `A fill of two bars: ${sticking}`,
  'title-time-and-phrase': ({ sticking, bars }) => `${capital(counted(bars))} bars of time, ${counted(bars)} of ${sticking}`,
  'title-in-piece': ({ recorded, title, place, tempoBpm, timeBars, bars, sticking }) =>
    `${recorded ? 'Over your recording of' : 'In'} ${pieceName(title, place)} at ${Math.round(tempoBpm)}: ${barsOf(timeBars)} of time, ${barsOf(bars)} of ${sticking}`,
  'title-free': ({ cell, bars }) => `${capital(counted(bars))} bars of time, ${counted(bars)} free with ${cell}`,
  'title-in-time': ({ cell, beat }) => `${cell} once in two bars of time, before ${beat}`,
  'title-feet-in-time': ({ sticking }) => `Only the feet of ${sticking}, under ride and backbeat`,
  'title-rudiment': ({ name, number, sticking }) => `${name} (rudiment ${number}): ${sticking}`,
  'title-linked': ({ from, to, link }) => `${from} and ${to} with a ${link === '' ? 'breath' : 'linking note'} between`,
  'title-inversion': ({ sticking, stroke }) => `Start on stroke ${stroke}: ${sticking}`,
};

const timesSaid = (times: number): string => (times === 1 ? 'once' : times === 2 ? 'twice' : `${counted(times)} times`);

const barsOf = (bars: number): string => `${counted(bars)} ${bars === 1 ? 'bar' : 'bars'}`;

const exerciseProblems: Sentences<ExerciseProblem> = {
  'surfaces-count': ({ strokeCount, surfaceCount }) =>
    `The sticking has ${strokeCount} strokes, but ${surfaceCount} ${surfaceCount === 1 ? 'drum is' : 'drums are'} named. Name one for each stroke, or one per limb: R=ride L=snare.`,
  'surfaces-limb': ({ limb }) => `${limb} does not say which limb plays which drum. Write it as R=ride, with R, L, K or H before the =.`,
  'cell-outside': ({ first, last, strokeCount }) =>
    `The cell ${first + 1}-${last + 1} reaches outside the sticking, which has ${strokeCount} ${strokeCount === 1 ? 'stroke' : 'strokes'}. Choose from 1 to ${strokeCount}.`,
  'per-beat-range': ({ perBeat, limit }) =>
    `${perBeat} slots per beat cannot be counted. Choose a whole number from 1 to ${limit}: 2 for eighths, 3 for triplets, 4 for sixteenths.`,
};

export const exerciseSentences: Sentences<ExerciseTitle | ExerciseReason | ExerciseProblem> = {
  ...exerciseTitles,
  ...exerciseReasons,
  ...exerciseProblems,
};
