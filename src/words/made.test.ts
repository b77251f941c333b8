import { expect, it } from "vitest";
import { rad } from "../core/numeric/index.ts";
import { shopWriterFor } from "../core/units/index.ts";
import { sayMade, sayReuse } from "./made.ts";
import { sayVerdict } from "./trestles/verdict.ts";

const write = shopWriterFor({ length: "mm", fraction: 16 });
const TAIL = "cold, if the rule book allows, and read it again. Leave it if it shows a kink; never heat it.";

it("a made bar is eased in the words of the trestles, with what easing must not become", () => {
  const first = { bend: 2, by: rad(-1.5) };
  const also = { bend: 3, by: rad(1) };
  const made = { bar: "x", step: "bent", verdict: "ease", reason: "eased", short: 0 } as const;
  const one = sayMade({ ...made, ease: [first] }, write);
  expect(one).toBe(`Ease bend 2 by 1.5°, ${TAIL}`);
  const two = sayReuse({ ...made, ease: [first, also] }, write);
  expect(two).toBe(`Ease bend 2 by 1.5° and close bend 3 by 1.0°, ${TAIL}`);
  expect(`${sayVerdict({ kind: "ease", ...first, also, placed: undefined as never }, write)}.`).toBe(
    two.replace("Ease", "ease"),
  );
});

it("gaps are written fine, beside the one that the shop accepts, with digits enough to differ from it", () => {
  const made = { bar: "x", step: "notched", ends: { A: 0, B: 0 }, short: 0 } as const;
  const good = {
    ...made,
    verdict: "good",
    reason: "serves",
    gap: { A: 0.504, B: 0.02 },
    accepted: 1,
  } as const;
  expect(sayMade(good, write)).toBe(
    "Still good: the greatest gap is 0.50 mm at end A and 0.02 mm at end B, accepted is 1.00 mm.",
  );
  const over = { ...made, verdict: "make again", reason: "gap", gap: { A: 1.004 }, accepted: 1 } as const;
  expect(sayMade(over, write)).toMatch(/The greatest gap is 1\.004 mm at end A, accepted is 1\.000 mm\.$/);
  const inches = shopWriterFor({ length: "in", fraction: 16 });
  expect(sayMade(good, inches)).toContain("0.020 in at end A and 0.001 in at end B, accepted is 0.039 in");
});
