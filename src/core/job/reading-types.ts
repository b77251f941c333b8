/**
 * Readings in the car, as the program computes with them: lengths in millimetres, angles in degrees, checked.
 * Every `sd` is one standard deviation, in mm or degrees as the reading is; where absent, the shop's by kind.
 */

/** Which end of a bar. */
export type End = "A" | "B";

/** Where the tape's mark lay on a tube: the side away from the other end, the side facing it, or figured to the centre. */
export type Over = "outside" | "inside" | "centre";

/** What one end of a tape was held on. */
export type TapeEnd =
  /** A punch mark or whatever else the job calls a point. */
  | { readonly kind: "point"; readonly point: string }
  /**
   * A tube at station `along` (mm from its A end; negative: from its B end). The tape's mark lies on the tube's round
   * section there; `bead` is what stood between the tube and the tape (a weld bead, the hook), 0 where nothing.
   */
  | {
      readonly kind: "tube";
      readonly bar: string;
      readonly along: number;
      readonly over: Over;
      readonly bead: number;
    }
  /** Where the outer lines of both legs of a bend meet; bends are counted from 1 at end A. */
  | { readonly kind: "corner"; readonly bar: string; readonly bend: number };

interface AnyReading {
  readonly sd?: number;
  /** Struck through: kept, not counted. */
  readonly struck?: boolean;
  readonly note?: string;
}

/** The straight distance between two ends, as the tape reads it: `mark` is what of the tape was held at its first end. */
export interface TapeReading extends AnyReading {
  readonly kind: "tape";
  readonly ends: readonly [TapeEnd, TapeEnd];
  readonly length: number;
  /** Absent: the hook, 0. The distance is `length − mark`. */
  readonly mark?: number;
}

/**
 * One coordinate of a point. `height` is read plumb from the level floor or table on which the job's origin lies;
 * `out` (to the left of the centre plane) and `fore` are read along the car's own axes.
 */
export interface CoordinateReading extends AnyReading {
  readonly kind: "height" | "out" | "fore";
  readonly point: string;
  readonly value: number;
}

/** Two points at one height (`level`), or one plumb over the other (`plumb`: two equations). */
export interface LevelReading extends AnyReading {
  readonly kind: "level" | "plumb";
  readonly points: readonly [string, string];
}

/** The line from the first to the second point, up from level (degrees). */
export interface SlopeReading extends AnyReading {
  readonly kind: "slope";
  readonly points: readonly [string, string];
  readonly angle: number;
}

/**
 * How the shell stands: an angle finder on the sill. `along`: its fore-and-aft line, positive where the front is
 * higher; `across`: the line from right to left, positive where the left is higher (degrees from level).
 */
export interface LeanReading extends AnyReading {
  readonly kind: "lean";
  readonly way: "along" | "across";
  readonly angle: number;
}

export type Reading = TapeReading | CoordinateReading | LevelReading | SlopeReading | LeanReading;
