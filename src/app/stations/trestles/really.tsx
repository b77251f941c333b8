import { deg } from "../../../core/numeric/index.ts";
import type { AsBent, BarShape } from "../../../core/trestles/index.ts";
import type { Write } from "../../kit/index.ts";
import styles from "./as-bent.module.css";

/** What every bend, turn and straight really is, against what was wanted. */
export function Really({
  bent,
  wanted,
  write,
}: {
  readonly bent: AsBent;
  readonly wanted: BarShape;
  readonly write: Write;
}) {
  const n = wanted.angles.length;
  const rows = [
    ...wanted.straights.map((w, i) => ({
      order: 3 * i,
      name: i === 0 ? "leg at end A" : i === n ? "leg at end B" : `straight ${i} to ${i + 1}`,
      wanted: w,
      is: bent.shape.straights[i]!,
      sd: bent.sd.straights[i]!,
      isAngle: false,
    })),
    ...wanted.angles.map((w, i) => ({
      order: 3 * i + 2,
      name: `bend ${i + 1}`,
      wanted: w,
      is: bent.shape.angles[i]!,
      sd: bent.sd.angles[i]!,
      isAngle: true,
    })),
    ...wanted.turns.slice(1).map((w, i) => ({
      order: 3 * (i + 1) + 1,
      name: `turn before bend ${i + 2}`,
      wanted: w,
      is: bent.shape.turns[i + 1]!,
      sd: bent.sd.turns[i + 1]!,
      isAngle: true,
    })),
  ].sort((a, b) => a.order - b.order);
  const size = (v: number, isAngle: boolean): string => (isAngle ? write.angle(deg(v)) : write.length(v));
  return (
    <table className={styles.table}>
      <caption>From end A, ends still as sawn. Turns count clockwise looking from A toward B.</caption>
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">wanted</th>
          <th scope="col">really</th>
          <th scope="col">off</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((r) => {
          const off = r.is - r.wanted;
          const tells = Math.abs(off) > r.sd;
          return (
            <tr key={r.name} className={tells ? styles.off : undefined}>
              <th scope="row">{r.name}</th>
              <td>{size(r.wanted, r.isAngle)}</td>
              <td>
                {size(r.is, r.isAngle)} <small>± {size(r.sd, r.isAngle)}</small>
              </td>
              <td>{tells ? `${off > 0 ? "+" : "−"}${size(Math.abs(off), r.isAngle)}` : "as wanted"}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
