import { describe, expect, it, onTestFinished, vi } from "vitest";
import { computerOn } from "../model/compute/index.ts";
import { doLong, type LongWord } from "../model/compute/long-task.ts";
import { sessionWith } from "../model/compute/session.ts";
import { at, changeBar, type JobDocument, setValue } from "../model/document/index.ts";
import { appWith } from "../model/state/state.ts";
import { joinTabs, memoryDisk, storeOn } from "../model/storage/index.ts";
import { moveBefore, movedBefore, moveOne, setNeeds, takeFound } from "./commands.ts";
import { type Runner, watch } from "./looking.ts";
import type { Tag } from "./row.ts";
import { trap } from "./testing.ts";

/** The worker's own code, its words handed over one by one as messages are; each run's questions are written down. */
function worker() {
  const asked: (readonly string[] | "find")[] = [];
  const run: Runner = (document, onProgress, task) => {
    asked.push(task.what === "look" ? task.ask : "find");
    const words: LongWord[] = [];
    // What crosses to a worker is copied.
    doLong(structuredClone({ kind: "fit", document, asked: task }), (w) => words.push(structuredClone(w)));
    let isOver = false;
    const done = (async () => {
      for (const word of words) {
        await new Promise((next) => setTimeout(next));
        if (isOver) return undefined;
        if (word.is === "progress") onProgress(word);
        else if (word.is === "stopped") throw new Error(word.why);
        else return word.answer as never;
      }
      return undefined;
    })();
    return {
      done,
      stop: () => {
        isOver = true;
      },
    };
  };
  return { run, asked };
}

async function opened(document: JobDocument = trap()) {
  const app = appWith({
    store: storeOn(memoryDisk(), { now: () => 1 }),
    computer: computerOn(sessionWith(() => Promise.reject(new Error("no fonts")))),
    join: joinTabs,
  });
  onTestFinished(() => app.do.close());
  await app.do.newJob(document);
  const { run, asked } = worker();
  const looking = watch(app, run, 0);
  const tag = (id: string): Tag => looking.get().row.find((t) => t.id === id)!;
  const states = () => Object.fromEntries(looking.get().row.map((t) => [t.id, t.state]));
  const quiet = () =>
    vi.waitFor(() => {
      const { row, run: now, isOn } = looking.get();
      expect(now).toBeUndefined();
      if (isOn)
        expect(row.every((t) => t.state !== "unseen" && (t.state !== "no" || t.cure !== undefined))).toBe(
          true,
        );
    }, 20000);
  return {
    app,
    looking,
    tag,
    states,
    quiet,
    asked,
    order: () => at(app.state.getState().job!.document, ["order"]),
  };
}

const called = (id: string): string => id.toUpperCase();

describe("moving a tag", () => {
  const order = ["a", "b", "c"];
  it("hangs it before another, or last", () => {
    expect(movedBefore(order, "c", "a")).toEqual(["c", "a", "b"]);
    expect(movedBefore(order, "a", null)).toEqual(["b", "c", "a"]);
    expect(movedBefore(order, "b", "b")).toEqual(order);
    expect(movedBefore(order, "b", "gone")).toEqual(order);
  });

  it("is a command by name that writes the whole order, whatever the job said", () => {
    const job = trap();
    const names = ["left", "right", "low", "high"];
    const edit = (command: ReturnType<typeof moveOne>) => {
      const done = command.edit(job);
      return done.ok ? at(done.document, ["order"]) : done.lines;
    };
    expect(moveOne(names, "low", -1, called).name).toBe("move LOW one place earlier");
    expect(edit(moveOne(names, "low", -1, called))).toEqual(["left", "low", "right", "high"]);
    expect(edit(moveOne(names, "low", 1, called))).toEqual(["left", "right", "high", "low"]);
    expect(edit(moveOne(names, "left", -1, called))).toEqual(names);
    expect(edit(moveOne(names, "high", 1, called))).toEqual(names);
    expect(moveBefore(names, "high", "low", called).name).toBe("move HIGH before LOW");
    expect(edit(takeFound(["high", "low"]))).toEqual(["high", "low"]);
    expect(setNeeds("high", "roof off", "Upper bar").name).toBe("Upper bar: only with the roof off");
  });
});

describe("the row", () => {
  it("of a job without an order hangs every bar behind what it lands on", async () => {
    const { order: _, ...plain } = trap();
    const { low, high, left, right } = plain.bars as unknown as Record<string, never>;
    const { looking, states } = await opened({
      ...plain,
      bars: { low, high, left, right },
    } as unknown as JobDocument);
    expect(looking.get().row.map((t) => [t.n, t.id])).toEqual([
      [1, "left"],
      [2, "right"],
      [3, "low"],
      [4, "high"],
    ]);
    expect(new Set(Object.values(states()))).toEqual(new Set(["unseen"]));
    expect(looking.get().row.map((t) => t.twin)).toEqual(["right", "left", undefined, undefined]);
  });

  it("says what shuts a bar out and the smallest cure; hung by it all go in; undo brings the answer back unasked", async () => {
    const { app, looking, tag, states, quiet, asked, order } = await opened();
    looking.lookAtAll();
    await quiet();
    expect(states()).toEqual({ left: "free", right: "free", low: "free", high: "no" });
    expect(tag("high")).toMatchObject({ cure: { before: "low" }, judged: { blockedBy: ["low"] } });
    app.do.run(
      moveBefore(
        looking.get().row.map((t) => t.id),
        "high",
        "low",
        called,
      ),
    );
    expect(order()).toEqual(["left", "right", "high", "low"]);
    expect(tag("high").state).toBe("unseen");
    expect(tag("high").judged).toMatchObject({ goesIn: "no" });
    await quiet();
    expect(states()).toEqual({ left: "free", right: "free", high: "free", low: "free" });
    // Only the two that changed places among each other were looked at again.
    expect(asked).toEqual([
      ["left", "right", "low", "high"],
      ["high", "low"],
    ]);
    app.do.undo();
    expect(states()).toMatchObject({ low: "free", high: "no" });
    expect(tag("high").cure).toEqual({ before: "low" });
    expect(asked).toHaveLength(2);
  });

  it("an edit strikes what hangs on it and nothing else; a name or a state in the shop strikes nothing", async () => {
    const { app, looking, tag, states, quiet, asked } = await opened();
    looking.lookAtAll();
    await quiet();
    app.do.run(changeBar("low", { label: "Renamed", progress: "bent" }));
    expect(states()).toMatchObject({ low: "free", high: "no" });
    // bent, it is asked about before its place changes
    for (const node of [0, 1]) {
      app.do.run(setValue(["bars", "low", "path", node, "z"], 400));
      await vi.waitFor(() => expect(app.state.getState().asked).toBeDefined(), 20000);
      app.do.answerChange("stay");
      await vi.waitFor(() => expect(app.state.getState().asked).toBeUndefined(), 20000);
    }
    expect(tag("low").judged).toMatchObject({ goesIn: "free" });
    expect(states()).toMatchObject({ left: "free", right: "free" });
    await quiet();
    expect(asked.at(-1)).toEqual(["low", "high"]);
    expect(states()).toMatchObject({ low: "free", high: "free" });
  });

  it("a bar before what it lands on is cured by hanging it behind that", async () => {
    const { looking, tag, quiet } = await opened({ ...trap(), order: ["high", "left", "right", "low"] });
    looking.lookAtAll();
    await quiet();
    expect(tag("high")).toMatchObject({ state: "no", missing: ["left", "right"], cure: { before: "low" } });
  });

  it("one bar alone can be looked at in the order as it is", async () => {
    const { looking, states, quiet, asked } = await opened();
    looking.lookAt("high");
    await quiet();
    expect(states()).toEqual({ left: "unseen", right: "unseen", low: "unseen", high: "no" });
    expect(asked).toEqual([["high"]]);
  });

  it("stopped, it keeps what it has and goes on from there", async () => {
    const { looking, states, quiet, asked } = await opened();
    const once = looking.subscribe(() => {
      // as soon as the first answer is there, whatever the worker has said besides
      if (states().left === "free" && looking.get().isOn) looking.stop();
    });
    looking.lookAtAll();
    await vi.waitFor(() => expect(looking.get().isOn).toBe(false), 20000);
    once();
    expect(looking.get().run).toBeUndefined();
    await new Promise((done) => setTimeout(done, 30));
    expect(states()).toEqual({ left: "free", right: "unseen", low: "unseen", high: "unseen" });
    looking.lookAtAll();
    await quiet();
    expect(states()).toMatchObject({ low: "free", high: "no" });
    expect(asked.at(-1)).toEqual(["right", "low", "high"]);
  });

  it("an order is found, proposed, and judged by the time it is hung", async () => {
    const { app, looking, states, quiet, asked } = await opened();
    looking.find();
    await quiet();
    const found = looking.get().found!;
    expect(found.order.indexOf("high")).toBeLessThan(found.order.indexOf("low"));
    expect(at(app.state.getState().job!.document, ["order"])).toEqual(trap().order);
    // What was found of another order is not shown as an answer of this one, not even struck.
    expect(
      looking
        .get()
        .row.filter((t) => t.state === "unseen")
        .every((t) => t.judged === undefined),
    ).toBe(true);
    app.do.run(takeFound(found.order));
    expect(looking.get().found).toBeUndefined();
    expect(new Set(Object.values(states()))).toEqual(new Set(["free"]));
    expect(asked).toEqual(["find"]);
  });

  it("another job begins with nothing looked at", async () => {
    const { app, looking, states, quiet } = await opened();
    looking.lookAtAll();
    await quiet();
    await app.do.newJob(trap());
    expect(new Set(Object.values(states()))).toEqual(new Set(["unseen"]));
    expect(looking.get().isOn).toBe(false);
  });
});
