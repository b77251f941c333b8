import { expect, test } from "vitest";
import { run } from "./run.ts";

const job = (length: "mm" | "in") =>
  JSON.stringify({
    format: "tubewright job",
    version: 2,
    show: { length },
    tubes: { t: { od: 40, wall: 2 } },
    bars: {
      post: {
        tube: "t",
        path: [
          [0, 0, 0],
          [0, 0, 800],
        ],
      },
      on: { tube: "t", path: [{ on: "post", z: 200 }, [500, 0, 200]] },
      by: {
        tube: "t",
        path: [
          [254, 14.6, 0],
          [254, 14.6, 600],
        ],
      },
    },
  });

test("check names a clash of bars as a danger with its place; bend and cope answer as ever", async () => {
  const files = { "job.json": job("mm") };
  const got = await run(["check", "job.json", "--json"], files);
  expect(got.code).toBe(0);
  const { findings } = JSON.parse(got.out);
  expect(findings[0]).toMatchObject({
    severity: "danger",
    code: "clash",
    bar: "on",
    values: { bar: { text: "on" }, other: { text: "by" }, overlap: { mm: 25.4 }, x: { mm: 254 } },
  });
  expect(findings.filter((f: { code: string }) => f.code.startsWith("clash"))).toHaveLength(1);
  const said = await run(["check", "job.json"], files);
  expect(said.out).toMatch(
    /^DANGER \(1\)\n! bars\.on: move on or by, or cope one to the other: they overlap by 25\.4 mm\. The place is x 254\.0 mm/,
  );
  for (const command of ["bend", "cope"]) {
    const other = await run([command, "job.json", "--json"], files);
    expect([other.code, other.out + other.err]).toEqual([0, expect.not.stringContaining("clash")]);
  }
});

test("an inch job reads of it in inches alone", async () => {
  const said = await run(["check", "job.json"], { "job.json": job("in") });
  const line = said.out.split("\n").find((l) => l.includes("overlap"))!;
  expect(line).toContain("overlap by 1 in. The place is x 10 in");
  expect(line).not.toContain("mm");
});
