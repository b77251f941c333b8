import { expect, it } from "vitest";
import { FIT_ANSWER } from "./answers.ts";
import { REFUSED } from "./commands.ts";
import { directionWords } from "./direction.ts";
import { REUSE } from "./made.ts";

it("one of a thing is one, and three things are a list", () => {
  expect(FIT_ANSWER.stopped(1)).toBe("stopped after 1 second: the rest was not checked");
  expect(FIT_ANSWER.stopped(2)).toContain("2 seconds");
  expect(REFUSED.short("bars.a.path", 1, 3)).toContain("the list has 1 entry;");
  expect(REUSE.found(1)).toBe("1 match.");
  expect(REUSE.found(2)).toBe("2 matches.");
  expect(directionWords([1, 1, 1])).toBe("up, forward and to the left");
});
