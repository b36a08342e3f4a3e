/** The JSON of `listen`, field by field, as docs/formats/command-line.md promises it: inner types may change, these keys may not. */
import type { Finding } from '@evenhand/core/finding';
import type { Measurement } from '@evenhand/core/measurement';
import { say } from '@evenhand/core/words';
import { db, ms, sec, share } from './figures.ts';

/** Everything of `listen/1` between `format` and `problems`. */
export const listenJson = (measurement: Measurement, findings: readonly Finding[]) => ({
  tempoBpm: measurement.tempoBpm,
  trackedBpm: share(measurement.trackedBpm),
  offsetMs: ms(measurement.offsetMs),
  grid: measurement.grid.map((point) => ({ beat: point.beat, sec: sec(point.sec) })),
  strokes: measurement.strokes.map(strokeJson),
  extra: measurement.extra.map(({ timeSec, levelDb }) => ({ timeSec: sec(timeSec), levelDb: db(levelDb) })),
  places: measurement.places.map(placeJson),
  pairs: measurement.pairs.map(pairJson),
  findings: findings.map((finding) => ({
    cause: finding.cause,
    indices: finding.indices,
    weight: share(finding.weight),
    code: finding.code,
    text: say(finding),
    params: finding.params,
    ties: (finding.ties ?? []).map((tie) => ({ what: tie.params.what, text: say(tie) })),
    rivals: (finding.rivals ?? []).map(rivalJson),
    fits: (finding.fits ?? []).map((fit) => ({ code: fit.code, text: say(fit) })),
  })),
});

const rivalJson = (rival: NonNullable<Finding['rivals']>[number]) => ({
  cause: rival.cause,
  indices: rival.indices,
  weight: share(rival.weight),
  text: say(rival),
  params: rival.params,
});

const strokeJson = (stroke: Measurement['strokes'][number]) => ({
  cycle: stroke.cycle,
  index: stroke.index,
  limb: stroke.limb,
  status: stroke.status,
  expectedSec: sec(stroke.expectedSec),
  playedSec: sec(stroke.playedSec),
  errorMs: ms(stroke.errorMs),
  levelDb: db(stroke.levelDb),
  confidence: share(stroke.confidence),
  graces: stroke.graces.map(({ playedSec, levelDb }) => ({ playedSec: sec(playedSec), levelDb: db(levelDb) })),
});

const placeJson = (place: Measurement['places'][number]) => ({
  index: place.index,
  limb: place.limb,
  count: place.count,
  biasMs: ms(place.biasMs),
  biasLowMs: ms(place.biasLowMs),
  biasHighMs: ms(place.biasHighMs),
  spreadMs: ms(place.spreadMs),
  levelDb: db(place.levelDb),
  missed: place.missed,
  notAudible: place.notAudible,
});

const pairJson = (pair: Measurement['pairs'][number]) => ({
  first: pair.first,
  second: pair.second,
  limb: pair.limb,
  gapMs: ms(pair.gapMs),
  gapShare: share(pair.gapShare),
  gapLow: share(pair.gapLow),
  gapHigh: share(pair.gapHigh),
  levelStepDb: db(pair.levelStepDb),
  extraBounces: pair.extraBounces,
});
