import { expect, it } from "vitest";
import { lacksOf } from "./lacks.tsx";

it("what the order is judged without: the torch, the driver, panels and openings, until they are entered", () => {
  const places = [
    [0, 0, 0],
    [1, 0, 0],
    [0, 1, 0],
  ];
  expect(lacksOf({}).map(([what]) => what)).toEqual(["torch", "driver", "body"]);
  const torch = { shop: { torch: { od: 30, length: 90 } }, driver: { hip: [0, 0, 0] } };
  expect(lacksOf(torch)).toEqual([["body", { topic: "body" }]]);
  const openings = { door: places };
  expect(lacksOf({ ...torch, body: { openings } }).map(([what]) => what)).toEqual(["body"]);
  expect(lacksOf({ ...torch, body: { openings, panels: { floor: { edge: places } } } })).toEqual([]);
});
