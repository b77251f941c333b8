import { expect, it } from "vitest";
import type { NotcherStep } from "../notch/index.ts";
import { nextOf } from "./four.ts";

const step = (kind: NotcherStep["kind"], figure?: string): NotcherStep => ({
  key: kind,
  end: "B",
  kind,
  does: "Cut 2 of 3, off square",
  says: ["Offset 3.0 mm.", "To the left."],
  ...(figure === undefined ? {} : { figure }),
});

it("says which cut is next, that there is none, and nothing of it while the steps are not known yet", () => {
  expect(nextOf([step("fit"), step("cut", "12.5°"), step("cut", "14.0°")])).toEqual({
    figure: "12.5°",
    says: "end B: cut 2 of 3, off square",
    why: "Offset 3.0 mm. To the left.",
  });
  expect(nextOf([step("wrap")]).figure).toBe("wrap");
  expect(nextOf([step("flat")]).figure).toBe("square");
  expect(nextOf([step("fit")])).toEqual({ figure: "all cut", says: "both ends are done", why: "" });
  expect(nextOf([])).toEqual({ figure: "all cut", says: "both ends are done", why: "" });
  expect(nextOf(undefined)).toEqual({ figure: "…", says: "Computing…", why: "" });
});
