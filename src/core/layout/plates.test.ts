import { expect, test } from "vitest";
import { readJob } from "../job/index.ts";
import { layOut } from "./layout.ts";
import { platesUnder } from "./plates.ts";

test("plates are found once each, mirrored ones too, as large as the bars on them need", () => {
  const read = readJob(
    JSON.stringify({
      format: "tubewright job",
      version: 2,
      tubes: { t: { od: 40, wall: 2 }, thin: { od: 25, wall: 2 } },
      plates: {
        foot: { at: [0, 300, 0], normal: [0, 0, 1], size: [120, 60], along: [3, 4, 0] },
        bare: { at: [500, 300, 0], normal: [0, 0, 1] },
        twin: { at: [500, -300, 0], normal: [0, 0, 1], thickness: 5 },
      },
      bars: {
        leg: { tube: "t", path: [{ plate: "foot" }, [0, 300, 500]] },
        "leg-r": { mirrorOf: "leg" },
        lean: { tube: "t", path: [{ plate: "bare" }, [500, 600, 400]] },
        "lean-r": { mirrorOf: "lean" },
        straight: { tube: "thin", path: [{ plate: "bare" }, [500, 300, 400]] },
      },
    }),
  );
  if (!read.ok) throw new Error("the job does not pass");
  const bars = [...layOut(read.job).byId.values()];
  const found = new Map(platesUnder(read.job.plates, bars).map((p) => [p.id, p]));
  expect([...found.keys()]).toEqual(["foot", "foot, other side", "bare", "twin"]);
  expect(found.get("foot")!.outline).toMatchObject({ kind: "rectangle", half: [60, 30] });
  const { outline } = found.get("foot, other side")!;
  expect(outline).toMatchObject({ kind: "rectangle", x: [0.6, -0.8, 0], half: [60, 30] });
  // 3-4-5: the leaning bar is 36.87° off the normal.
  expect(found.get("bare")!.outline).toEqual({ kind: "disc", radius: expect.closeTo((1.5 * 40) / 0.8, 9) });
  expect(found.get("twin")).toMatchObject({ plate: { thickness: 5 }, isSized: false });
});
