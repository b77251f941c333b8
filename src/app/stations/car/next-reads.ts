import { useMemo } from "react";
import type { Job } from "../../../core/job/index.ts";
import { isTaken, readsOf, type Survey } from "../../../core/survey/index.ts";
import { asRead, mirroredPlace, POINT_IN_HAND, sayAdvice, sayAtPoint, WANTED } from "../../../words/index.ts";
import { type Write, writeIn } from "../../kit/index.ts";
import type { Results } from "../../model/compute/index.ts";
import type { Json } from "../../model/document/index.ts";
import { useApp } from "../../model/state/index.ts";
import { asTyped, type Draft, draftFrom, expectedOfDraft } from "../../readings/index.ts";

/** One reading that is worth taking at the point in hand. */
export interface NextRead {
  readonly draft: Draft;
  readonly says: string;
  readonly gains: string;
  /** What it should read, as it would be typed, and where that comes from. */
  readonly wanted?: { readonly value: Json; readonly says: string };
}

/** The readings of a point that gain most, in their order; none while the survey does not know the point yet. */
export function useNextReads(
  id: string | undefined,
  survey: Survey | undefined,
  like: Draft,
): readonly NextRead[] {
  const job = useApp((s) => (s.job?.read.ok ? s.job.read.job : undefined));
  const results = useApp((s) => s.results);
  const show = useApp((s) => s.show);
  const { over, mark } = like;
  return useMemo(() => {
    if (id === undefined || !survey || !job) return [];
    const held = mark === undefined ? { over } : { over, mark };
    return nextReads(id, survey, job, results, held, writeIn(show));
  }, [id, survey, job, results, over, mark, show]);
}

function nextReads(
  id: string,
  survey: Survey,
  job: Job,
  results: Results,
  held: Pick<Draft, "over" | "mark">,
  write: Write,
): readonly NextRead[] {
  const loose = survey.undetermined.find((u) => u.id === id);
  const image = survey.mirrored.find((m) => m.points.some((p) => p.id === id));
  const settles = image && !isTaken(image.settle, job.readings) ? [image.settle] : [];
  const list = loose
    ? loose.fix
        .filter((advice) => !isTaken(advice, job.readings))
        .map((reading, i, all) => ({
          reading,
          gains: i === all.length - 1 ? POINT_IN_HAND.finds : "",
        }))
    : [
        ...settles.map((reading) => ({ reading, gains: POINT_IN_HAND.settles })),
        ...readsOf(job, survey, id)
          .filter(({ reading }) => !settles.some((s) => sayAdvice(s) === sayAdvice(reading)))
          .map(({ reading, before, after }) => ({
            reading,
            gains: POINT_IN_HAND.gains(write.fine(before), write.fine(after)),
          })),
      ];
  return list.map(({ reading, gains }) => {
    const other = reading.kind === "tape" ? reading.points.find((p) => p !== id) : undefined;
    // the tape's first end is where it begins: at the point that is known
    const draft = draftFrom(other === undefined ? reading : { kind: "tape", points: [other, id] }, held);
    const wanted = wantedOf(draft, id, results, survey, write);
    return { draft, says: sayAtPoint(reading.kind, other), gains, ...(wanted ? { wanted } : {}) };
  });
}

/** What a reading should read: by where its ends are, else by where the same place on the other side of the car is. */
export function wantedOf(
  draft: Draft,
  id: string | undefined,
  { points, bars }: Pick<Results, "points" | "bars">,
  survey: Survey | undefined,
  write: Write,
): NextRead["wanted"] {
  const places = new Map(Object.entries(points).map(([p, { at }]) => [p, at]));
  const lean = survey?.lean;
  const said = (value: number | undefined, say: (size: string) => string): NextRead["wanted"] => {
    if (value === undefined) return undefined;
    const typed = asTyped(value, draft.kind, write);
    return { value: typed, says: say(asRead(typed, draft.kind)) };
  };
  const isOnBar = draft.ends.some((e) => e !== undefined && e.is !== "point");
  const own = expectedOfDraft(draft, { points: places, bars, lean });
  if (own !== undefined) return said(own, isOnBar ? WANTED.planned : WANTED.expected);
  const twin = id === undefined ? undefined : mirroredPlace(id);
  const place = twin === undefined ? undefined : places.get(twin);
  if (id === undefined || twin === undefined || !place) return undefined;
  const mirrored = new Map([...places, [id, [place[0], -place[1], place[2]] as const]]);
  return said(expectedOfDraft(draft, { points: mirrored, bars, lean }), (size) => WANTED.mirror(size, twin));
}
