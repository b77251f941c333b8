import { describe, expect, it } from "vitest";
import { readJob } from "../../src/core/job/index.ts";
import { problemLine } from "../../src/words/index.ts";
import trial from "./trial-frame.json";

/** The trial frame with other values at paths (keys parted by blanks); undefined takes the key out. */
function changed(changes: Readonly<Record<string, unknown>>): unknown {
  const document: unknown = structuredClone(trial);
  for (const [path, value] of Object.entries(changes)) {
    const steps = path.split(" ");
    const home = steps.slice(0, -1).reduce((at, step) => (at as Record<string, unknown>)[step], document);
    if (value === undefined) Reflect.deleteProperty(home as object, steps.at(-1)!);
    else (home as Record<string, unknown>)[steps.at(-1)!] = value;
  }
  return document;
}

function lines(input: unknown): readonly string[] {
  const result = readJob(input);
  return result.ok ? [] : result.problems.map(problemLine);
}

type Row = readonly [changes: Readonly<Record<string, unknown>>, ...lines: string[]];

const table = (rows: readonly Row[]) =>
  it.each(rows.map(([changes, ...expected]) => ({ changes, expected, name: expected[0] })))(
    "$name",
    ({ changes, expected }) => expect(lines(changed(changes))).toEqual(expected),
  );

const bar = {
  tube: "main",
  path: [
    [0, 0, 0],
    [0, 0, 900],
  ],
};
const onHoop = (landing: object) => ({ "bars cross path 0": { on: "hoop", ...landing } });

it("the frame itself is good", () => expect(lines(changed({}))).toEqual([]));

describe("names", () => {
  table([
    [
      { "bars cross path 0 on": "hop" },
      'bars.cross.path[0].on: no bar is called "hop" — did you mean "hoop"?',
    ],
    [{ "bars cross path 0 on": "main" }, 'bars.cross.path[0].on: no bar is called "main"'],
    [{ "bars hoop tube": "Main" }, 'bars.hoop.tube: no tube is called "Main" — did you mean "main"?'],
    [{ "bars hoop die": "d54" }, 'bars.hoop.die: no die is called "d54" — did you mean "d45"?'],
    [
      { "bars hoop path 0 plate": "foot-1" },
      'bars.hoop.path[0].plate: no plate is called "foot-1" — did you mean "foot-l"?',
    ],
    [
      { plates: undefined },
      'bars.hoop.path[0].plate: no plate is called "foot-l"; the job has no plates',
      'bars.hoop.path[3].plate: no plate is called "foot-r"; the job has no plates',
    ],
    [
      { "bars hoop path 1": { point: "sholder" } },
      'bars.hoop.path[1].point: no point is called "sholder" — did you mean "shoulder"?',
    ],
    [
      { "bars stay-r mirrorOf": "stay-i" },
      'bars.stay-r.mirrorOf: no bar is called "stay-i" — did you mean "stay-l"?',
    ],
    [
      { rack: [{ tube: "mian", pieces: [500] }] },
      'rack[0].tube: no tube is called "mian" — did you mean "main"?',
    ],
    [
      onHoop({ along: 3, also: ["stay"] }),
      'bars.cross.path[0].also[0]: no bar is called "stay" — did you mean "stay-l"?',
    ],
    [
      onHoop({ toward: { on: "hopo", along: 3 } }),
      'bars.cross.path[0].toward.on: no bar is called "hopo" — did you mean "hoop"?',
    ],
    [onHoop({ toward: { point: "hip" } }), 'bars.cross.path[0].toward.point: no point is called "hip"'],
    [
      { "bars cross follow": { bar: "hop", gap: 3, side: "inside" } },
      'bars.cross.follow.bar: no bar is called "hop" — did you mean "hoop"?',
    ],
    [
      { "bars x": { mirrorOf: "stay-r" } },
      'bars.x.mirrorOf: "stay-r" is a mirrored bar itself; mirror its original instead',
    ],
    [{ "bars cross tube": "__proto__" }, 'bars.cross.tube: no tube is called "__proto__"'],
    [{ "bars cross tube": "constructor" }, 'bars.cross.tube: no tube is called "constructor"'],
    [
      { "bars cross tube": "a\nb" },
      "bars.cross.tube: has a line break (U+000A); take it out",
      'bars.cross.tube: no tube is called "a\\nb"',
    ],
  ]);
});

describe("circles", () => {
  const circle = "these bars depend on each other in a circle, and none has a place";
  table([
    [
      { "bars hoop path 0": { on: "cross", along: 20 } },
      `bars.hoop.path[0].on: ${circle}: hoop → cross → hoop`,
    ],
    [{ "bars hoop path 0": { on: "hoop", along: 20 } }, "bars.hoop.path[0].on: a bar cannot land on itself"],
    [{ "bars x": { mirrorOf: "x" } }, "bars.x.mirrorOf: a bar cannot mirror itself"],
    [
      {
        "bars hoop path": [{ plate: "foot-l" }, { plate: "foot-r" }],
        "bars hoop follow": { bar: "hoop", gap: 0, side: "inside" },
      },
      "bars.hoop.follow.bar: a bar cannot follow itself",
    ],
    [
      { "bars stay-l path 0": { on: "stay-r", along: 20 } },
      `bars.stay-l.path[0].on: ${circle}: stay-l → stay-r → stay-l`,
    ],
    [
      {
        "bars a": { ...bar, path: [{ on: "hoop", toward: { on: "b", along: 3 } }, [0, 0, 1]] },
        "bars b": { ...bar, follow: { bar: "a", gap: 3, side: "inside" } },
      },
      `bars.a.path[0].toward.on: ${circle}: a → b → a`,
    ],
    [onHoop({ along: 3, also: ["cross"] }), "bars.cross.path[0].also[0]: a bar cannot be coped to itself"],
  ]);

  it("also does not count", () => {
    const path = [{ on: "hoop", along: 800, also: ["cross"] }, [-900, 520, 300]];
    expect(lines(changed({ "bars stay-l path": path, ...onHoop({ along: 3, also: ["stay-l"] }) }))).toEqual(
      [],
    );
  });
});

describe("landings and paths", () => {
  table([
    [onHoop({}), "bars.cross.path[0]: says on, but not where: add along, x, y, z or toward"],
    [onHoop({ along: 3, z: 4 }), "bars.cross.path[0]: says where it lands 2 times: along, z; keep one"],
    [
      onHoop({ along: 3, near: "left" }),
      "bars.cross.path[0].near: take near out or give x, y or z: near picks among the crossings of a plane",
    ],
    [
      onHoop({ z: 3, near: "lfet" }),
      'bars.cross.path[0].near: near is left, right, front, rear, top, bottom or a place [x, y, z], not the text "lfet"',
    ],
    [onHoop({ along: 3, also: ["hoop"] }), "bars.cross.path[0].also[0]: is the bar that it lands on already"],
    [onHoop({ along: 3, also: ["stay-l", "stay-l"] }), "bars.cross.path[0].also[1]: is in the list already"],
    [
      onHoop({ alnog: 3 }),
      'bars.cross.path[0].alnog: unknown key — did you mean "along"?',
      "bars.cross.path[0]: says on, but not where: add along, x, y, z or toward",
    ],
    [
      onHoop({ toward: { step: [0, 0, 1] } }),
      'bars.cross.path[0].toward: toward is [x, y, z] or has one of at, point, on, not an object with "step"',
    ],
    [
      onHoop({ toward: { on: "hoop" } }),
      "bars.cross.path[0].toward: says on, but not where: add along, x, y, z or toward",
    ],
    [
      { "bars cross path 0": { onn: "hoop", along: 3 } },
      "bars.cross.path[0].on: missing",
      'bars.cross.path[0].onn: unknown key — did you mean "on"?',
    ],
    [
      { "bars cross path 0": {} },
      "bars.cross.path[0]: a node is [x, y, z] or has one of at, point, step, on, plate, not {}",
    ],
    [
      { "bars cross path 0": "here" },
      'bars.cross.path[0]: a node is [x, y, z] or has one of at, point, step, on, plate, not the text "here"',
    ],
    [
      { "bars cross path 0": [1, 2] },
      "bars.cross.path[0]: must be [x, y, z], three lengths, not a list of 2",
    ],
    [
      { "bars cross path 0": { step: [1, 2, 3] } },
      "bars.cross.path[0].step: give the first node a place: it has none before it for a step",
    ],
    [
      { "bars hoop path 1": { plate: "foot-l" } },
      "bars.hoop.path[1].plate: only the first or the last node can stand on something",
    ],
    [
      { "bars hoop path 1": { on: "stay-l", along: 3 }, "bars stay-l path 0": [0, 1, 2] },
      "bars.hoop.path[1].on: only the first or the last node can stand on something",
    ],
    [{ "bars cross path": [[0, 0, 0]] }, "bars.cross.path: needs at least 2, not a list of 1"],
    [{ "bars cross path": [] }, "bars.cross.path: needs at least 2, not an empty list"],
    [
      {
        "bars x": {
          ...bar,
          path: [
            [0, 0, 0],
            [0, 0, 1],
            [0, 1, 1],
          ],
          follow: { bar: "hoop", gap: 60, side: "inside" },
        },
      },
      "bars.x.path: follow gives the corners; the path has just its two ends, not 3 nodes",
    ],
    [
      { "bars x": { ...bar, follow: { bar: "hoop", gap: -1, side: [0, 0, 0] } } },
      "bars.x.follow.gap: must be at least 0 mm, not -1 mm",
      "bars.x.follow.side: a direction cannot be nothing",
    ],
  ]);
});

describe("bars", () => {
  const beside =
    "a mirrored bar takes everything else from its original; beside mirrorOf only mirrorOf, label, trim, fromEnd, believed, progress, needs may stand";
  table([
    [{ "bars stay-r tube": "light" }, `bars.stay-r.tube: unknown key; ${beside}`],
    [
      { "bars stay-r path": [], "bars stay-r die": "d38" },
      `bars.stay-r.path: unknown key; ${beside}`,
      `bars.stay-r.die: unknown key; ${beside}`,
    ],
    [{ "bars cross tube": undefined }, "bars.cross.tube: missing"],
    [
      { "bars x": { label: "x" } },
      'bars.x: a bar has a tube and a path, or is the mirrorOf another, not an object with "label"',
    ],
    [{ "bars x": 5 }, "bars.x: a bar has a tube and a path, or is the mirrorOf another, not 5"],
    [{ "bars x": null }, "bars.x: a bar has a tube and a path, or is the mirrorOf another, not null"],
    [{ bars: [] }, "bars: must be an object, not an empty list"],
    [{ "bars cross fromEnd": "C" }, 'bars.cross.fromEnd: must be "A" or "B", not the text "C"'],
    [{ "bars stay-l trim": { C: 4 } }, "bars.stay-l.trim.C: unknown key; known here: A, B"],
    [{ "bars cross believed": { A: [50, 40] } }, "bars.cross.believed.A: from 50 to 40 runs backwards"],
    [{ "bars cross believed": { A: 90 } }, "bars.cross.believed.A: must be less than 90, not 90"],
  ]);
});

describe("sizes", () => {
  table([
    [{ "tubes main wall": 22.5 }, "tubes.main.wall: a wall of 22.5 mm leaves no bore in a tube of 45 mm"],
    [
      { "tubes main od": "1 in", "tubes main wall": "1/2 in" },
      "tubes.main.wall: a wall of 12.7 mm leaves no bore in a tube of 25.4 mm",
    ],
    [{ "tubes main wall": 0 }, "tubes.main.wall: must be more than 0 mm, not 0 mm"],
    [{ "tubes main od": 0.5, "tubes main wall": 0.1 }, "tubes.main.od: must be at least 1 mm, not 0.5 mm"],
    [{ "tubes main od": "2 m" }, "tubes.main.od: must be at most 1000 mm, not 2000 mm"],
    [{ "tubes main stick": 1e9 }, "tubes.main.stick: must be at most 1000000 mm, not 1000000000 mm"],
    [{ "tubes 45x2.5": { od: "45 m m", wall: 2 } }, 'tubes["45x2.5"].od: "45 m m": "m" after the length'],
    [{ "tubes main od": "12-5/16-3" }, 'tubes.main.od: "12-5/16-3": a second "-3" after the fraction'],
    [
      { "tubes main od": null },
      'tubes.main.od: a length is a number of millimetres or text such as "12 5/16 in", not null',
    ],
    [
      { "tubes main od": undefined },
      'tubes.main.od: missing; a length is a number of millimetres or text such as "12 5/16 in"',
    ],
    [
      { "tubes main od": Number.NaN },
      'tubes.main.od: a length is a number of millimetres or text such as "12 5/16 in", not NaN',
    ],
    [
      { "bars hoop path 1": [0, Number.POSITIVE_INFINITY, 0] },
      'bars.hoop.path[1][1]: a length is a number of millimetres or text such as "12 5/16 in", not Infinity',
    ],
    [
      { "bars hoop path 1": [0, 0, -1e7] },
      "bars.hoop.path[1][2]: must be at least -1000000 mm, not -10000000 mm",
    ],
    [
      { "dies d45 clr": 22.5 },
      "dies.d45.clr: a centreline radius of 22.5 mm is not more than half the tube of 45 mm",
    ],
    [{ "dies d45 maxAngle": "180" }, 'dies.d45.maxAngle: must be a number, not the text "180"'],
    [{ "dies d45 maxAngle": 0 }, "dies.d45.maxAngle: must be more than 0, not 0"],
    [{ "plates foot-l normal": [0, 0, 0] }, "plates.foot-l.normal: a direction cannot be nothing"],
    [
      { "plates foot-l normal": [0, 0, "1 in"] },
      'plates.foot-l.normal[2]: must be a number, not the text "1 in"',
    ],
    [
      { "points shoulder": { sd: 3 } },
      "points.shoulder.sd: an error without a place; give at beside it, or leave the point {}",
    ],
    [
      { "points shoulder": [1, 2, "3 inch es"] },
      'points.shoulder[2]: "3 inch es": "es" is no unit; use mm, cm, m, in or ft',
    ],
    [{ "show fraction": 10 }, "show.fraction: must be 2 or 4 or 8 or 16 or 32 or 64 or 128 or 1000, not 10"],
    [{ "show length": "cm" }, 'show.length: must be "mm" or "in", not the text "cm"'],
    [{ notcher: { steepest: 95 } }, "notcher.steepest: must be less than 90, not 95"],
    [
      { readings: [3] },
      "readings[0]: a reading is tape (length), height (z), out (y), fore (x), level, plumb, slope or lean (angle), not 3",
    ],
    [{ readings: {} }, "readings: must be a list, not {}"],
  ]);
});

describe("keys and IDs", () => {
  table([
    [{ order: ["hoop", "hop"] }, 'order[1]: no bar is called "hop" — did you mean "hoop"?'],
    [{ order: ["hoop", "hoop"] }, "order[1]: is in the list already"],
    [
      { body: { roof: ["lid"] } },
      'body.roof[0]: no part of the body is called "lid"; the job has no lines, skin, openings, panels',
    ],
    [
      {
        body: {
          panels: {
            side: {
              edge: [
                [0, 0, 0],
                [1, 0, 0],
                [0, 0, 1],
              ],
              openings: ["door"],
            },
          },
        },
      },
      'body.panels.side.openings[0]: no opening is called "door"; the job has no openings',
    ],
    [{ body: { openings: { door: [[0, 0, 0]] } } }, "body.openings.door: needs at least 3, not a list of 1"],
    [
      { "bars hoop needs": "roof of" },
      'bars.hoop.needs: must be "body on" or "roof off", not the text "roof of" — did you mean "roof off"?',
    ],
    [{ tubess: {} }, 'tubess: unknown key — did you mean "tubes"?'],
    [{ "tubes main odd": 3 }, 'tubes.main.odd: unknown key — did you mean "od"?'],
    [{ "tubes main colour": "red" }, "tubes.main.colour: unknown key; known here: od, wall, material, stick"],
    [{ "tubes ": { od: 40, wall: 2 } }, 'tubes[""]: an ID cannot be empty'],
    [{ bars: { "a ": bar } }, 'bars["a "]: an ID cannot begin or end with a space'],
    [{ bars: { "a\u2028b": bar } }, 'bars["a\\u2028b"]: has a line break (U+2028); take it out'],
    [{ bars: { ["x".repeat(81)]: bar } }, `bars["${"x".repeat(59)}…"]: an ID has at most 80 characters`],
    [{ body: { lines: { "": [] } } }, 'body.lines[""]: an ID cannot be empty'],
  ]);

  it("__proto__ is refused as an ID and as a key", () => {
    const text = JSON.stringify(trial);
    const id = text.replace('"cross":', '"__proto__":');
    expect(lines(id)).toEqual([
      `bars.__proto__: this word is kept by the language; choose another ID (line 1, column ${id.indexOf('"__proto__"') + 1})`,
    ]);
    const key = text.replace('"od":', '"__proto__":{"od":3},"od":');
    expect(lines(key)).toEqual([
      `tubes.main.__proto__: unknown key; known here: od, wall, material, stick (line 1, column ${key.indexOf('"__proto__"') + 1})`,
    ]);
  });
});

describe("what bars were made to", () => {
  const end = {
    by: "saw",
    landing: [0, 0, 0],
    out: [0, 1, 0],
    zero: [0, 0, 1],
    over: 5,
    finished: 900,
  } as const;
  const other = { ...end, landing: [0, 900, 0], out: [0, -1, 0] };
  const post = {
    od: 45,
    path: [
      [0, 0, 0],
      [0, 0, 900],
    ],
  };
  const madeTo = (to: object) => ({ made: { cross: { to } } });
  const notched = (cut: object) => madeTo({ notched: { A: { ...end, ...cut } } });
  const wrapped = (cut: object) => notched({ by: "wrap", on: 1, bars: [post], ...cut });
  const plate = { at: [0, 0, 0], normal: [0, 0, 1] };
  const die = { od: 45, clr: 135, mark: 0, arcFactor: 1 };

  it.each([
    ["ends that are opposite", madeTo({ notched: { A: end, B: other } })],
    [
      "ends between which the plan turned the bar by half a right angle",
      madeTo({ notched: { A: end, B: { ...other, out: [0, -1, 1] } } }),
    ],
    ["a curve of two bars", wrapped({ on: 2, bars: [post, { ...post, A: { on: [0] } }] })],
  ])("%s are good", (_, change) => expect(lines(changed(change))).toEqual([]));

  table([
    [
      notched({ zero: [0, -3, 0] }),
      "made.cross.to.notched.A.zero: runs along out; give a direction square to out",
    ],
    [notched({ zero: [0, 0, 0] }), "made.cross.to.notched.A.zero: a direction cannot be nothing"],
    [
      madeTo({ notched: { A: end, B: { ...other, out: end.out } } }),
      "made.cross.to.notched.B.out: must point the opposite way to out of end A: the bar is straight",
    ],
    [
      madeTo({ notched: { A: end, B: { ...other, out: [1, 0, 0] } } }),
      "made.cross.to.notched.B.out: must point the opposite way to out of end A: the bar is straight",
    ],
    [
      wrapped({ bars: [{ ...post, A: { plate: { ...plate, normal: [0, 0, 0] } } }] }),
      "made.cross.to.notched.A.bars[0].A.plate.normal: a direction cannot be nothing",
    ],
    [
      wrapped({ bars: [{ ...post, B: { plate: { ...plate, along: [0, 0, 2] } } }] }),
      "made.cross.to.notched.A.bars[0].B.plate.along: runs along the plate's normal; give a direction in the plate",
    ],
    [wrapped({ on: 2 }), "made.cross.to.notched.A.on: must be at most 1, not 2"],
    [
      wrapped({ bars: [post, { ...post, A: { on: [0, 2] } }] }),
      "made.cross.to.notched.A.bars[1].A.on[1]: must be at most 1, not 2",
    ],
    [
      wrapped({ bars: [post, { ...post, A: { on: [1] } }] }),
      "made.cross.to.notched.A.bars[1].A.on[0]: a bar cannot be coped to itself",
    ],
    [
      madeTo({ sawn: { tube: { od: 45, wall: 22.5 }, length: 900 } }),
      "made.cross.to.sawn.tube.wall: a wall of 22.5 mm leaves no bore in a tube of 45 mm",
    ],
    [
      madeTo({ bent: { die: { ...die, clr: 22.5 }, fed: "A", zero: "", bends: [] } }),
      "made.cross.to.bent.die.clr: a centreline radius of 22.5 mm is not more than half the tube of 45 mm",
    ],
  ]);
});

describe("the file as a whole", () => {
  const ring: Record<string, unknown> = { ...trial };
  ring.readings = [ring];
  it.each<[string, unknown, string]>([
    ["a list", [], "job: a job is an object { … } with format, version, tubes and bars"],
    ["null", null, "job: a job is an object { … } with format, version, tubes and bars"],
    ["nothing", undefined, "job: a job is an object { … } with format, version, tubes and bars"],
    ["empty text", "", "job: the file is empty"],
    [
      "text cut short",
      '{"format": "tubewright job",',
      'line 1, column 29: not JSON: the text ends where a key in double quotes should stand; "{" is still open',
    ],
    [
      "another format",
      { format: "drawing", version: 9 },
      'format: "drawing" is another kind of file; a job says "tubewright job"',
    ],
    [
      "a newer version",
      { ...trial, version: 3 },
      "version: written by a newer Tubewright (3); this one reads 2",
    ],
    ["a version in text", { ...trial, version: "1" }, 'version: must be 2, not the text "1"'],
    ["a class's object", new Date(0), "job: an object of a class is no JSON"],
    ["a function", { ...trial, name: () => "x" }, "name: a function is no JSON"],
    ["a job that holds itself", ring, "readings[0].readings: nested more than 60 deep"],
    [
      "a deep text",
      `{"format":"tubewright job","version":1,"readings":${"[".repeat(1e5)}${"]".repeat(1e5)}}`,
      "readings[0][0]: nested more than 60 deep (line 1, column 53)",
    ],
  ])("%s", (_, input, line) => expect(lines(input)).toEqual([line]));

  it("lists everything that is wrong at once", () => {
    const changes = {
      version: undefined,
      "tubes main wall": 30,
      "dies d38 od": "3 feets",
      "bars hoop path 0": { on: "cross", along: "1,234" },
      "bars cross path 1 on": "hop",
      "bars stay-l trim B": -1,
    };
    expect(lines(changed(changes))).toEqual([
      "version: missing; must be 2",
      'dies.d38.od: "3 feets": "feets" is no unit; use mm, cm, m, in or ft',
      'bars.hoop.path[0].along: "1,234": the comma may part thousands or be a decimal comma; write 1234 or 1.234',
      "bars.stay-l.trim.B: must be at least 0 mm, not -1 mm",
      "tubes.main.wall: a wall of 30 mm leaves no bore in a tube of 45 mm",
      'bars.cross.path[1].on: no bar is called "hop" — did you mean "hoop"?',
      "bars.hoop.path[0].on: these bars depend on each other in a circle, and none has a place: hoop → cross → hoop",
    ]);
  });
});
