import { isAngle, POINT_IN_HAND, sayLack, sidesOf } from "../../../words/index.ts";
import { LengthPad, mmOf, NumberPad, writeIn } from "../../kit/index.ts";
import type { JobDocument, Json } from "../../model/document/index.ts";
import { useApp } from "../../model/state/index.ts";
import { type Draft, sayReading } from "../../readings/index.ts";
import type { NextRead } from "./next-reads.ts";

/** Readings taken in a row: which, and how far one is. */
export interface Run {
  readonly reads: readonly NextRead[];
  readonly i: number;
}

/** The keypad for one reading after the other: OK keeps it and goes on to the next. */
export function RunPad(props: {
  readonly run: Run;
  readonly document: JobDocument;
  readonly onKeep: (value: Json) => void;
  readonly onSkip: () => void;
  readonly onClose: () => void;
}) {
  const { run, document, onKeep, onSkip, onClose } = props;
  const show = useApp((s) => s.show);
  const read = run.reads[run.i];
  if (!read) return null;
  const { draft, wanted } = read;
  const nth = run.reads.length > 1 ? ` (${POINT_IN_HAND.nth(run.i, run.reads.length)})` : "";
  const title = `${sayReading(draft, document)}${nth}`;
  const sides = sidesOf(draft.kind);
  const sidesIf = sides ? { sides } : {};
  const held = mmOf(draft.mark) ?? 0;
  const key = `${run.i} ${title}`;
  if (isAngle(draft.kind))
    return (
      <NumberPad
        key={key}
        title={title}
        value={undefined}
        least={-90}
        most={90}
        {...sidesIf}
        onClose={onClose}
        onSet={onKeep}
      />
    );
  return (
    <LengthPad
      key={key}
      title={title}
      value={undefined}
      unit={show.length}
      write={writeIn(show).length}
      {...sidesIf}
      below={wanted ? (mmOf(wanted.value) ?? 0) < 0 : isRight(draft)}
      wrong={(mm) => (draft.kind === "tape" && mm <= held ? sayLack("too short") : undefined)}
      onClose={onClose}
      likely={
        wanted && (
          <button type="button" onClick={() => onKeep(wanted.value)}>
            {wanted.says}
          </button>
        )
      }
      beside={
        run.i < run.reads.length - 1 && (
          <button type="button" onClick={onSkip}>
            {POINT_IN_HAND.skip}
          </button>
        )
      }
      onSet={(value) => value !== undefined && onKeep(value)}
    />
  );
}

/** Out from the centre, a place on the right counts that way. */
const isRight = ({ kind, ends: [p] }: Draft): boolean =>
  kind === "out" && p?.is === "point" && /\bright\b/i.test(p.id);

/** Where a run is after its reading was taken or passed over; undefined at its end. */
export const onward = ({ reads, i }: Run): Run | undefined =>
  i + 1 < reads.length ? { reads, i: i + 1 } : undefined;

/** A run of one reading. */
export const alone = (read: NextRead): Run => ({ reads: [read], i: 0 });
