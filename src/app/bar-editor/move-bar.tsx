import { useState } from "react";
import { MOVE_BAR, SIDES } from "../../words/index.ts";
import { Choose, LengthPad, mmOf, writeIn } from "../kit/index.ts";
import { moveBar } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";

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
        title={MOVE_BAR.way(label)}
        options={(Object.keys(SIDES) as Axis[]).map((a) => [a, MOVE_BAR.sides(SIDES[a])])}
        onClose={onClose}
        onPick={(a) => setAxis(a as Axis)}
      />
    );
  return (
    <LengthPad
      title={MOVE_BAR.by(label, SIDES[axis])}
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
        act.run(moveBar(id, by, MOVE_BAR.step(label, write.length(Math.abs(mm)), way)));
      }}
    />
  );
}
