import { deg } from "../../../core/numeric/index.ts";
import type { AsBent, BarShape } from "../../../core/trestles/index.ts";
import { AS_BENT, EXPLAIN_ERROR } from "../../../words/index.ts";
import type { Write } from "../../kit/index.ts";
import styles from "./as-bent.module.css";

interface Row {
  readonly name: string;
  readonly planned: number;
  readonly bent: number;
  readonly sd: number;
  readonly isAngle: boolean;
}

/** Every straight, turn and bend, from end A: as planned, as bent, and by how much they differ. */
function rowsOf({ shape, sd }: AsBent, planned: BarShape): readonly Row[] {
  const straights = planned.straights.map((size, i): Row => {
    const [before, after] = [planned.numbers[i - 1], planned.numbers[i]];
    const name =
      before === undefined
        ? AS_BENT.leg("A")
        : after === undefined
          ? AS_BENT.leg("B")
          : AS_BENT.straight(before, after);
    return {
      name,
      planned: size,
      bent: shape.straights[i] ?? size,
      sd: sd.straights[i] ?? 0,
      isAngle: false,
    };
  });
  const bends = planned.numbers.map((n, i): readonly Row[] => {
    const [angle = 0, turn = 0] = [planned.angles[i], planned.turns[i]];
    const turned: Row = {
      name: AS_BENT.turn(n),
      planned: turn,
      bent: shape.turns[i] ?? turn,
      sd: sd.turns[i] ?? 0,
      isAngle: true,
    };
    const bent: Row = {
      name: AS_BENT.bend(n),
      planned: angle,
      bent: shape.angles[i] ?? angle,
      sd: sd.angles[i] ?? 0,
      isAngle: true,
    };
    return i === 0 ? [bent] : [turned, bent];
  });
  return straights.flatMap((straight, i) => [straight, ...(bends[i] ?? [])]);
}

export function AsBentTable(props: {
  readonly bent: AsBent;
  readonly planned: BarShape;
  readonly write: Write;
}) {
  const { write } = props;
  const size = (v: number, isAngle: boolean): string => (isAngle ? write.angle(deg(v)) : write.length(v));
  return (
    <table className={styles.table}>
      <caption>
        {AS_BENT.caption} {EXPLAIN_ERROR}
      </caption>
      <thead>
        <tr>
          <th scope="col">{AS_BENT.what}</th>
          <th scope="col">{AS_BENT.planned}</th>
          <th scope="col">{AS_BENT.bent}</th>
          <th scope="col">{AS_BENT.difference}</th>
        </tr>
      </thead>
      <tbody>
        {rowsOf(props.bent, props.planned).map((r) => {
          const off = r.bent - r.planned;
          const isOff = Math.abs(off) > r.sd;
          return (
            <tr key={r.name} className={isOff ? styles.off : undefined}>
              <th scope="row">{r.name}</th>
              <td>{size(r.planned, r.isAngle)}</td>
              <td>
                {size(r.bent, r.isAngle)} <small>± {size(r.sd, r.isAngle)}</small>
              </td>
              <td>{isOff ? `${off > 0 ? "+" : "−"}${size(Math.abs(off), r.isAngle)}` : AS_BENT.asPlanned}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
