import type { Code } from "../../core/findings/index.ts";

export const FIT = {
  // cards: what a bar's sheets cannot hold
  "sheets-many": "{instead}: the {part} takes {sheets} sheets, and one bar's cards have at most {most}",
  // what wants the same room when all bars are at their places
  clash:
    "move {bar} or {other}, or cope one to the other: they overlap by {overlap}. The place is x {x}, y {y}, z {z} ({along} along {bar}, {otherAlong} along {other})",
  "clash-self":
    "move a corner: the bar runs into itself by {overlap}. The place is x {x}, y {y}, z {z} ({first} and {second} along it)",
  "clash-plate":
    "move {bar} or plate {plate}: they overlap by {overlap}. The place is x {x}, y {y}, z {z} ({along} along the bar)",
} as const satisfies Partial<Record<Code, string>>;
