import type { BarFacts, End } from "../second/index.ts";

export function ontoOf(f: BarFacts, end: End): string {
  const { kind, onto } = f.cope[end].joint;
  if (kind === "square") return "nothing, square";
  if (kind === "on") return onto.join(" + ");
  return `${f.laid.own.mirrorOf === undefined ? "plate" : "the mirror image of plate"} ${onto[0]}`;
}
