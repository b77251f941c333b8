import { readFileSync } from "node:fs";
import highsLoader from "highs";
import { beforeAll, expect, test } from "vitest";
import { contactsOf, opening } from "../../src/core/fit/joint/index.ts";
import { maximise, type Programme, seeded } from "../../src/core/numeric/index.ts";
import { lerp } from "../../src/core/space/index.ts";
import { fittingFor } from "../support/fit.ts";

/** The own simplex against HiGHS (npm highs 1.15.3, MIT), a solver that we did not write: the same optimum. */
let highs: Awaited<ReturnType<typeof highsLoader>>;
beforeAll(async () => {
  highs = await highsLoader();
});

const terms = (c: readonly number[]): string =>
  c.map((v, k) => `${v < 0 ? "-" : "+"} ${Math.abs(v).toFixed(15)} x${k}`).join(" ");

type Rows = { readonly rows: readonly (readonly number[])[] };

/** What HiGHS makes of a programme; undefined where nothing fits. */
function theirs({ c, rows, atLeast, box }: Programme & Rows): number | undefined {
  const text = [
    "Maximize",
    ` value: ${terms(c)}`,
    "Subject To",
    ...rows.map((row, i) => ` r${i}: ${terms(row)} >= ${atLeast[i]!.toFixed(15)}`),
    "Bounds",
    ...box.map((b, k) => ` ${-b} <= x${k} <= ${b}`),
    "End",
  ].join("\n");
  const solved = highs.solve(text, {
    primal_feasibility_tolerance: 1e-9,
    dual_feasibility_tolerance: 1e-9,
    presolve: "off",
  });
  if (solved.Status === "Infeasible") return undefined;
  expect(solved.Status).toBe("Optimal");
  return solved.ObjectiveValue;
}

test("all joints of the demo car: the way most open, and a direction each, straight and with a turn", () => {
  const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as object;
  const { bars } = fittingFor(demo);
  expect(bars.length).toBe(36);
  let moves = 0;
  bars.forEach(({ bar, copes, hosts }, n) => {
    const contacts = contactsOf(bar, copes, hosts);
    const { start, finish, length } = bar.centreline;
    const whole = contacts.map((k) => opening(k, lerp(start, finish, 0.5), length / 2));
    const straight = contacts.map((k) => [...k.normal]);
    const programmes = [straight, whole].map((rows, i) => {
      const unknowns = [0, 1, 2, 3, 4, 5].slice(0, i === 0 ? 3 : 6);
      const mean = unknowns.map((k) => rows.reduce((sum, row) => sum + row[k]!, 0) / rows.length);
      // A direction of each bar: all are met over the car.
      const axis = unknowns.map((k) => (k === n % unknowns.length ? (n % 2 === 0 ? 1 : -1) : 0));
      return { c: n % 3 === 0 ? mean : axis, rows, atLeast: rows.map(() => 0), box: unknowns.map(() => 1) };
    });
    for (const programme of programmes) {
      const own = maximise(programme);
      expect(own.ok, bar.id).toBe(true);
      const other = theirs(programme)!;
      if (own.ok) expect(Math.abs(own.value - other), bar.id).toBeLessThan(1e-6);
      if (other > 1e-6) moves++;
    }
  });
  expect(moves).toBeGreaterThan(20);
  expect(moves).toBeLessThan(72);
});

test("200 at random, 3 to 13 unknowns, some that nothing fits (seed 19)", () => {
  const random = seeded(19);
  const number = (): number => random() * 2 - 1;
  let fits = 0;
  let none = 0;
  for (let n = 0; n < 200; n++) {
    const unknowns = 3 + (n % 11);
    const row = (): number[] => Array.from({ length: unknowns }, number);
    const rows = Array.from({ length: 5 + Math.floor(random() * 80) }, row);
    const shift = [0, -0.4, 0.5][n % 3]!;
    const programme = {
      c: row(),
      rows,
      atLeast: rows.map(() => (shift === 0 ? 0 : number() * 0.2 + shift)),
      box: row().map((v) => 0.5 + Math.abs(v)),
    };
    const own = maximise(programme);
    const other = theirs(programme);
    expect(own.ok).toBe(other !== undefined);
    if (own.ok) {
      fits++;
      expect(Math.abs(own.value - other!)).toBeLessThan(1e-6);
    } else none++;
  }
  expect(fits).toBeGreaterThan(80);
  expect(none).toBeGreaterThan(20);
});
