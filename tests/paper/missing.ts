import type { Reading } from "./figure.ts";
import type { Around } from "./quantities/index.ts";
import { ENDS } from "./report.ts";
import type { Sheet } from "./sheets.ts";

/** What a bar's papers must carry: a figure left out is as bad as a wrong one. */
export function missing(around: Around, id: string, readings: Reading[], sheets: Sheet[]): string[] {
  const f = around.second.bar(id);
  const got = new Set(readings.map((r) => r.quantity));
  const faults: string[] = [];
  const some = (quantity: string): boolean =>
    [...got].some((g) => g === quantity || g.startsWith(`${quantity} `));
  const need = (quantity: string): void => {
    if (!some(quantity)) faults.push(`${quantity} is not printed`);
  };
  const isDone = f.isDone("sawn") && (f.order.length === 0 || f.isDone("bent"));
  const todo = [...(f.made ? [] : ["sawn", "net"]), "trim.A", "trim.B", "scale.tube"];
  for (const q of ["od", "wall", ...(f.made ? ["made.sawn"] : []), ...(isDone ? [] : todo)]) need(q);
  for (const n of isDone ? f.order : [])
    for (const q of ["made.bend.mark", "made.bend.angle"])
      if (![...got].some((g) => g.startsWith(`${q} ${id}`) && g.endsWith(` ${n}`)))
        faults.push(`${q} of bend ${n} is not printed`);
  for (const n of isDone ? [] : f.order) {
    for (const q of ["mark", "angle"])
      if (![...got].some((g) => g.startsWith(`${q} ${id}`) && g.endsWith(` ${n}`)))
        faults.push(`${q} of bend ${n} is not printed`);
    const checks = f.checks.get(n)!;
    for (const { kind } of checks) {
      const q = kind.startsWith("parallel") ? "check." : `check.${kind}`;
      if (![...got].some((g) => g.startsWith(q) && g.endsWith(` ${n}`)))
        faults.push(`check "${kind}" after bend ${n} is not printed`);
    }
  }
  for (const { code } of f.limits.filter((l) => !isDone || l.code === "floor" || l.code === "swing"))
    if (![...got].some((g) => g.startsWith(`limit.${code}.`)))
      faults.push(`the limit "${code}" is not printed`);
  for (const c of around.second.clashes) if (c.bar === id || c.other === id) need(`${c.code}.by`);
  for (const end of ENDS) {
    if (f.isDone(end)) {
      if (![...got].some((g) => g.startsWith(`made.finished ${id} ${end}`)))
        faults.push(`the record of end ${end} is not printed`);
      continue;
    }
    const ofEnd = (q: string): boolean => [...got].some((g) => g.startsWith(`${q} ${id} ${end}`));
    const notch = f.notch(end);
    if (notch?.cut)
      for (const q of [
        "cut.saw",
        "cut.notch",
        "cut.clockAbs",
        "hole.beyondAbs",
        "hole.sawnAbs",
        ...(notch.hole?.fromBend === undefined ? [] : ["hole.bend"]),
      ])
        if (!ofEnd(q)) faults.push(`${q} of end ${end} is not printed`);
    if (f.cope[end].joint.kind === "plate" && f.cope[end].joint.tilt >= 0.01)
      for (const q of ["tilt", "long.abs"]) if (!ofEnd(q)) faults.push(`${q} of end ${end} is not printed`);
  }
  const hasStrip = sheets.some((s) => s.kind === "strip");
  if (f.isDone("bent") && hasStrip) faults.push("a mark strip of a bar that is bent");
  if (!f.isDone("bent") && f.order.length > 0 && f.sawn > 300 && !hasStrip) faults.push("no mark strip");
  return faults;
}
