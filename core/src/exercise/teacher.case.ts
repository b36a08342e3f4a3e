/**
 * What a teacher would write in an evening for four cells that the issue does not write out: twelve ideas each, common practice, no source.
 * They were written down before the shelf had been looked at for these cells, and have not been changed to suit it.
 */

/** One idea of a list: what a teacher would call it, and how it is known when it stands on a shelf, by title or by what is played. */
export interface TeacherIdea {
  readonly of: string;
  /** Found in `title | sticking | drums`. */
  readonly found: RegExp;
}

/** A sticking point and twelve ideas for it. */
export interface TeacherList {
  readonly sticking: string;
  readonly perBeat: number;
  /** From 0. */
  readonly cell: { readonly first: number; readonly last: number };
  readonly ideas: readonly TeacherIdea[];
}

export const TEACHER_LISTS: readonly TeacherList[] = [
  {
    sticking: 'RLRRLL',
    perBeat: 6,
    cell: { first: 4, last: 5 },
    ideas: [
      { of: 'singles at half speed, then every one doubled', found: /Singles, then doubled.*LLRR/ },
      { of: 'the left double with a rest as long after it', found: /\| LL----? ?\|/ },
      { of: 'the accent on the second of the double', found: /L>L/ },
      { of: 'the right hand shows it: RR, then LL', found: /other hand shows it/ },
      { of: 'hand to hand first, then the phrase', found: /RLRLRL, .* of RLRRLL/ },
      { of: 'three of the left, then two', found: /LLL/ },
      { of: 'the left alone as it lies in the phrase, then both', found: /-L--LL/ },
      { of: 'both leads: RLRRLL LRLLRR', found: /RLRRLLLRLLRR/ },
      { of: 'a rudiment that has the double: the open roll or the paradiddle-diddle', found: /Double Stroke Open Roll|Paradiddle-Diddle/ },
      { of: 'the double over two drums, snare and high tom', found: /LL over two drums/ },
      { of: 'all of it soft and low', found: /\(R\)\(L\)\(R\)\(R\)\(L\)\(L\)/ },
      { of: 'three bars of time, one of the phrase', found: /three bars of time, one bar/ },
    ],
  },
  {
    sticking: 'l>RLRr>LRL',
    perBeat: 3,
    cell: { first: 0, last: 1 },
    ideas: [
      { of: 'both hands together, then opened to a flam', found: /Both hands together, then the flam/ },
      { of: 'the flam and its tap, then a rest', found: /\| l>RL-+ \|/ },
      { of: 'the triplets with their accents and no small strokes, then with them', found: />RLR>LRL.*l>RLRr>LRL/ },
      { of: 'flams from hand to hand, slowly: a rudiment', found: /Flam \(rudiment 20\)/ },
      {
        of: 'another rudiment that turns from the flam to the hand of the small stroke',
        found: /(Flam Accent|Flamacue|Flam Paradiddle|Pataflafla|Swiss)/,
      },
      { of: 'the other hand: rL R, then lR L', found: /other hand shows it|other hand leads|Both leads/ },
      { of: 'all of it soft, sticks low', found: /All of it soft/ },
      { of: 'the accent somewhere else, the flams where they are', found: /accent that moves|One accent/ },
      { of: 'the phrase in sixteenths, so that the flam leaves the beat', found: /In 16ths|In sixteenths/ },
      { of: 'right on the floor tom, left on the snare: both strokes of the flam heard', found: /right on the floor tom, left on the snare/ },
      { of: 'a groove with the flam in it', found: /A groove|moved through the beat/ },
      { of: 'three bars of time, one of the phrase, down the toms', found: /three bars of time, one bar/ },
    ],
  },
  {
    sticking: 'RLK',
    perBeat: 3,
    cell: { first: 0, last: 2 },
    ideas: [
      { of: 'once, then a rest: the kick has time to come back', found: /\| RLK---+ \|/ },
      { of: 'built up: RL and a rest, then the kick', found: /RL-|Built up: RL, RLK/ },
      { of: 'the hands show the foot: RLR LRL, then RLK', found: /hands show the foot/ },
      { of: 'left hand and kick together, then one after the other', found: /RL\+K-|together first/ },
      { of: 'the floor tom with the kick', found: /RLR\+K/ },
      { of: 'both leads: RLK LRK', found: /RLKLRK/ },
      { of: 'begun on the kick', found: /stroke 3: KRL/ },
      { of: 'the accent in each place, or moving', found: /accent that moves|One accent/ },
      { of: 'in sixteenths over the bar, landing on 1', found: /In 16ths|In sixteenths|landing on 1/ },
      { of: 'right hand around the drums', found: /around the drums|right on the floor tom|down the drums/ },
      { of: 'over the hi-hat foot', found: /over the hi-hat foot/ },
      { of: 'three bars of time, one of the phrase', found: /three bars of time, one bar/ },
    ],
  },
  {
    sticking: 'RLLRLLKK',
    perBeat: 4,
    cell: { first: 6, last: 7 },
    ideas: [
      { of: 'the kicks under hi-hat quarters', found: /KK-- under hi-hat/ },
      { of: 'the hands show the foot', found: /hands show the foot/ },
      { of: 'one kick at a time', found: /RLLRLLK-, RLLRLL-K/ },
      { of: 'a breath before the kicks', found: /RLLR--KK/ },
      { of: 'a run-up that grows: a few strokes of the phrase, then more, then all', found: /run-up that grows/ },
      { of: 'three kicks, then two', found: /KKK/ },
      { of: 'the accent on either kick, hands ghosted', found: /K>K, .*>KK/ },
      { of: 'the floor tom with the kicks', found: /RLLRLLR\+KL\+K/ },
      { of: 'the pair on every place of the beat', found: /“1 e”, “e &”, “& a” and “a 1”/ },
      { of: 'begun on the second kick, straddling the bar line', found: /stroke 8: KRLLRLLK/ },
      { of: 'the groups heard: an accent at the head of each, 3 + 3 + 2', found: />RLL>RLL>KK/ },
      { of: 'three bars of time, one of the phrase', found: /three bars of time, one bar/ },
    ],
  },
];
