import { playPair, TAKES, takePairs } from './tests/bench/engine/takes';

const t: any = { 'kit-b-solo': {}, 'kit-b-groove': {} };
for (const take of TAKES)
  for (const pair of takePairs(take)) {
    const p = playPair(pair);
    const c = t[take];
    c[`end ${p.end}`] = (c[`end ${p.end}`] ?? 0) + 1;
    c[`list ${p.listed}`] = (c[`list ${p.listed}`] ?? 0) + 1;
    c.wrongReadings = (c.wrongReadings ?? 0) + p.wrong;
    if (process.argv[2]) console.log(take, pair.drum, pair.a, pair.b, p.end, p.listed, p.drums);
  }
console.log(JSON.stringify(t));
