import { expect, it, onTestFinished } from "vitest";
import * as Y from "yjs";
import { editorOf, fromJson, nameJob, setValue, toJson } from "../document/index.ts";
import { frame } from "../document/testing.ts";
import { joinTabs } from "./tabs.ts";

const copyOf = (doc: Y.Doc): Y.Doc => {
  const copy = new Y.Doc();
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(doc));
  return copy;
};

const join = (doc: Y.Doc, job: string): (() => void) => {
  const leave = joinTabs(doc, job);
  onTestFinished(leave);
  return leave;
};

/** Waits until it holds, or a second has passed. */
async function soon(holds: () => boolean): Promise<void> {
  for (let i = 0; i < 100 && !holds(); i++) await new Promise((go) => setTimeout(go, 10));
  expect(holds()).toBe(true);
}

const same = (a: Y.Doc, b: Y.Doc) => () => JSON.stringify(toJson(a)) === JSON.stringify(toJson(b));
const along = (s: number) => setValue(["bars", "stay-l", "path", 0, "along"], s);

it("two tabs stay in step, both ways", async () => {
  const a = fromJson(frame());
  const b = copyOf(a);
  join(a, "one");
  join(b, "one");
  const [left, right] = [editorOf(a), editorOf(b)];
  left.run(along(700));
  right.run(nameJob("from b"));
  await soon(() => left.state().document.name === "from b" && same(a, b)());
  expect(left.state().document).toEqual(right.state().document);
  expect(left.state().document.name).toBe("from b");
});

it("a tab that joins late gives and gets what was missed", async () => {
  const a = fromJson(frame());
  const [b, c] = [copyOf(a), copyOf(a)];
  editorOf(a).run(along(700));
  editorOf(b).run(nameJob("b"));
  join(a, "two");
  join(b, "two");
  await soon(same(a, b));
  join(c, "two");
  await soon(() => same(a, c)() && toJson(c).name === "b");
  expect(JSON.stringify(toJson(a))).toContain('"along":700');
});

it("jobs do not mix, and a tab that left hears no more", async () => {
  const a = fromJson(frame());
  const [b, other] = [copyOf(a), copyOf(a)];
  join(a, "three");
  const leave = join(b, "three");
  join(other, "four");
  editorOf(a).run(nameJob("first"));
  await soon(() => toJson(b).name === "first");
  leave();
  editorOf(a).run(nameJob("second"));
  await new Promise((go) => setTimeout(go, 100));
  expect(toJson(b).name).toBe("first");
  expect(toJson(other).name).toBe(frame().name);
});

it("a step that came from another tab is not undone here", async () => {
  const a = fromJson(frame());
  const b = copyOf(a);
  join(a, "five");
  join(b, "five");
  const [left, right] = [editorOf(a), editorOf(b)];
  right.run(nameJob("from b"));
  await soon(() => left.state().document.name === "from b");
  expect(left.state().undo).toBeUndefined();
  expect(left.undo()).toEqual({ ok: true, changed: false });
});
