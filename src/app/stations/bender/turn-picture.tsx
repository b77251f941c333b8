import { type ReactNode, useMemo } from "react";
import { OPERATOR_VIEW, operatorView } from "../../../cards/operator-view.ts";
import type { Hand, Turn } from "../../../core/bend/index.ts";
// Not by the room's index, which brings the PDF writer along.
import { group } from "../../../draw/build.ts";
import { BENDER_PICTURES, sayPicture, sayTurn, sentence } from "../../../words/index.ts";
import { Picture, type Write } from "../../kit/index.ts";
import styles from "./turn-picture.module.css";

/** Above and below the card's picture, which may reach out of its block there (mm). */
const AIR = 1;

/** The turn as a clock, seen from where the operator stands: the card's own picture; below it the tube in the bender. */
export function TurnPicture(props: {
  readonly turn: Turn | undefined;
  readonly bend: number;
  readonly side: Hand;
  readonly write: Write;
  readonly children: ReactNode;
}) {
  const { turn, bend, side, write } = props;
  const sheet = useMemo(
    () => ({
      name: "turn",
      width: OPERATOR_VIEW.width,
      height: OPERATOR_VIEW.height + 2 * AIR,
      marks: [group("operator view", operatorView(turn, bend, side).marks, { at: [0, AIR] })],
    }),
    [turn, bend, side],
  );
  const says = turn ? sentence(sayTurn(turn, write)) : BENDER_PICTURES.goes(bend, side);
  return (
    <div className={styles.both}>
      <div className={styles.clock}>
        <Picture sheet={sheet} label={sayPicture(says, BENDER_PICTURES.clockSeen)} />
      </div>
      {props.children}
    </div>
  );
}
