import { describe, expect, it } from "vitest";
import { isSentence, type Literal, literalsIn, literalsOf, sourcesUnder } from "./literals.ts";

/** Sentences that a person could read, as `file:line: text`. */
const said = (literals: readonly Literal[]): readonly string[] =>
  literals.filter((l) => !l.unread && isSentence(l.text)).map((l) => `${l.file}:${l.line}: ${l.text}`);

const saidIn = (file: string): readonly string[] => said(literalsIn(file));

/** Files of the edges that still make sentences themselves: room and name. Lines are taken out, none are put in. */
const STILL: readonly string[] = [
  "cards measuring-plan.ts",
  "cards order-sheet.ts",
  "draw check.ts",
  "draw tile.ts",
  "cli list.ts",
  "app answers.tsx",
  "app between-picture.tsx",
  "app between.tsx",
  "app keep-it.tsx",
  "app keep.ts",
  "app measured.tsx",
  "app readings.ts",
  "app budget.tsx",
  "app car.tsx",
  "app changed.tsx",
  "app changes.ts",
  "app draft.ts",
  "app pick-end.tsx",
  "app points.tsx",
  "app reading-list.tsx",
  "app reading-pad.tsx",
  "app stale-card.tsx",
  "app tacked.tsx",
  "app words.ts",
  "app errors.ts",
  "app fit.ts",
  "app long-task.ts",
  "app long.ts",
  "app bars.ts",
  "app move.ts",
  "app things.ts",
  "app value.ts",
  "app names.ts",
  "app board.tsx",
  "app commands.ts",
  "app found-order.tsx",
  "app in-hand.tsx",
  "app line.tsx",
  "app looking.ts",
  "app way-in.tsx",
  "app jobs.tsx",
  "app notices.tsx",
  "app rail.tsx",
  "app shell.tsx",
  "app top.tsx",
  "app start.ts",
  "app state.ts",
  "app bar-panel.tsx",
  "app bender-steps.ts",
  "app bender.tsx",
  "app clock-picture.tsx",
  "app felt.ts",
  "app following.ts",
  "app gap-picture.tsx",
  "app gap-ring.tsx",
  "app gaps-felt.tsx",
  "app hand-out.tsx",
  "app marks-picture.tsx",
  "app move-bar.tsx",
  "app moved-list.tsx",
  "app new-bar.tsx",
  "app node-sentences.ts",
  "app node-tools.tsx",
  "app nodes.ts",
  "app notcher-steps.ts",
  "app notcher.tsx",
  "app options.ts",
  "app questions.tsx",
  "app sentences.ts",
  "app stage.tsx",
  "app take-one.tsx",
  "app thing-fields.ts",
  "app things.tsx",
  "app typed.ts",
  "app wall.tsx",
  "app damage.ts",
  "app limit.ts",
  "app memory.ts",
  "app records.ts",
  "app bent-kinds.ts",
  "app lands.ts",
  "app really.tsx",
  "app trestles.tsx",
  "app boundary.tsx",
  "app dialog.tsx",
  "app keep-focus.ts",
  "app keypad.tsx",
  "app view.tsx",
  "app stand.ts",
];

describe("a sentence is told from other texts", () => {
  const of = (code: string) => said(literalsOf("planted.tsx", code)).map((s) => s.replace(/^.*?: /, ""));
  it.each([
    ['const a = "move the bar away";', "move the bar away"],
    [`const a = \`end \${end} misses \${host} all round\`;`, "end {} misses {} all round"],
    ['const a = "Keep hands " + "clear of it.";', "Keep hands clear of it."],
    ['const a = { says: "put it down: it is hot" };', "put it down: it is hot"],
    ["const a = <p>Take a bar in hand</p>;", "Take a bar in hand"],
    ['throw new WrongCall("name a job file");', "name a job file"],
  ])("%s", (code, sentence) => expect(of(code)).toEqual([sentence]));
  it.each([
    ['import { a } from "a long module name";'],
    ['throw new Error("a vector has no direction");'],
    ['const a = z.string().describe("What the bar is called");'],
    ['const a = <p className="row tools big" />;'],
    [`const a = \`M \${x} \${y} L \${u} \${v}\`;`],
    ["// a comment is for those who read the code"],
    ['const a = "body on";'],
  ])("none in %s", (code) => expect(of(code)).toEqual([]));
});

/** Programs in another language, and headers: nobody reads them. */
const NO_SENTENCE = /\/(shaders|policy)\.ts$/;

const making = (folders: readonly string[]): readonly string[] => {
  const files = folders.flatMap(sourcesUnder).filter((file) => !NO_SENTENCE.test(file));
  expect(files.length).toBeGreaterThan(150);
  return files.filter((file) => saidIn(file).length > 0);
};

it("core has no sentence: it returns codes and numbers, and words says them", () => {
  expect(making(["src/core"]).flatMap(saidIn)).toEqual([]);
});

it("cards, commands, pages and the server take their sentences from words", () => {
  const made = making(["src/cards", "src/draw", "src/cli", "src/app", "src/server"]);
  const others = made.filter((file) => !STILL.includes(named(file)));
  expect(others.flatMap(saidIn)).toEqual([]);
  // what makes none is not allowed to any longer: take its line out
  expect(STILL.filter((name) => !made.some((file) => named(file) === name))).toEqual([]);
});

/** A file by its room and its own name, wherever in the room it is. */
function named(file: string): string {
  const steps = file.split("/");
  return `${steps[1]} ${steps.at(-1)}`;
}
