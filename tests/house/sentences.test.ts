import { describe, expect, it } from "vitest";
import { isSentence, type Literal, literalsIn, literalsOf, sourcesUnder } from "./literals.ts";

/** Sentences that a person could read, as `file:line: text`. */
const said = (literals: readonly Literal[]): readonly string[] =>
  literals.filter((l) => !l.unread && isSentence(l.text)).map((l) => `${l.file}:${l.line}: ${l.text}`);

const saidIn = (file: string): readonly string[] => said(literalsIn(file));

describe("a sentence is told from other texts", () => {
  const of = (code: string) => said(literalsOf("planted.tsx", code)).map((s) => s.replace(/^.*?: /, ""));
  it.each([
    ['const a = "move the bar away";', "move the bar away"],
    [`const a = \`end \${end} misses \${host} all round\`;`, "end {} misses {} all round"],
    ['const a = "Keep hands " + "clear of it.";', "Keep hands clear of it."],
    ['const a = { says: "put it down: it is hot" };', "put it down: it is hot"],
    ["const a = <p>Take a bar in hand</p>;", "Take a bar in hand"],
    ['throw new WrongCall("name a job file");', "name a job file"],
    ['tell("the format is unknown")', "the format is unknown"],
  ])("%s", (code, sentence) => expect(of(code)).toEqual([sentence]));
  it.each([
    ['import { a } from "a long module name";'],
    ['throw new Error("a vector has no direction");'],
    ['const a = z.string().describe("What the bar is called");'],
    ['const a = <p className="row tools big" />;'],
    ['class NoAnswer extends Error { constructor() { super("no answer in time"); } }'],
    ['const FORMAT = "tubewright raw record";'],
    ['if (e.matches("dialog, section, nav")) return;'],
    [`const a = \`M \${x} \${y} L \${u} \${v}\`;`],
    ['const a = "SELECT seq FROM log WHERE job";'],
    ["// a comment is for those who read the code"],
    ['const a = "body on";'],
  ])("none in %s", (code) => expect(of(code)).toEqual([]));
});

/** Programs in another language, and headers: nobody reads them. */
const NO_SENTENCE = /\/(shaders|policy|postgres-sql)\.ts$/;

const making = (folders: readonly string[]): readonly string[] => {
  const files = folders.flatMap(sourcesUnder).filter((file) => !NO_SENTENCE.test(file));
  expect(files.length).toBeGreaterThan(150);
  return files.filter((file) => saidIn(file).length > 0);
};

it("core has no sentence: it returns codes and numbers, and words says them", () => {
  expect(making(["src/core"]).flatMap(saidIn)).toEqual([]);
});

it("cards, commands, pages and the server take their sentences from words", () => {
  expect(making(["src/cards", "src/draw", "src/cli", "src/app", "src/server"]).flatMap(saidIn)).toEqual([]);
});
