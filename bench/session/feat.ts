import { createKnocks, stepKnocks } from '/tmp/w/session/core/src/session/knocks.ts';
import * as K from '/tmp/w/session/core/src/session/knocks.ts';
import { renderStrokes } from '/tmp/w/session/core/src/sound/index.ts';
import { seededRandom } from '/tmp/w/session/core/src/random.ts';
const RATE=48000;
for (const v of ['sticks','snare','rim','cross-stick','pad','kick','high-tom','mid-tom','floor-tom','hi-hat','open-hi-hat','hi-hat-foot','ride','ride-bell','crash']) {
  for (const levelDb of [-18,-36]) {
  const s=renderStrokes(Array.from({length:6},(_,i)=>({timeSec:0.5+i*0.6,surface:v,levelDb})),{sampleRateHz:RATE,durationSec:5,random:seededRandom(1)});
  const r=seededRandom(2); for(let i=0;i<s.length;i++) s[i]+= (r()-.5)*0.0008;
  const st=createKnocks(RATE); const out=stepKnocks(st,s,0);
  console.log(v,levelDb,out.length,out.filter(k=>k.sticks).length, out.map(k=>Math.round(k.frame/RATE*1000)-500-Math.round((k.frame/RATE-.5)/.6)*600).join(','), JSON.stringify((globalThis as any).F?.slice(-1)));
  }
}
