import type { BarFacts, End, Second } from "../second/index.ts";

export function ontoOf(second: Second, f: BarFacts, end: End): string {
  const { kind, onto } = f.cope[end].joint;
  if (kind === "square") return "nothing, square";
  if (kind === "on") return onto.map((id) => second.called(id)).join(" + ");
  return `${f.laid.own.mirrorOf === undefined ? "plate" : "the mirror image of plate"} ${onto[0]}`;
}
