import { describe, expect, it } from "vitest";
import { readAnyVersion, readJob } from "./read.ts";
import { upgraded } from "./upgrade.ts";

type Dict = Record<string, unknown>;

describe("an older version", () => {
  const steps = {
    [-1]: (d: Readonly<Dict>) => ({ ...d, title: "from -1" }),
    0: ({ title, ...d }: Readonly<Dict>) => ({ ...d, name: title ?? "" }),
  };

  it("goes through every step up to the present", () => {
    const newest = (d: unknown) => upgraded(d, steps, 1);
    expect(newest({ version: -1, bars: {} })).toEqual({ version: 1, bars: {}, name: "from -1" });
    expect(newest({ version: 0, title: "T" })).toEqual({ version: 1, name: "T" });
  });

  it("that is none is left alone", () => {
    for (const value of [{ version: 2 }, { version: 3 }, { version: "1" }, [], null, 7])
      expect(upgraded(value)).toBe(value);
  });

  it("of a job keeps every key and says the present version", () => {
    const first = {
      format: "tubewright job",
      version: 1,
      name: "Old",
      tubes: { t: { od: "1 1/2 in", wall: 2 } },
    };
    const read = readJob(JSON.stringify(first));
    expect(read).toMatchObject({ ok: true, document: { ...first, version: 2 }, job: { version: 2 } });
    expect(readJob({ ...first, version: 3 })).toEqual({
      ok: false,
      problems: [
        { place: "version", code: "newer-version", values: { version: { text: "3" }, ours: { count: 2 } } },
      ],
    });
  });
});

describe("a job of a newer version", () => {
  const bar = {
    tube: "t",
    path: [
      [0, 1, 0],
      [0, "-2 in", 0],
    ],
  };
  const newer = {
    format: "tubewright job",
    version: 3,
    name: "From tomorrow",
    tubes: { t: { od: "1 1/2 in", wall: 2 } },
    bars: { b: bar },
    cards: { b: { n: 2, code: "4dce", on: "2026-11-29" } },
  };

  it.each([
    ["a text", JSON.stringify(newer)],
    ["a document", newer],
  ])("is read from %s where all of it is known, and its document stays as it was written", (_, input) => {
    const read = readAnyVersion(input);
    expect(read).toMatchObject({ ok: true, document: newer, newer: { version: 3, document: newer } });
    const same = readJob({ ...newer, version: 2 });
    expect(read.ok && read.job).toEqual(same.ok && same.job);
  });

  it("gives no figure where a key is unknown, and names the version and the key", () => {
    const unknown = { ...newer, sleeves: {}, bars: { b: { ...bar, sleeve: 3 } } };
    const read = readAnyVersion(unknown);
    expect(read).toMatchObject({ ok: false, newer: { version: 3, document: unknown } });
    expect(read.ok ? [] : read.problems.map((p) => p.place)).toEqual(["version", "bars.b.sleeve", "sleeves"]);
    const text = readAnyVersion(`\uFEFF${JSON.stringify(unknown)}`);
    expect(text).toMatchObject({ newer: { document: unknown } });
    expect(text.ok ? [] : text.problems.map((p) => p.at)).not.toContain(undefined);
  });

  it.each([
    ["of this version", { ...newer, version: 2 }],
    ["of a version before", { ...newer, version: 1 }],
    ["of a version in text", { ...newer, version: "3" }],
    ["of another format", { ...newer, format: "drawing" }],
    ["that is no JSON", { ...newer, name: () => "x" }],
    ["that is none", [3]],
    ["that is no text of one", "{"],
  ])("is not made of one %s", (_, input) => {
    const read = readAnyVersion(input);
    expect(read.newer).toBeUndefined();
    expect(read).toEqual(readJob(input));
  });
});
