import { useState } from "react";
import { POINTS } from "../../../words/index.ts";
import { LengthPad, parts, writeIn } from "../../kit/index.ts";
import { type Json, setValues } from "../../model/document/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";

/** The three marks from which all other points are found: asked for where a job has no point yet. */
export function Datum() {
  const act = useActions();
  const show = useApp((s) => s.show);
  /** Begun with the first of its two sizes, then waiting for the second. */
  const [asks, setAsks] = useState<"ahead" | { readonly ahead: Json }>();

  function set(size: Json | undefined): void {
    if (size === undefined || asks === undefined) return;
    if (asks === "ahead") {
      setAsks({ ahead: size });
      return;
    }
    setAsks(undefined);
    const marks = { origin: [0, 0, 0], ahead: [asks.ahead, 0, 0], left: [0, size, 0] };
    act.run(
      setValues(
        Object.entries(marks).map(([id, place]) => [["points", id], place]),
        POINTS.datumCommand,
      ),
    );
  }

  return (
    <>
      <p>{POINTS.none}</p>
      <div className={parts.row}>
        <button type="button" onClick={() => setAsks("ahead")}>
          {POINTS.datum}
        </button>
      </div>
      {asks !== undefined && (
        <LengthPad
          key={asks === "ahead" ? "second" : "third"}
          title={asks === "ahead" ? POINTS.second : POINTS.third}
          value={undefined}
          unit={show.length}
          write={writeIn(show).length}
          onClose={() => setAsks(undefined)}
          onSet={set}
        />
      )}
    </>
  );
}
