import type { Reading, TackSize, TackSpot, TapeEnd } from "../../core/job/index.ts";
import type { Vec } from "../../core/space/index.ts";
import { expectedOf, type Survey, type SurveyBar } from "../../core/survey/index.ts";
import { isAngle } from "../../words/index.ts";
import { mmOf, type Write } from "../kit/index.ts";
import type { Json } from "../model/document/index.ts";
import type { Draft, EndDraft } from "./draft.ts";

/** Where things are, as far as is known. */
export interface Known {
  readonly points: ReadonlyMap<string, Vec>;
  readonly bars: ReadonlyMap<string, { readonly bar: SurveyBar }>;
  readonly lean?: Survey["lean"] | undefined;
}

/** What a reading that is being put together should read (mm, or degrees); undefined where that is not known yet. */
export function expectedOfDraft(draft: Draft, known: Known): number | undefined {
  const reading = readingOf(draft);
  if (!reading) return undefined;
  const ids = draft.ends.flatMap((e) => (e && e.is !== "point" ? [e.bar] : []));
  const bars = new Map(
    ids.flatMap((id): [string, SurveyBar][] => {
      const found = known.bars.get(id);
      return found ? [[id, found.bar]] : [];
    }),
  );
  return expectedOf(reading, known.points, bars, known.lean);
}

/** The draft as a reading of a tacked bar that could be taken; undefined while an end of it is open. */
export function tackSizeOf(draft: Draft): TackSize | undefined {
  const spot = (e: EndDraft | undefined): TackSpot | undefined => {
    if (e?.is === "point") return e.id;
    const along = e?.is === "tube" ? mmOf(e.along) : undefined;
    return e?.is === "tube" && along !== undefined ? { bar: e.bar, along } : undefined;
  };
  const { kind, over } = draft;
  const [p, q] = draft.ends.map(spot);
  if (p === undefined) return undefined;
  if (kind === "tape")
    return q === undefined
      ? undefined
      : { what: kind, from: p, to: q, over, size: 0, mark: mmOf(draft.mark) ?? 0 };
  return kind === "height" || kind === "out" || kind === "fore"
    ? { what: kind, of: p, over, size: 0 }
    : undefined;
}

/** As it would be typed: a number of millimetres or degrees to a tenth, or the nearest fraction of an inch. */
export function asTyped(value: number, kind: Draft["kind"], write: Write): Json {
  if (isAngle(kind) || write.unit === "mm") return Math.round(value * 10) / 10 + 0;
  // a fraction is written with a sign behind it where it is a little more or less: a tape has none
  const size = write.length(Math.abs(value)).replace(/ [+−](?= in$)/, "");
  return value < 0 ? `-${size}` : size;
}

/** The draft as the survey has it; what it reads plays no part. */
function readingOf({ kind, ends: [p, q], over, bead, mark }: Draft): Reading | undefined {
  const id = (e: EndDraft | undefined): string => (e?.is === "point" ? e.id : "");
  const end = (e: EndDraft | undefined): TapeEnd | undefined => {
    if (e?.is !== "tube")
      return (
        e &&
        (e.is === "point" ? { kind: "point", point: e.id } : { kind: "corner", bar: e.bar, bend: e.bend })
      );
    const along = mmOf(e.along);
    const side = e.over ?? over;
    return along === undefined
      ? undefined
      : { kind: "tube", bar: e.bar, along, over: side, bead: mmOf(bead) ?? 0 };
  };
  switch (kind) {
    case "tape": {
      const [from, to] = [end(p), end(q)];
      return from && to && { kind, ends: [from, to], length: 0, mark: mmOf(mark) ?? 0 };
    }
    case "height":
    case "out":
    case "fore":
      return p?.is === "point" ? { kind, point: p.id, value: 0 } : undefined;
    case "slope":
      return p?.is === "point" && q?.is === "point" ? { kind, points: [id(p), id(q)], angle: 0 } : undefined;
    default:
      return undefined;
  }
}
