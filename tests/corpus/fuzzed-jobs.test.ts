import { expect, it } from "vitest";
import demo from "../../demo/sandling.json";
import { readJob } from "../../src/core/job/index.ts";
import { seeded } from "../../src/core/numeric/index.ts";
import { sayProblem } from "../../src/words/index.ts";
import trial from "./trial-frame.json";

type Box = Record<string | number, unknown>;

const STRANGE: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  1e9,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  "",
  "NaN",
  "12 5/16 in",
  '-1/8"',
  "hoop",
  "main-hoop",
  "__proto__",
  "constructor",
  "a\nb",
  [],
  {},
  [1, 2, 3],
  [[]],
  { on: "hoop" },
  { on: "hoop", along: 5 },
  { toward: { toward: {} } },
  { mirrorOf: "hoop" },
  { A: 1 },
  undefined,
  "x".repeat(5000),
  "left",
];

/** Every place in a document that holds something, as its holder and its key. */
function holders(value: unknown, found: [Box, string | number][] = []): [Box, string | number][] {
  if (typeof value !== "object" || value === null) return found;
  for (const key of Object.keys(value)) {
    found.push([value as Box, Array.isArray(value) ? Number(key) : key]);
    holders((value as Box)[key], found);
  }
  return found;
}

function mutate(document: unknown, random: () => number): void {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const places = holders(document);
  if (places.length === 0) return;
  const [box, key] = pick(places);
  const [other, otherKey] = pick(places);
  switch (Math.floor(random() * 6)) {
    case 0:
      if (Array.isArray(box)) box.splice(Number(key), 1);
      else delete box[key];
      return;
    case 1:
      box[key] = structuredClone(pick(STRANGE));
      return;
    case 2:
      box[key] = structuredClone(other[otherKey]);
      return;
    case 3:
      if (Array.isArray(box)) box.push(structuredClone(box[Number(key)]));
      else
        Object.defineProperty(box, pick(["odd", "", "__proto__", "on", String(otherKey), `${key}s`]), {
          value: structuredClone(box[key]),
          enumerable: true,
          configurable: true,
          writable: true,
        });
      return;
    case 4:
      box[key] = typeof box[key] === "number" ? `${box[key]} mm` : [box[key]];
      return;
    default:
      if (typeof box[key] === "number") box[key] = (box[key] as number) * 10 ** Math.floor(random() * 12 - 4);
      else if (typeof box[key] === "string") box[key] = (box[key] as string).slice(1);
  }
}

/** Whether it was read; fails on anything but a job or one-line problems. */
function answered(input: unknown): boolean {
  const result = readJob(input);
  if (result.ok) {
    expect(result.job.format).toBe("tubewright job");
    // a job that was read has nothing in it but finite numbers
    expect(
      JSON.stringify(result.job, (_, v) => (typeof v === "number" && !Number.isFinite(v) ? "BAD" : v)),
    ).not.toContain('"BAD"');
    return true;
  }
  expect(result.problems.length).toBeGreaterThan(0);
  for (const problem of result.problems) {
    const { place } = problem;
    const message = sayProblem(problem);
    if (!/^\P{Cc}+$/u.test(place) || !/^\P{Cc}+$/u.test(message) || /[\u2028\u2029]/.test(place + message))
      expect.fail(`not one line: ${JSON.stringify({ place, message })}`);
  }
  return false;
}

const SEED = 20_251;

it.each([
  ["the trial frame", trial, 5000],
  ["the demo", demo, 500],
] as const)(`%s, changed at random (seed ${SEED}), is always answered`, (_, good, runs) => {
  const random = seeded(SEED);
  let read = 0;
  for (let i = 0; i < runs; i++) {
    const document = structuredClone(good);
    for (let n = Math.floor(random() * 4); n >= 0; n--) mutate(document, random);
    if (answered(document)) read++;
    // as text it is judged alike, but for what JSON cannot hold
    else if (i % 10 === 0) answered(JSON.stringify(document));
  }
  // both kinds of answer came up, or nothing was tried
  expect(read).toBeGreaterThan(runs / 50);
  expect(read).toBeLessThan(runs / 1.2);
});

it(`the text cut and garbled at random (seed ${SEED}) is always answered`, () => {
  const random = seeded(SEED);
  const text = JSON.stringify(trial, null, 1);
  let read = 0;
  for (let i = 0; i < 3000; i++) {
    const at = Math.floor(random() * text.length);
    const char = '{}[]",:0-.e\\ \n\u2028\u0000é'[Math.floor(random() * 17)]!;
    const garbled = [
      text.slice(0, at),
      text.slice(0, at) + char + text.slice(at),
      text.slice(0, at) + char + text.slice(at + 1),
    ];
    if (answered(garbled[i % 3])) read++;
  }
  expect(read).toBeGreaterThan(100);
  expect(read).toBeLessThan(2500);
});
