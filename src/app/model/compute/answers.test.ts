import { readFileSync } from "node:fs";
import { describe, expect, it, vi } from "vitest";
import { readJob } from "../../../core/job/index.ts";
import { deg } from "../../../core/numeric/index.ts";
import { type JobDocument, type Json, keepAsBuilt, setValue } from "../document/index.ts";
import { demo } from "../document/testing.ts";
import { runLong } from "./long.ts";
import { doLong, type LongTask, type LongWord } from "./long-task.ts";
import { sessionWith } from "./session.ts";

const font = (name: string) => new Uint8Array(readFileSync(`node_modules/dejavu-fonts-ttf/ttf/${name}.ttf`));
const session = () =>
  sessionWith(async () => ({ regular: font("DejaVuSans"), bold: font("DejaVuSans-Bold") }));

function having(document: JobDocument, path: readonly (string | number)[], value: Json): JobDocument {
  const edit = setValue(path, value).edit(document);
  if (!edit.ok) throw new Error(edit.lines.join("\n"));
  return edit.document;
}

async function asked(document: JobDocument) {
  const engine = session();
  const read = readJob(document);
  if (!read.ok) throw new Error("the job does not pass");
  const answer = await engine.compute({ revision: 1, job: read.job });
  expect(answer).toMatchObject({ ok: true });
  return engine;
}

describe("asking beside the plan", () => {
  it("says nothing before there is a job, and how long an answer took", async () => {
    expect(await session().ask("survey", {})).toBeUndefined();
    const told = await (await asked(demo())).ask("survey", {});
    expect(told).toMatchObject({ answer: undefined });
    expect(told!.took).toBeGreaterThanOrEqual(0);
  });

  it("survey: points without readings are told what would fix them", async () => {
    const points: Json = { origin: [0, 0, 0], ahead: [1600, 0, 0], left: [0, 700, 0], post: {} };
    const told = await (await asked(having(demo(), ["points"], points))).ask("survey", {});
    expect(told!.answer).toMatchObject({ readings: [], undetermined: [{ id: "post", fix: [{}, {}, {}] }] });
  });

  it("trestles: the readings that tell, then what the bar is by them, held against what was wanted", async () => {
    const bar = "pillar-bar-left";
    const empty = (await (await asked(demo())).ask("trestles", { bar }))!.answer!;
    expect(empty.judged).toBeUndefined();
    expect(empty.telling.length).toBeGreaterThan(1);
    const bent = empty.telling.map(({ reading: { value, ...said } }) =>
      said.what === "angle"
        ? { ...said, angle: deg(value) + (said.bend === 2 ? 1.2 : 0) }
        : { ...said, size: value },
    ) as Json;
    const read = having(demo(), ["made", bar], { bent });
    const told = (await (await asked(read)).ask("trestles", { bar }))!.answer!;
    if (!told.judged || told.judged === "none") throw new Error("was not judged");
    expect(told.counted).toHaveLength(empty.telling.length);
    // kept as built, the same readings say the same: they are held against the bar as wanted
    const { path, over } = told.judged.placed!;
    const keep = keepAsBuilt({ [bar]: { path, over } }, "keep").edit(read);
    const again = (await (await asked(keep.ok ? keep.document : expect.fail())).ask("trestles", { bar }))!
      .answer!;
    expect(again.wanted).toEqual(told.wanted);
    expect(again.judged).toMatchObject({ bent: { shape: { angles: told.judged.bent.shape.angles } } });
  });

  it("trestles: a reading that this bar cannot give is told, a struck one not counted", async () => {
    const bent: Json = [
      { what: "angle", bend: 9, angle: 40 },
      { what: "end-to-end", size: "60 in", struck: true },
    ];
    const engine = await asked(having(demo(), ["made", "pillar-bar-left"], { bent }));
    const told = (await engine.ask("trestles", { bar: "pillar-bar-left" }))!.answer!;
    expect(told).toMatchObject({
      counted: [],
      wrong: [{ index: 0, why: "there is no bend 9; the bar has 3" }],
    });
    expect(told.judged).toBeUndefined();
    expect((await engine.ask("trestles", { bar: "nothing" }))!.answer).toBeUndefined();
  });

  it("tacked: which cards change, against the plan as it is", async () => {
    const engine = await asked(demo());
    expect((await engine.ask("tacked", { bar: "main-hoop" }))!.answer).toMatchObject({
      counted: [],
      slipped: [],
      planned: [],
      // the hoop's six places as planned: what it is off by has a direction
      wanted: [[0, 575, 30], {}, {}, {}, {}, [0, -575, 30]],
      waiting: [],
      kept: false,
    });
    const tacked: Json = [
      { what: "height", of: { bar: "main-hoop", along: 1442 }, over: "centre", size: 1000 },
      { what: "height", of: "sill", size: 100 },
    ];
    const read = having(having(demo(), ["points", "sill"], {}), ["made", "main-hoop"], { tacked });
    const told = (await (await asked(read)).ask("tacked", { bar: "main-hoop" }))!.answer!;
    expect(told).toMatchObject({ counted: [0], waiting: [1] });
    // the hoop's top stands at 1085 in the demo's own figures
    expect(told.planned[0]).toBeCloseTo(1085, 6);
  });

  it("gaps: no joint, nothing felt, too few, and the next cut", async () => {
    const end = "A" as const;
    const bar = "harness-bar";
    const ask = async (gaps: Json) =>
      (await (await asked(having(demo(), ["made", bar], { gaps }))).ask("gaps", { bar, end }))!.answer;
    expect((await (await asked(demo())).ask("gaps", { bar: "main-hoop", end }))!.answer).toMatchObject({
      is: "no joint",
    });
    expect(await ask({})).toMatchObject({ is: "empty" });
    const few = { A: { cut: 10, read: [{ phi: 0, gap: 0.4 }] } };
    expect(await ask(few)).toMatchObject({
      is: "no answer",
      why: expect.stringMatching(/four gaps or more/),
    });
  });
});

describe("long work", () => {
  /** A worker that works as the thread of the test. */
  function here() {
    let listener: ((event: { data: LongWord }) => void) | undefined;
    const worker = {
      terminate: vi.fn(),
      addEventListener: (kind: string, fn: unknown) => {
        if (kind === "message") listener = fn as typeof listener;
      },
      postMessage: (task: LongTask) => doLong(task, (data) => listener?.({ data: structuredClone(data) })),
    };
    return worker as typeof worker & Worker;
  }

  it("says how far it has come, answers, and lets its worker go", async () => {
    const shares: number[] = [];
    const worker = here();
    const run = runLong(
      "errors",
      demo(),
      ({ share }) => shares.push(share),
      () => worker,
    );
    const budget = (await run.done)!;
    expect(budget.bars).toHaveLength(Object.keys(demo().bars as object).length);
    expect(budget.bars.find((b) => b.id === "pillar-bar-left")!.made.steps[0]).toMatchObject({
      kind: "turn",
      n: 1,
    });
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    expect(shares.at(-1)).toBeGreaterThan(0.9);
    expect(worker.terminate).toHaveBeenCalled();
  });

  it("stops when told to, and says why it could not", async () => {
    const silent = {
      terminate: vi.fn(),
      addEventListener: () => {},
      postMessage: () => {},
    } as unknown as Worker;
    const run = runLong(
      "errors",
      demo(),
      () => {},
      () => silent,
    );
    run.stop();
    expect(await run.done).toBeUndefined();
    expect(silent.terminate).toHaveBeenCalled();
    const bad = runLong("errors", { format: "tubewright job" }, () => {}, here);
    await expect(bad.done).rejects.toThrow("the job does not pass; mend it first");
  });
});
