import { describe, expect, it } from "vitest";
import { isFound } from "./find.ts";

describe("a bar is found", () => {
  const stay = ["Rear stay, left", "rear-stay-left"];
  it.each(["stay", "STA", "left rear", "le re", "rear-stay", "stay, left", " rear  stay ", "réar"])(
    "by %s",
    (typed) => expect(isFound(typed, stay)).toBe(true),
  );
  it.each(["front", "rear right", "staying", "stay x"])("not by %s", (typed) =>
    expect(isFound(typed, stay)).toBe(false),
  );
  it("with accents, other alphabets and figures in its name", () => {
    expect(isFound("uberroll", ["Überrollbügel, links"])).toBe(true);
    expect(isFound("дуга 2", ["Главная дуга 2"])).toBe(true);
    expect(isFound("40", ["Tie 40x2"])).toBe(true);
  });
});
