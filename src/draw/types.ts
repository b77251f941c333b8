/**
 * The model of a drawing. Lengths are millimetres at true size. A sheet's origin is its top left corner,
 * x runs to the right, y runs DOWN. Angles are degrees from +x toward +y: clockwise as seen on the sheet.
 */

/** A place on the sheet, or in the group that holds it. */
export type Point = readonly [x: number, y: number];

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * What a line is for; its type and width follow from that (lines.ts).
 * visible: edge that is seen · narrow: leaders, rules of tables · dimension: dimension and extension lines ·
 * hatch · hidden: edge behind · centre: axes, centre planes · cut: where the tool goes · adjacent: neighbouring
 * part, shown for its place · join: where two sheets meet · construction: helps the eye only · frame: round a sheet.
 */
export type LineKind =
  | "visible"
  | "narrow"
  | "dimension"
  | "hatch"
  | "hidden"
  | "centre"
  | "cut"
  | "adjacent"
  | "join"
  | "construction"
  | "frame";

/** ink: black · shade: light grey · paper: white, hides what was drawn before. */
export type Fill = "ink" | "shade" | "paper";

export interface Polyline {
  readonly kind: "polyline";
  readonly points: readonly Point[];
  readonly closed?: boolean;
  /** Left out: no line, fill only. */
  readonly line?: LineKind;
  readonly fill?: Fill;
}

export interface Circle {
  readonly kind: "circle";
  readonly centre: Point;
  readonly radius: number;
  readonly line?: LineKind;
  readonly fill?: Fill;
}

/** From `from` through growing angles (clockwise as seen) to `to`; a `to` below `from` is taken a turn further. */
export interface Arc {
  readonly kind: "arc";
  readonly centre: Point;
  readonly radius: number;
  readonly from: number;
  readonly to: number;
  readonly line: LineKind;
}

export type Anchor = "start" | "middle" | "end";

/** One line of lettering in DejaVu Sans, whose figures all have one width (tabular). */
export interface Text {
  readonly kind: "text";
  /** On the baseline, at the start, middle or end of the words as `anchor` says. */
  readonly at: Point;
  readonly text: string;
  /** Height of the capitals (ISO 3098's h), mm: 2.5 notes, 3.5 common, 5 and 7 heads. The em is size / 0.729. */
  readonly size: number;
  readonly anchor?: Anchor;
  readonly bold?: boolean;
  /** Clockwise as seen, about `at`; −90 reads from the right-hand side of the sheet. */
  readonly rotate?: number;
}

/** Marks in their own frame: first clipped (in that frame), then turned about its origin, then moved to `at`. */
export interface Group {
  readonly kind: "group";
  readonly name: string;
  readonly marks: readonly Mark[];
  readonly at?: Point;
  /** Clockwise as seen. There is no scale: a millimetre stays a millimetre. */
  readonly rotate?: number;
  /** Lines and fills are really cut here, in every format; a text stays when its middle is inside. */
  readonly clip?: Rect;
}

export type Mark = Polyline | Circle | Arc | Text | Group;

/** A drawing of any size, not yet on paper. */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** A drawing on one piece of paper (or one picture on a screen). */
export interface Sheet extends Drawing {
  readonly name: string;
  /** Must be printed at 100 %. */
  readonly isTrueSize?: boolean;
}

export interface Document {
  readonly title: string;
  readonly sheets: readonly Sheet[];
}

/** What a part hands back: its marks and the room that it takes downward from its `at`. */
export interface Placed {
  readonly marks: readonly Mark[];
  readonly height: number;
}

/** The bytes of DejaVuSans.ttf and DejaVuSans-Bold.ttf. */
export interface Fonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}
