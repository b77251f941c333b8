import { expect, it } from "vitest";
import { rad } from "../core/numeric/index.ts";
import { writerFor } from "../core/units/index.ts";
import { sayMade, sayReuse } from "./made.ts";
import { sayVerdict } from "./trestles/verdict.ts";

const write = writerFor({ length: "mm", fraction: 16 });
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
