import { describe, expect, it } from "vitest";
import { readJob } from "./read.ts";
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
