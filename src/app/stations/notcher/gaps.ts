import type { SawCut } from "../../../core/cope/index.ts";
import type { End } from "../../../core/job/index.ts";
import { deg, wrapPi } from "../../../core/numeric/index.ts";
import type { NextCut } from "../../../core/trestles/index.ts";
import { GAPS } from "../../../words/index.ts";
import {
  at,
  type Command,
  isObject,
  type JobDocument,
  type Json,
  type JsonObject,
  setValue,
} from "../../model/document/index.ts";

/** Marks round the joint at which gaps are read: degrees from the zero line, counter-clockwise looking at the cut end. */
export const MARKS = [0, 45, 90, 135, 180, 225, 270, 315] as const;

/** The cut with which a bar was pushed home: degrees off square, turned and moved outboard against the one computed. */
export interface MadeCut {
  readonly cut: number;
  readonly roll?: number;
  readonly outboard?: number;
}

const pathOf = (bar: string, end: End) => ["made", bar, "gaps", end] as const;

/** The gaps of one end as the job keeps them, those struck included. */
export function gapsAt(document: JobDocument, bar: string, end: End): JsonObject | undefined {
  const gaps = at(document, pathOf(bar, end));
  return isObject(gaps) ? gaps : undefined;
}

export function readingsOf(gaps: JsonObject | undefined): readonly JsonObject[] {
  const read = gaps?.read;
  return Array.isArray(read) ? (read as readonly JsonObject[]) : [];
}

/** The gap that counts at a mark, as entered. */
export const gapAt = (gaps: JsonObject | undefined, phi: number): Json | undefined =>
  readingsOf(gaps).find((r) => r.phi === phi && r.struck !== true)?.gap;

const struck = (r: JsonObject, why: string): JsonObject =>
  r.struck === true ? r : { ...r, struck: true, note: why };

/** A gap read at a mark; the one read there before is struck. `made` says the cut where the job does not know it yet. */
export function gapRead(bar: string, end: End, made: MadeCut, phi: number, gap: Json, name: string): Command {
  return {
    name,
    edit(document) {
      const gaps = gapsAt(document, bar, end) ?? { ...made };
      const read = readingsOf(gaps).map((r) => (r.phi === phi ? struck(r, GAPS.readAgain) : r));
      return setValue(pathOf(bar, end), { ...gaps, read: [...read, { phi, gap }] }).edit(document);
    },
  };
}

/** Another cut was made: the gaps read with the one before are struck, and the next ones are of this. */
export function cutMade(bar: string, end: End, made: MadeCut, name: string): Command {
  return {
    name,
    edit(document) {
      const gaps = gapsAt(document, bar, end);
      const before = GAPS.readBefore(typeof gaps?.cut === "number" ? gaps.cut : undefined);
      const read = readingsOf(gaps).map((r) => struck(r, before));
      return setValue(pathOf(bar, end), { ...made, read }).edit(document);
    },
  };
}

/** The next cut as one that was made, against the cut that the end asks for. */
export function madeOf({ cut }: NextCut, asked: SawCut): MadeCut {
  const tidy = (v: number): number => Math.round(v * 1e4) / 1e4 + 0;
  const roll = tidy(deg(wrapPi(cut.clock - asked.clock)));
  const outboard = tidy(asked.centre - cut.centre);
  return {
    cut: tidy(deg(cut.notch)),
    ...(roll === 0 ? {} : { roll }),
    ...(outboard === 0 ? {} : { outboard }),
  };
}

/** Which side of a cut a mark is on: "heel", "toe", or neither. */
export function sideAt(phi: number, clock: number): string {
  const off = Math.abs(deg(wrapPi((phi * Math.PI) / 180 - clock)));
  return off <= 22.5 ? GAPS.heel : off >= 157.5 ? GAPS.toe : "";
}
