import type { CardChange } from "../../core/trestles/index.ts";
import type { Write } from "../kit/index.ts";

/** What a card's change means at the saw, the bender and the notcher: "blank 3.2 mm longer; the cut at end A up to 1.4 mm elsewhere". */
export function sayChange(c: CardChange, write: Write): string {
  if (!Number.isFinite(c.most)) return "it is another bar now";
  const said: string[] = [];
  if (Math.abs(c.blank) >= 0.05)
    said.push(`blank ${write.length(Math.abs(c.blank))} ${c.blank > 0 ? "longer" : "shorter"}`);
  if (c.marks >= 0.05) said.push(`a mark ${write.length(c.marks)} elsewhere`);
  if (c.shape >= 0.05) said.push(`far end ${write.length(c.shape)} elsewhere`);
  for (const end of ["A", "B"] as const)
    if (c.copes[end] >= 0.05)
      said.push(`the cut at end ${end} up to ${write.length(c.copes[end])} elsewhere`);
  return said.join("; ");
}
