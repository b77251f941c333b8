import type { Notch } from "../core/cope/index.ts";
import type { Writer } from "../core/findings/index.ts";
import type { Tube } from "../core/job/index.ts";
import { deg, wrapPi } from "../core/numeric/index.ts";
import { arcRound } from "../core/tube/index.ts";

/** Nearer than this (radians) a place round the tube is said to be on a line. */
const ON = (0.05 * Math.PI) / 180;

/** A place round the tube, φ radians: "79.0° counter-clockwise", "on the zero line", "opposite the zero line". */
export function sayClock(phi: number, write: Writer): string {
  const a = wrapPi(phi);
  if (Math.abs(a) < ON) return "on the zero line";
  if (Math.PI - Math.abs(a) < ON) return "opposite the zero line";
  return `${write.angle(deg(Math.abs(a)))} ${a > 0 ? "counter-clockwise" : "clockwise"}`;
}

/** A clock where its line is not told yet: "79.0° counter-clockwise from the zero line". */
export function sayClockFrom(phi: number, write: Writer): string {
  const clock = sayClock(phi, write);
  return clock.includes("zero line") ? clock : `${clock} from the zero line`;
}

/** The same as a length round the outside of the tube. */
export const roundTube = (phi: number, tube: Tube, write: Writer): string =>
  write.length(arcRound(tube, Math.abs(wrapPi(phi))));

/** Which line on the tube clocks are counted from, in the shop's words. */
export const sayZeroLine = (zeroLine: string): string =>
  zeroLine === "up"
    ? "top of the tube in the car"
    : zeroLine === "forward"
      ? "front of the tube in the car"
      : `outside of ${zeroLine}`;

/** The line opposite the zero line. */
export const sayHalfLine = (zeroLine: string): string =>
  zeroLine === "up" ? "bottom" : zeroLine === "forward" ? "rear" : `inside of ${zeroLine}`;

/** Why an end has no hole saw cut; `size` writes a diameter. */
export function whyNoSaw(notch: Notch | undefined, size: (mm: number) => string): string {
  const missing = notch?.findings.find((f) => f.code === "notch-no-saw")?.values.missing;
  return missing && "mm" in missing
    ? `no listed hole saw notches this tube here, and ${size(missing.mm)} is not listed`
    : "no single hole saw cut comes within the tube's own diameter of this shape";
}
