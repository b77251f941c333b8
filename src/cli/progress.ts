import { WORK } from "../words/index.ts";
import type { Platform } from "./platform.ts";

/** How far something has come. */
export type Told = (done: number, of: number) => void;

export interface Progress {
  /** A stage of the work by its name. */
  readonly stage: (what: string) => Told;
  /** Takes the line away again. */
  readonly end: () => void;
}

/** Quick work is not talked about (ms). */
const QUIET = 500;
/** Between two lines where nobody watches, as in a log (ms). */
const APART = 3000;
/** Between two looks of the line that someone watches (ms). */
const FRAME = 100;

/** Tells on standard error how far long work has come: one line that changes, or now and then a line in a log. */
export function progressOf(platform: Platform): Progress {
  let next = platform.now() + (platform.watched ? QUIET : APART);
  let isShown = false;
  return {
    stage: (what) => (done, of) => {
      const now = platform.now();
      if (now < next) return;
      next = now + (platform.watched ? FRAME : APART);
      const line = WORK.progress(what, done, of);
      platform.err(platform.watched ? `\r\u001b[K${line}` : `${line}\n`);
      isShown = true;
    },
    end: () => {
      if (isShown && platform.watched) platform.err("\r\u001b[K");
    },
  };
}
