import { readFileSync } from "node:fs";
import { describe, expect, it, vi } from "vitest";
import { type Job, readJob } from "../../../core/job/index.ts";
import { seeded } from "../../../core/numeric/index.ts";
import { notchAt, planJob } from "../../../core/plan/index.ts";
import { problemLine } from "../../../words/index.ts";
import {
  at,
  type Command,
  changeBar,
  deleteBar,
  duplicateBar,
  type JobDocument,
  setProgress,
  setValue,
} from "../document/index.ts";
import { demo, frame } from "../document/testing.ts";
import { computerOn } from "./computer.ts";
import type { ComputeAnswer, ComputeRequest, Engine } from "./protocol.ts";
import { sessionWith } from "./session.ts";
import { toSend } from "./transfer.ts";

const font = (name: string) => new Uint8Array(readFileSync(`node_modules/dejavu-fonts-ttf/ttf/${name}.ttf`));
const fonts = async () => ({ regular: font("DejaVuSans"), bold: font("DejaVuSans-Bold") });
const session = () => sessionWith(fonts);

function did(document: JobDocument, command: Command): JobDocument {
  const edit = command.edit(document);
  if (!edit.ok) throw new Error(edit.lines.join("\n"));
  return edit.document;
}

/** Every digit of a result as one text; comparing lists number by number takes minutes. */
const printed = (value: unknown): string =>
  JSON.stringify(value, (_, v) =>
    ArrayBuffer.isView(v) ? Buffer.from(v.buffer, v.byteOffset, v.byteLength).toString("base64") : v,
  );

const along = (s: number) => setValue(["bars", "stay-l", "path", 0, "along"], s);

describe("the results of a job", () => {
  it("are those of the plan, bar by bar, in the job's order", () => {
    const computer = computerOn(session());
    computer.compute(demo());
    const results = computer.results();
    const read = readJob(demo());
    const plan = planJob(read.ok ? read.job : expect.fail());
    expect([...results.bars.keys()]).toEqual(plan.bars.map((b) => b.id));
    for (const bar of plan.bars) {
      const result = results.bars.get(bar.id)!;
      expect(result.bar).toEqual(bar.bar);
      expect(result.copes.A).toEqual(bar.copes.A.cope);
      expect(result.bend).toEqual(bar.bend);
      expect(result.mesh.positions.length).toBeGreaterThan(0);
    }
    expect(results.problems).toEqual([]);
  });

  it("come anew only for what an edit touched and what hangs on it", () => {
    const computer = computerOn(session());
    computer.compute(frame());
    const before = computer.results();
    computer.compute(did(frame(), along(800)));
    const after = computer.results();
    expect(after.moved).toEqual(["stay-l", "stay-r"]);
    for (const id of ["hoop", "cross"]) expect(after.bars.get(id)).toBe(before.bars.get(id));
    expect(after.bars.get("stay-l")!.mesh).not.toBe(before.bars.get("stay-l")!.mesh);
    computer.compute(did(frame(), deleteBar("cross")));
    expect(computer.results().moved).toEqual(["stay-l", "stay-r", "cross"]);
    expect([...computer.results().bars.keys()]).toEqual(["hoop", "stay-l", "stay-r"]);
  });

  it("after any run of edits are those of a computation from scratch (seed 20253)", () => {
    const random = seeded(20253);
    const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
    const computer = computerOn(session());
    let document = frame();
    let passed = 0;
    for (let i = 0; i < 40; i++) {
      const command = pick<() => Command>([
        () => along(600 + Math.round(random() * 2000)),
        () => setValue(["bars", "hoop", "path", 1, 2], 850 + Math.round(random() * 100)),
        () => setValue(["bars", "cross", "path", 0, "z"], 300 + Math.round(random() * 700)),
        () => setValue(["tubes", "light", "wall"], pick([2, 2.5, "3 mm"])),
        () => setValue(["bender", "turnSide"], pick(["left", "right"])),
        () => setProgress(pick(["hoop", "stay-r"]), pick(["sawn", "bent"])),
        () => changeBar("cross", { tube: pick(["main", "light"]) }),
        () => duplicateBar("cross", `copy-${i}`),
      ])();
      document = did(document, command);
      computer.compute(document);
      const scratch = computerOn(session());
      scratch.compute(document);
      const [now, fresh] = [computer.results(), scratch.results()];
      expect([...now.bars.keys()]).toEqual([...fresh.bars.keys()]);
      expect(printed([...now.bars.values()])).toBe(printed([...fresh.bars.values()]));
      expect([now.without, now.mutual, now.problems]).toEqual([fresh.without, fresh.mutual, fresh.problems]);
      passed += now.bars.size;
    }
    expect(passed).toBeGreaterThan(150);
  });

  it("say where points stand, and keep them while none of them moves", () => {
    const computer = computerOn(session());
    const points = did(frame(), setValue(["points"], { seat: { at: [1, 2, 3], sd: 2 }, roof: {} }));
    computer.compute(points);
    const before = computer.results().points;
    expect(Object.keys(before)).toEqual(["seat"]);
    expect(before.seat).toMatchObject({ at: [1, 2, 3], covariance: [[4, 0, 0], {}, {}] });
    computer.compute(did(points, along(800)));
    expect(computer.results().points).toBe(before);
    computer.compute(did(points, setValue(["points", "roof"], [0, 0, 900])));
    expect(computer.results().points.roof).toEqual({ at: [0, 0, 900] });
  });

  it("stay when the document does not pass, with the problems beside them", () => {
    const computer = computerOn(session());
    computer.compute(frame());
    const before = computer.results();
    computer.compute(did(frame(), changeBar("cross", { tube: "none" })));
    const after = computer.results();
    expect(after.problems.map(problemLine)).toEqual(['bars.cross.tube: no tube is called "none"']);
    expect(after.bars).toBe(before.bars);
    computer.compute(did(frame(), along(800)));
    expect(computer.results()).toMatchObject({ problems: [], moved: ["stay-l", "stay-r"] });
  });

  it("name the bars that have no geometry, and why", () => {
    const computer = computerOn(session());
    computer.compute(did(frame(), along(99999)));
    const { without, bars } = computer.results();
    expect(without.map((b) => [b.id, b.label, b.findings[0]?.code])).toEqual([
      ["stay-l", "Rear stay", "landing-off-host"],
      ["stay-r", "Rear stay", "host-without-geometry"],
    ]);
    expect([...bars.keys()]).toEqual(["hoop", "cross"]);
  });
});

describe("notches and cards", () => {
  it("come when asked for", async () => {
    const computer = computerOn(session());
    expect(await computer.notch({ bar: "cross", end: "A" })).toBeUndefined();
    expect(await computer.pdf({ card: "overview", paper: "A4" })).toBeUndefined();
    computer.compute(demo());
    const read = readJob(demo());
    const plan = planJob(read.ok ? read.job : expect.fail());
    expect(await computer.notch({ bar: "harness-bar", end: "A" })).toEqual(notchAt(plan, "harness-bar", "A"));
    const believed = await computer.notch({ bar: "harness-bar", end: "A", believed: 5 });
    expect(believed?.steps).toEqual(notchAt(plan, "harness-bar", "A", 5)?.steps);
    for (const card of ["bender", "notcher", "wrap", "overview"] as const) {
      const request = { card, paper: "A4", bar: "main-hoop", end: "A" } as const;
      const sheets = (await computer.card(request))?.sheets.length ?? 0;
      const pdf = new TextDecoder("latin1").decode(await computer.pdf(request));
      expect(pdf.startsWith("%PDF-")).toBe(true);
      expect(pdf.match(/\/Type \/Page\b/g)).toHaveLength(sheets);
    }
    expect(await computer.card({ card: "bender", paper: "A4", bar: "nobody" })).toBeUndefined();
  });
});

describe("the way out of the worker", () => {
  it("takes copies of the curves and moves the rest; the plan keeps its own", () => {
    const inner = session();
    const sent = (request: ComputeRequest): ComputeAnswer => {
      const { answer, buffers } = toSend(inner.compute(request) as ComputeAnswer);
      expect(new Set(buffers).size).toBe(buffers.length);
      return structuredClone(answer, { transfer: buffers });
    };
    const through = computerOn({ ...inner, compute: sent });
    const plain = computerOn(session());
    for (const document of [frame(), did(frame(), along(800)), did(frame(), deleteBar("cross"))]) {
      through.compute(document);
      plain.compute(document);
      // tables of the plan have no prototype, and what was cloned has one
      expect(JSON.stringify([...through.results().bars])).toBe(JSON.stringify([...plain.results().bars]));
      expect(through.results().bars.get("hoop")!.copes.A.outer).toHaveLength(360);
      expect(through.results().bars.get("hoop")!.mesh.positions).toEqual(
        plain.results().bars.get("hoop")!.mesh.positions,
      );
    }
    expect(inner.notch({ bar: "stay-l", end: "A" })).toBeDefined();
  });
});

describe("the queue", () => {
  /** Answers when told to. */
  function slow() {
    const inner = session();
    const asked: { job: Job; answer: () => void; fail: (e: Error) => void }[] = [];
    const engine: Engine = {
      ...inner,
      compute: (request) =>
        new Promise((resolve, reject) => {
          asked.push({
            job: request.job,
            answer: () => resolve(inner.compute(request)),
            fail: reject,
          });
        }),
    };
    return { engine, asked };
  }
  const stay = (d: JobDocument | undefined) => d && at(d, ["bars", "stay-l", "path", 0, "along"]);

  it("computes one at a time, and of what comes meanwhile only the last", async () => {
    const { engine, asked } = slow();
    const computer = computerOn(engine);
    const heard = vi.fn();
    computer.subscribe(heard);
    for (const s of [700, 701, 702, 703]) computer.compute(did(frame(), along(s)));
    expect(asked).toHaveLength(1);
    expect(computer.results()).toMatchObject({ computing: true });
    asked[0]!.answer();
    await vi.waitFor(() => expect(asked).toHaveLength(2));
    expect(stay(computer.results().document)).toBe(700);
    expect(computer.results().computing).toBe(true);
    const settled = computer.settled();
    asked[1]!.answer();
    expect(stay((await settled).document)).toBe(703);
    expect(computer.results().computing).toBe(false);
    const [first, second] = asked.map((a) => a.job.bars["stay-l"]);
    expect(first).toMatchObject({ path: [{ where: { along: 700 } }, {}] });
    expect(second).toMatchObject({ path: [{ where: { along: 703 } }, {}] });
    expect(heard).toHaveBeenCalled();
  });

  it("says that a computation stopped, and goes on with the next", async () => {
    const { engine, asked } = slow();
    const computer = computerOn(engine);
    computer.compute(frame());
    asked[0]!.fail(new Error("broken"));
    const { problems } = await computer.settled();
    expect(problemLine(problems[0]!)).toMatch(/^job: .* the computation stopped \(broken\)$/);
    computer.compute(frame());
    asked[1]!.answer();
    expect((await computer.settled()).problems).toEqual([]);
  });

  it("gives the last document to an engine that takes over", async () => {
    const { engine, asked } = slow();
    const computer = computerOn(engine);
    computer.compute(frame());
    computer.compute(did(frame(), along(800)));
    computer.replace(session());
    expect(stay(computer.results().document)).toBe(800);
    expect(computer.results().bars.size).toBe(4);
    asked[0]!.answer();
    await Promise.resolve();
    expect(stay(computer.results().document)).toBe(800);
  });
});
