import type { End } from "../../job/types.ts";
import type { FitBar, Over } from "../scene/index.ts";
import { SEARCH_TOUCH, sweep, TOUCH } from "../way/index.ts";
import { judge } from "./judge.ts";
import type { Judged } from "./judged.ts";
import type { Setting } from "./went.ts";

/** No more than this is sought (mm): a bar so much shorter is another bar. */
const MOST_SHORTER = 60;
/** Shortening is found to this (mm), or to a tenth, by halving: a way of the longer bar is one of the shorter. */
const TO = 0.5;
/** The second end is of interest where it has to lose this much less than the first. */
const LESS = 0.8;
/** Share of the poses that each of these searches may make. */
const SHARE = 0.2;

const plus = (a: Over, b: Over): Over => ({ A: (a.A ?? 0) + (b.A ?? 0), B: (a.B ?? 0) + (b.B ?? 0) });

/**
 * The least shortening at one end that is found to let a bar in among what stands, nothing sprung, where nothing else
 * does; of the two ends the one that has to lose less. An upper bound, as each search is; undefined where neither end
 * helps with up to `most` mm. Shorter than its landing asks, the bar stands open there: it wants a longer one cut, or a sleeve.
 */
export function shortenFor(own: FitBar, setting: Setting, most = MOST_SHORTER): Judged["shorten"] {
  const { otherwise: _, ...plain } = setting;
  const { effort } = setting;
  const quick = { ...effort, nodes: Math.ceil(effort.nodes * SHARE), most: SEARCH_TOUCH };
  const goes = (over: Over, tries: readonly Judged[]): Judged | undefined => {
    const judged = judge(own, { ...plain, effort: quick, over: plus(setting.over ?? {}, over), tries });
    return judged.goesIn === "free" || judged.goesIn === "touches" ? judged : undefined;
  };
  let found: { readonly end: End; readonly by: number } | undefined;
  for (const end of ["A", "B"] as const) {
    let hi = Math.min(found ? found.by * LESS : most, own.bar.centreline.length / 3);
    let way = goes({ [end]: -hi }, []);
    if (!way) continue;
    for (let lo = 0; hi - lo > Math.max(TO, hi / 10) && !effort.stop(); ) {
      const m = (lo + hi) / 2;
      const got = goes({ [end]: -m }, [way]);
      if (got) {
        way = got;
        hi = m;
      } else lo = m;
    }
    if (!found || hi < found.by) found = { end, by: hi };
  }
  return found;
}

/** How much more gap than springing is looked at: lips that lean want more along the bar than across them. */
const MORE = 4;

/**
 * The least gap at every joint with which a bar goes in by the very way for which its hosts were to be sprung, nothing
 * sprung then: found by halving, each time by a sweep. Undefined where the springing is not for its joints alone.
 */
export function gapFor(own: FitBar, setting: Setting, judged: Judged): number | undefined {
  if (judged.leaving < judged.spring || judged.spring === 0) return undefined;
  const tacked = setting.tacked.map((t) => t.bar);
  const passes = (gap: number): boolean => {
    const cut: Over = Object.fromEntries(
      (["A", "B"] as const).filter((e) => own.bar.seat[e].kind === "on").map((e) => [e, -gap]),
    );
    const over = plus(setting.over ?? {}, cut);
    return (
      sweep(own.bar, own.copes, judged.way, tacked, setting.parts, { over, enough: TOUCH }).overlap <= TOUCH
    );
  };
  let hi = judged.spring * MORE + 0.05;
  if (!passes(hi)) return undefined;
  for (let lo = 0; hi - lo > 0.01 + judged.spring / 50; ) {
    const m = (lo + hi) / 2;
    if (passes(m)) hi = m;
    else lo = m;
  }
  return hi;
}
