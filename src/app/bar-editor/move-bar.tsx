import { useState } from "react";
import { Choose, LengthPad, mmOf, writeIn } from "../kit/index.ts";
import { moveBar } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import { SIDES } from "./parts.ts";

type Axis = keyof typeof SIDES;

/** Moves the whole bar so far one way: first which way, then how far. */
export function MoveBar(props: {
  readonly id: string;
  readonly label: string;
  readonly onClose: () => void;
}) {
  const { id, label, onClose } = props;
  const show = useApp((s) => s.show);
  const act = useActions();
  const [axis, setAxis] = useState<Axis>();
  const write = writeIn(show);
  if (axis === undefined)
    return (
      <Choose
        title={`Move ${label}, with its feet, which way?`}
        options={(Object.keys(SIDES) as Axis[]).map((a) => [a, SIDES[a].join(" or ")])}
        onClose={onClose}
        onPick={(a) => setAxis(a as Axis)}
      />
    );
  return (
    <LengthPad
      title={`Move ${label} how far ${SIDES[axis].join(" or ")}?`}
      value={show.length === "mm" ? 10 : "3/8 in"}
      unit={show.length}
      sides={SIDES[axis]}
      write={write.length}
      onClose={onClose}
      onSet={(value) => {
        onClose();
        const mm = mmOf(value) ?? 0;
        const by = (["x", "y", "z"] as const).map((a) => (a === axis ? mm : 0)) as [number, number, number];
        const way = SIDES[axis][mm < 0 ? 1 : 0];
        act.run(moveBar(id, by, `${label}: ${write.length(Math.abs(mm))} ${way}`));
      }}
    />
  );
}
