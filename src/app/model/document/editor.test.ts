import { describe, expect, it, vi } from "vitest";
import * as Y from "yjs";
import { readJob } from "../../../core/job/index.ts";
import { at, fromJson, jobText, toJson } from "../../../shared/index.ts";
import { nameOf } from "./command.ts";
import { changeBar, deleteBar, nameJob, setValue } from "./commands/index.ts";
import { editorOf } from "./editor.ts";
import { demo, frame } from "./testing.ts";

const along = (s: number | string, name?: string) =>
  setValue(["bars", "stay-l", "path", 0, "along"], s, name ?? `move the stay to ${s}`);

/** Two editors of one job, and a way to bring both up to date. */
function pair() {
  const a = editorOf(fromJson(frame()));
  const other = new Y.Doc();
  Y.applyUpdate(other, Y.encodeStateAsUpdate(a.doc));
  const b = editorOf(other);
  const meet = () => {
    Y.applyUpdate(b.doc, Y.encodeStateAsUpdate(a.doc), "tab");
    Y.applyUpdate(a.doc, Y.encodeStateAsUpdate(b.doc), "tab");
  };
  return { a, b, meet };
}

describe("a command", () => {
  it("changes the document, as typed, and tells who listens", () => {
    const editor = editorOf(fromJson(frame()));
    const heard = vi.fn();
    editor.subscribe(heard);
    expect(editor.run(along("31 1/2 in"))).toEqual({ ok: true, changed: true });
    expect(at(editor.state().document, ["bars", "stay-l", "path", 0, "along"])).toBe("31 1/2 in");
    expect(toJson(editor.doc)).toEqual(editor.state().document);
    const { read } = editor.state();
    expect(read.ok && read.job.bars["stay-l"]).toMatchObject({ path: [{ where: { along: 800.1 } }, {}] });
    expect(heard).toHaveBeenCalledTimes(1);
  });

  it("that would not pass is refused with its lines, and nothing changes", () => {
    const editor = editorOf(fromJson(frame()));
    const [before, bytes] = [editor.state(), Y.encodeStateAsUpdate(editor.doc)];
    expect(editor.run(changeBar("cross", { tube: "mian" }))).toEqual({
      ok: false,
      lines: ['Shoulder bar: no tube is called "mian" — did you mean "main"?'],
    });
    expect(editor.run(along("twelve"))).toMatchObject({ ok: false });
    expect(editor.state()).toBe(before);
    expect(Y.encodeStateAsUpdate(editor.doc)).toEqual(bytes);
  });

  it("that changes nothing is no step", () => {
    const editor = editorOf(fromJson(frame()));
    expect(editor.run(along(790))).toEqual({ ok: true, changed: false });
    expect(editor.state().undo).toBeUndefined();
  });

  it("leaves every other part the same object", () => {
    const editor = editorOf(fromJson(demo()));
    const before = editor.state().document;
    editor.run(changeBar("harness-bar", { label: "H" }));
    const after = editor.state().document;
    expect(after.tubes).toBe(before.tubes);
    expect(at(after, ["bars", "main-hoop"])).toBe(at(before, ["bars", "main-hoop"]));
    expect(at(after, ["bars", "harness-bar", "path"])).toBe(at(before, ["bars", "harness-bar", "path"]));
  });
});

describe("undo and redo", () => {
  it("go through all steps by name, to the letter", () => {
    const editor = editorOf(fromJson(frame()));
    const texts = [jobText(editor.state().document)];
    const commands = [
      along(800),
      changeBar("hoop", { label: "H" }),
      deleteBar("cross"),
      nameJob("New"),
      along("800 mm"),
    ];
    const names: string[] = [];
    for (const command of commands) {
      names.push(nameOf(command, editor.state().document));
      expect(editor.run(command)).toEqual({ ok: true, changed: true });
      expect(editor.state().undo).toBe(names.at(-1));
      texts.push(jobText(editor.state().document));
    }
    for (let i = commands.length - 1; i >= 0; i--) {
      expect(editor.state().undo).toBe(names[i]);
      expect(editor.undo()).toEqual({ ok: true, changed: true });
      expect(jobText(editor.state().document)).toBe(texts[i]);
      expect(editor.state().redo).toBe(names[i]);
    }
    expect(names[1]).toBe("change Main hoop");
    expect(editor.undo()).toEqual({ ok: true, changed: false });
    for (let i = 0; i < commands.length; i++) {
      editor.redo();
      expect(jobText(editor.state().document)).toBe(texts[i + 1]);
      expect(editor.state().undo).toBe(names[i]);
    }
    expect(editor.state().redo).toBeUndefined();
    expect(toJson(editor.doc)).toEqual(editor.state().document);
  });

  it("take a drag as one step, named by its end, and the next drag as another", () => {
    const editor = editorOf(fromJson(frame()));
    for (const s of [791, 795, 800]) editor.run(along(s), "drag 1");
    for (const s of [801, 805]) editor.run(along(s), "drag 2");
    editor.run(along(806));
    const undone = [];
    while (editor.state().undo !== undefined) {
      undone.push(editor.state().undo);
      editor.undo();
    }
    expect(undone).toEqual(["move the stay to 806", "move the stay to 805", "move the stay to 800"]);
    expect(editor.state().document).toEqual(frame());
  });

  it("forget the way forward at a new step", () => {
    const editor = editorOf(fromJson(frame()));
    editor.run(along(800));
    editor.undo();
    editor.run(nameJob("x"));
    expect(editor.state().redo).toBeUndefined();
  });

  it("leave what another tab did", () => {
    const { a, b, meet } = pair();
    a.run(along(800));
    b.run(changeBar("hoop", { label: "theirs" }));
    meet();
    expect(a.state().undo).toBe("move the stay to 800");
    a.undo();
    expect(at(a.state().document, ["bars", "stay-l", "path", 0, "along"])).toBe(790);
    expect(at(a.state().document, ["bars", "hoop", "label"])).toBe("theirs");
  });

  it("are refused where they would break what others built on it", () => {
    const { a, b, meet } = pair();
    a.run({
      name: "add brace",
      edit: (d) => ({
        ok: true,
        document: {
          ...d,
          bars: {
            ...(d.bars as object),
            brace: { tube: "light", path: [{ on: "hoop", along: 700 }, [500, 0, 0]] },
          },
        },
      }),
    });
    meet();
    b.run(setValue(["bars", "link"], { tube: "light", path: [{ on: "brace", along: 100 }, [0, 0, 0]] }));
    meet();
    const before = jobText(a.state().document);
    expect(a.undo()).toEqual({ ok: false, lines: ['link: no bar is called "brace"'] });
    expect(jobText(a.state().document)).toBe(before);
    expect(jobText(toJson(a.doc))).toBe(before);
    expect(a.state().undo).toBe("add brace");
  });
});

describe("two tabs' edits that do not go together", () => {
  it("show what is wrong, and can be mended", () => {
    const { a, b, meet } = pair();
    expect(a.run(deleteBar("cross")).ok).toBe(true);
    b.run(setValue(["bars", "link"], { tube: "light", path: [{ on: "cross", along: 100 }, [0, 0, 0]] }));
    b.run(setValue(["bars", "link2"], { tube: "light", path: [{ on: "cross", along: 200 }, [0, 0, 0]] }));
    meet();
    for (const { read } of [a.state(), b.state()]) expect(!read.ok && read.problems).toHaveLength(2);
    expect(readJob(jobText(a.state().document)).ok).toBe(false);
    expect(a.run(changeBar("hoop", { tube: "none" })).ok).toBe(false);
    expect(a.run(deleteBar("link")).ok).toBe(true);
    expect(a.run(deleteBar("link2")).ok).toBe(true);
    expect(a.state().read.ok).toBe(true);
  });
});

describe("a newer version's job", () => {
  it("that comes into this one from another window is not changed here, not even by undo", () => {
    const { a, b, meet } = pair();
    a.run(along(830));
    meet();
    b.doc.getMap("job").set("version", 3);
    meet();
    expect(a.state().document.version).toBe(3);
    for (const refused of [a.run(along(840)), a.undo(), a.redo()])
      expect(refused).toMatchObject({ ok: false });
    expect(at(a.state().document, ["bars", "stay-l", "path", 0, "along"])).toBe(830);
  });
});
