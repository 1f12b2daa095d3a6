/**
 * Leaves out of uPlot what the meter never asks of it: cursor, legend, selection, synchronised plots, time axes, ticks and
 * ranges found by itself, points, bars and splines. uPlot's own switches for that are in its sources only, and a page
 * should not carry 10 kB of code that can't run. Each cut must be found exactly as it stands here, so another release of uPlot stops the
 * build with its name. What is left is drawn and tested in tests/browser.
 */
import type { Plugin } from 'vite';

type Cut = [from: string | [begin: string, end: string], to: string];

const CUTS: Cut[] = [
  // time axes
  ['const FEAT_TIME          = true;', 'const FEAT_TIME = false;'],
  ['let isTime = mode == 1 && scales[s.scale].time;', 'const isTime = false;'],
  ['let isTime = sc.time;', 'const isTime = false;'],
  [['const [ timeIncrsMs', 'genTimeStuffs(1);'], ''],
  [['const [ timeIncrsS', 'genTimeStuffs(1e-3);'], ''],
  [['const _tzDate  = (opts.tzDate', '_fmtDate));\n\n\tconst activeIdxs'], 'const activeIdxs'],
  [
    's.value = isTime ? (isStr(sv) ? timeSeriesVal(_tzDate, timeSeriesStamp(sv, _fmtDate)) : sv || _timeSeriesVal) : sv || numSeriesVal;',
    '',
  ],
  ['s.label = s.label || (isTime ? timeSeriesLabel : numSeriesLabel);', ''],
  // ticks, labels and ranges: each plot gives its own
  [['axis.splits = fnOrSelf(axis.splits ||', 'numAxisSplits));'], 'axis.splits = fnOrSelf(axis.splits);'],
  [['isTime ? (\n\t\t\t\t\t// config array', ') : av || numAxisVals'], 'av'],
  [['axis.filter = fnOrSelf(axis.filter ||', 'retArg1));'], 'axis.filter = fnOrSelf(axis.filter || retArg1);'],
  ['(isTime ? (ms == 1 ? timeIncrsMs : timeIncrsS) : numIncrs)', 'numIncrs'],
  [['sc.range = fnOrSelf(rn ||', 'snapNumY)\n\t\t\t\t));'], 'sc.range = fnOrSelf(rn);'],
  [['if (!rangeIsArr && isObj(rn)) {', 'rangeNum(dataMin, dataMax, cfg);\n\t\t\t\t\t}'], ''],
  // legend
  ['const showLegend = legend.show;', 'const showLegend = false;'],
  ['const legend     = (self.legend = assign({}, legendOpts, opts.legend));', 'const legend = {};'],
  [['const markers    = legend.markers;', 'fnOrSelf(markers.fill);\n\t}'], ''],
  ['legend.live', 'false'],
  ['legend.show', 'false'],
  ['self.setLegend = setLegend;', ''],
  // cursor and selection
  ['const showCursor =                cursor.show;', 'const showCursor = false;'],
  ['(self.cursor = assign({}, cursorOpts, {drag: {y: mode == 2}}, opts.cursor))', '{left: -10, drag: {}}'],
  [['let points = cursor.points;', 'points.fill   = fnOrSelf(points.fill);\n\n\tconst focus'], 'const focus'],
  ['const cursorFocus = focus.prox >= 0;', 'const cursorFocus = false;'],
  ['const cursorOnePt = cursorFocus && points.one;', 'const cursorOnePt = false;'],
  [['on("click", wrap, e => {', '}, true);'], ''],
  [['const select = self.select = assign({', '}, opts.select);'], 'const select = {};'],
  ['select.show', 'false'],
  ['self.setSelect = setSelect;', ''],
  ['self.setSeries = setSeries;', ''],
  ['self.posToIdx = closestIdxFromXpos;', ''],
  ['self.valToIdx = val => closestIdx(val, data[0]);', ''],
  [['self.setCursor = (opts, _fire, _pub) => {', '};'], ''],
  [['if (cursor.dataIdx == null) {', 'cursor._lock = false;'], ''],
  // what other plots would hear
  [['events.mousedown = mouseDown;', 'setSeries(idx, opts, true, false);\n\t};'], ''],
  [['const seriesIdxMatcher = (self,', 'self.pub = pub;'], ''],
  ['sync.unsub(self);\n\t\tcursorPlots.delete(self);\n\t\tmouseListeners.clear();', ''],
  ['on(resize, win, invalidateRects);\n\ton(scroll, win, invalidateRects, true);', ''],
  ['syncRect(true);\n\n\t\t\tif (', 'if ('],
  // series and bands that come and go
  ['self.addSeries = addSeries;', ''],
  ['self.delSeries = delSeries;', ''],
  ['self.addBand = addBand;\n\tself.setBand = setBand;\n\tself.delBand = delBand;', ''],
  ['self.batch = batch;', ''],
  ['const days3 = days.map(slice3);', 'const days3 = days;'],
  ['const months3 = months.map(slice3);', 'const months3 = months;'],
  ['let [ bandFillDir, bandClipDir ] = bandFillClipDirs(u, seriesIdx);', 'const bandFillDir = 0;'],
  [['if (bandClipDir != 0) {', 'stroke, bandClipDir);\n\t\t\t}'], ''],
  [['flags != 0 && bands.forEach((b, bi) => {', '});\n\n\t\tif (!didStrokeFill)'], 'if (!didStrokeFill)'],
  [['else if (_min == _max) {', 'rangePad, true);\n\t\t\t\t}'], ''],
  // other ways to draw a line
  ['const pointsPath = points() ;', 'const pointsPath = null;'],
  [['uPlot.assign = assign;', '(paths.spline  = monotoneCubic);\n}'], 'uPlot.pxRatio = pxRatio;'],
];

/** @throws Error when a cut isn't there */
export function trimUplot(code: string): string {
  let out = code;
  for (const [from, to] of CUTS) {
    if (typeof from === 'string') {
      if (!out.includes(from)) throw new Error(`uPlot has changed: "${from}" is not there; look at trimPlots.ts`);
      out = out.replaceAll(from, () => to);
      continue;
    }
    const begin = out.indexOf(from[0]);
    const end = out.indexOf(from[1], begin);
    if (begin < 0 || end < 0) throw new Error(`uPlot has changed: "${from[0]}" is not there; look at trimPlots.ts`);
    out = out.slice(0, begin) + to + out.slice(end + from[1].length);
  }
  return out;
}

/** For the build only: in development uPlot is whole. */
export function trimPlots(): Plugin {
  return {
    name: 'trim-plots',
    apply: 'build',
    transform(code, id) {
      return /\/uplot\/dist\/uPlot\.esm\.js$/.test(id) ? { code: trimUplot(code), map: null } : null;
    },
  };
}
