/**
 * The cautions as a person gets them: read back from PDF (pdftotext), SVG, DXF (dxf-parser) and the command line, word
 * for word from the one table; and that src holds no others. Dangers likewise.
 */
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import DxfParser from "dxf-parser";
import { describe, expect, test } from "vitest";
import {
  benderCard,
  cardFiles,
  dieCard,
  markStrip,
  measuringPlan,
  notcherCard,
  orderSheet,
  overview,
  readingList,
  wrapCard,
} from "../../src/cards/index.ts";
import { byGravity, type Finding } from "../../src/core/findings/index.ts";
import { dangersOf, fittingOf, type Plan } from "../../src/core/plan/index.ts";
import { writerFor } from "../../src/core/units/index.ts";
import { type Document, toPdf } from "../../src/draw/index.ts";
import { CAUTIONS } from "../../src/words/cautions.ts";
import {
  cautionFor,
  cautionOn,
  FORCES,
  labelsIn,
  type SheetKind,
  type Step,
  say,
  stepsOn,
  TRUE_SIZE,
  WHO_DECIDES,
} from "../../src/words/index.ts";
import { run as tubewright } from "../cli/run.ts";
import { run } from "../programs.ts";
import { FONTS } from "../rendering.ts";
import { demo, HARD, planOf } from "../support/cards.ts";
import { DANGER } from "../support/danger.ts";
import { judgeOrder } from "../support/fit.ts";

/** All steps that have a caution, in the order of the work. */
const STEPS = Object.keys(CAUTIONS) as readonly Step[];

const DIR = mkdtempSync(join(tmpdir(), "tubewright-cautions-"));
const plan = demo();
const flat = (words: string): string => words.replace(/\s+/g, " ");

/** Every sheet's words, as poppler reads them out of the PDF. */
async function read(document: Document | undefined): Promise<readonly string[]> {
  const path = join(DIR, "sheets.pdf");
  writeFileSync(path, await toPdf(document!, FONTS));
  return run("pdftotext", path, "-").toString().split("\f").slice(0, -1).map(flat);
}

const SPRUNG = { bar: "harness-bar", goesIn: "spring", spring: 0.6, force: 40 } as const;
const orderOf = (of: Plan, spring = false): Document => {
  const order = of.bars.map((b) => b.id);
  const fitting = { ...fittingOf(of), effort: { seed: 1, nodes: 50, most: 5, stop: () => false } };
  const [judged] = judgeOrder(fitting, order.slice(0, 1));
  return orderSheet(of, {
    order,
    judged: spring ? [{ ...judged!, ...SPRUNG, joint: "locked" }] : [judged!],
    reach: [],
  });
};

/** One of each kind: the compiler asks for a new one. */
const OF_KIND: Readonly<Record<SheetKind, () => Document | undefined>> = {
  "bender card": () => benderCard(plan, "pillar-bar-left"),
  "made record": () => benderCard(planOf(readFileSync("tests/paper/jobs/half-made.json", "utf8")), "double"),
  "saw card": () => benderCard(plan, "harness-bar"),
  "notcher card": () => notcherCard(plan, "pillar-bar-left", "Letter"),
  wrap: () => wrapCard(plan, "pillar-bar-left", "A"),
  "mark strip": () => markStrip(plan, "main-hoop", "Letter"),
  overview: () => overview(plan),
  "reading list": () => readingList(plan, {}),
  "measuring plan": () => measuringPlan(plan),
  "trestle plan": () => measuringPlan(plan, "A4", "main-hoop"),
  "die card": () => dieCard(plan, "d45"),
  "fitting order": () => orderOf(plan),
};
const SHEETS = Object.entries(OF_KIND) as [SheetKind, () => Document | undefined][];

describe("the table", () => {
  const all = [...STEPS.map((s) => cautionFor(s)), WHO_DECIDES, TRUE_SIZE, FORCES];

  test("every step of the work that can hurt has a caution", () => {
    for (const named of [
      /blade/,
      /pinch/,
      /hole saw/,
      /zinc/,
      /grinder/,
      /hoop/,
      /axle stands/,
      /roof or panels/,
    ])
      expect(
        all.some((c) => named.test(c)),
        String(named),
      ).toBe(true);
    for (const named of [/sprung/, /airbags and belt tensioners/, /battery/, /fire watch/])
      expect(
        all.some((c) => named.test(c)),
        String(named),
      ).toBe(true);
    for (const who of ["rule book", "local codes", "inspector", "licensed engineer", "qualified people"])
      expect(WHO_DECIDES).toContain(who);
  });

  test("sentences of at most 20 words, in shop words, without a figure but the paper's 100 %", () => {
    for (const sentence of all.flatMap((c) => c.split(/(?<=\.) /))) {
      expect(sentence.split(" ").length, sentence).toBeLessThanOrEqual(20);
      expect(sentence.replace("100 %", ""), sentence).not.toMatch(/\d/);
      expect(sentence, sentence).not.toMatch(
        /\b(lies|told|said|anew|so|no more|good to|sure to|felt|costs|pays|hands give)\b|\bstands\b(?<!axle stands)/,
      );
    }
  });
});

describe("on paper, as pdftotext reads it", () => {
  test.each(SHEETS)(
    "%s: the table's words on every sheet, and no step's that is not done from it",
    async (kind, make) => {
      // no step is done from the page that holds the check square alone
      const sheets = (await read(make())).filter((sheet) => !sheet.includes("Printer check"));
      expect(sheets.length).toBeGreaterThan(0);
      for (const sheet of sheets) {
        expect(sheet).toContain(flat(cautionOn(kind)));
        for (const step of STEPS)
          expect(sheet.includes(cautionFor(step)), step).toBe(stepsOn(kind).includes(step));
      }
      if (kind === "wrap" || kind === "mark strip")
        for (const sheet of sheets) expect(sheet).toContain(TRUE_SIZE);
      else expect(sheets[0]).toContain(WHO_DECIDES);
    },
  );

  test("bent bars are sawn first: their card has the saw's caution too", () => {
    expect(stepsOn("bender card")).toEqual(expect.arrayContaining(["saw", "bender", "lifting"]));
  });

  test("a wrap too large for one sheet carries them on every sheet", async () => {
    const sheets = await read(wrapCard(planOf(HARD), "wide/onto:wide", "A"));
    expect(sheets.length).toBeGreaterThan(1);
    for (const sheet of sheets) {
      expect(sheet).toContain(flat(cautionOn("wrap")));
      expect(sheet).toContain(TRUE_SIZE);
    }
  });

  test("a force on the order sheet comes with the sprung bar's caution and what a force is good for", async () => {
    for (const sheet of await read(orderOf(plan, true)))
      for (const words of [cautionFor("sprung"), FORCES, WHO_DECIDES]) expect(sheet).toContain(words);
  });
});

describe("in files", () => {
  const files = cardFiles(plan, { paper: "A4" }).filter((f) => f.name.startsWith("wraps/"));
  const UNESCAPED: Readonly<Record<string, string>> = {
    "&amp;": "&",
    "&lt;": "<",
    "&gt;": ">",
    "&quot;": '"',
  };

  test("every wrap as SVG and DXF: the table's words and how to print it", () => {
    expect(files.length).toBeGreaterThan(100);
    for (const { kind, name, make } of files) {
      const made = String(make(FONTS));
      const words =
        kind === "svg"
          ? [...made.matchAll(/<text[^>]*>([^<]*)</g)].map((m) =>
              m[1]!.replace(/&\w+;/g, (e) => UNESCAPED[e]!),
            )
          : new DxfParser()
              .parseSync(made)!
              .entities.flatMap((e) => (e.type === "TEXT" ? [(e as unknown as { text: string }).text] : []));
      const all = flat(words.join(" "));
      expect(all, name).toContain(cautionOn("wrap"));
      expect(all, name).toContain(TRUE_SIZE);
    }
  });
});

describe("src holds no other caution", () => {
  /** Words that only a caution, or the sentence on who decides, has. */
  const MARKS =
    /glove|fumes|fire watch|\bprotection\b|poison|airbag|tensioner|axle stand|battery|inspector|local codes|licensed|qualified|rule book|pinch|at 100 %|smoulder|\bface shield/i;
  /** What may say one of them: instructions, not cautions. */
  const MAY: Readonly<Record<string, RegExp>> = {
    // one of what is taken out before measuring, by its key
    "src/core/job/types.ts": /^export const SET_UP = \["battery", /,
    "src/core/trestles/verdict.ts": /if the rule book allows/,
    "src/core/findings/catalogue.ts": /cage rules commonly ask/,
    "src/draw/parts/check.ts": /If either is off, print again at 100 %/,
  };
  /** A step may be named by its key: that shows the table's words. */
  const named = (line: string): string =>
    STEPS.reduce((rest, step) => rest.replaceAll(`"${step}"`, ""), line);
  const sources = readdirSync("src", { recursive: true, withFileTypes: true })
    .filter((f) => f.isFile() && /\.tsx?$/.test(f.name) && !/\.test\.tsx?$/.test(f.name))
    .map((f) => join(f.parentPath, f.name))
    .filter((path) => !path.startsWith("src/words/"));

  test("no line of code outside the table warns in words of its own", () => {
    expect(sources.length).toBeGreaterThan(300);
    const found = sources.flatMap((path) =>
      readFileSync(path, "utf8")
        .split("\n")
        .filter(
          (line) => !/^\s*(\/\*|\*|\/\/)/.test(line) && MARKS.test(named(line)) && !MAY[path]?.test(line),
        )
        .map((line) => `${path}: ${line.trim()}`),
    );
    expect(found).toEqual([]);
  });
});

describe("on the command line", () => {
  test("check, fit and trestles say who decides in the one sentence; with --json too", async () => {
    const job = JSON.stringify(DANGER);
    expect((await tubewright(["check", "job"], { job })).out).toContain(WHO_DECIDES);
    expect(JSON.parse((await tubewright(["check", "job", "--json"], { job })).out).advice).toBe(WHO_DECIDES);
    const fit = await tubewright(
      ["fit", "job", "--bar", "x", "--order", "p,q,x", "--seconds", "300", "--threads", "1"],
      { job: JSON.stringify(CROSSED) },
    );
    for (const words of ["goes in sprung", WHO_DECIDES, cautionFor("sprung"), FORCES])
      expect(fit.out).toContain(words);
    const call = ["trestles", "demo/sandling.json", "--bar", "pillar-bar-left", "--read", "angle-1:29"];
    const sprung = await tubewright(call);
    expect(sprung.out).toMatch(/about \d+ N in steel/);
    for (const words of [WHO_DECIDES, cautionFor("sprung"), FORCES]) expect(sprung.out).toContain(words);
    const eased = await tubewright([...call, "--slide", "1", "--aside", "3"]);
    expect(eased.out).toMatch(
      /^Pillar bar, left \(pillar-bar-left\): ease bend 1 by \S+, cold, if the rule book allows,/,
    );
    expect(eased.out).toContain(WHO_DECIDES);
  }, 120_000);
});

/** Two hosts that cross: what lands square on both is held by its joints. */
const CROSSED = {
  format: "tubewright job",
  version: 1,
  name: "Crossed",
  tubes: { t: { od: 40, wall: 2 } },
  bars: {
    p: {
      tube: "t",
      path: [
        [0, 0, 0],
        [0, 0, 800],
      ],
    },
    q: {
      tube: "t",
      path: [
        [500, -300, 400],
        [500, 300, 400],
      ],
    },
    x: {
      tube: "t",
      path: [
        { on: "p", along: 400 },
        { on: "q", along: 300 },
      ],
    },
  },
};

describe("a danger is printed as one", () => {
  const danger = planOf(DANGER);
  const write = writerFor(danger.job.show);
  const sayIn = (f: Finding): string =>
    flat(say(f, write, labelsIn(danger.job.bars)).replaceAll("\u00a0", " "));

  test("of the floor and of the operator, each with its reach", () => {
    const codes = dangersOf(danger).map((f) => `${f.bar} ${f.code}`);
    expect(codes).toEqual(expect.arrayContaining(["u bend-into-operator", "leg bend-into-floor"]));
    expect(byGravity(danger.findings)[0]!.code).toMatch(/^bend-into/);
  });

  test("at the head of bender card, notcher card and order sheet, in the findings, in every title block", async () => {
    for (const f of dangersOf(danger)) {
      for (const card of [benderCard(danger, f.bar!), notcherCard(danger, f.bar!)]) {
        const sheets = await read(card);
        expect(sheets[0]).toMatch(/^ ?DANGER /);
        expect(sheets[0]).toContain(sayIn(f));
        for (const sheet of sheets) expect(sheet).toMatch(/DANGER.* \d+, read the bender card first/);
      }
      const order = await read(orderOf(danger));
      expect(order[0]).toMatch(/^ ?DANGER /);
      expect(order[0]).toContain(sayIn(f));
      const over = await read(overview(danger));
      expect(over.join(" ")).toContain(sayIn(f));
      for (const sheet of over) expect(sheet).toMatch(/DANGER.* \d+, read the findings first/);
    }
    for (const sheet of await read(markStrip(danger, "leg")))
      expect(sheet).toContain("read the bender card first");
  });

  test("whatever makes it: one that names a second bar is on that bar's cards too, one of no bar on all", async () => {
    const [f] = dangersOf(danger);
    const { bar: _, ...ofNone } = f!;
    const met: Finding = {
      ...f!,
      bar: "u",
      values: { ...f!.values, other: { bar: "cross" }, reach: { mm: 4321 } },
    };
    const all: Finding = { ...ofNone, place: "body", values: { ...f!.values, reach: { mm: 8765 } } };
    const with2 = { ...danger, findings: [...danger.findings, met, all] };
    for (const card of [benderCard(with2, "cross"), notcherCard(with2, "cross")]) {
      const [first] = await read(card);
      expect(first).toContain("4321.0 mm");
      expect(first).toContain("8765.0 mm");
    }
    const [leg] = await read(benderCard(with2, "leg"));
    expect(leg).not.toContain("4321.0 mm");
    expect(leg).toContain("8765.0 mm");
    for (const doc of [overview(with2), orderOf(with2)]) {
      const words = (await read(doc)).join(" ");
      expect(words).toContain("4321.0 mm");
      expect(words).toContain("8765.0 mm");
    }
  });

  test("check lists it first, as DANGER, for its bar and without one; bend, cards and fit print it; nothing leaves it out", async () => {
    const job = JSON.stringify(DANGER);
    const checked = await tubewright(["check", "job"], { job });
    expect(checked.out).toMatch(/^DANGER \(\d\)\n! /);
    expect(checked.code).toBe(0);
    expect((await tubewright(["check", "job", "--bar", "leg"], { job })).out).toMatch(
      /^DANGER \(1\)\n! bars\.leg:/,
    );
    const json = JSON.parse((await tubewright(["check", "job", "--json"], { job })).out);
    expect(json.findings[0].severity).toBe("danger");
    for (const call of [
      ["bend", "job"],
      ["bend", "job", "--json"],
      ["fit", "job", "--bar", "u", "--order", "u,leg,cross", "--seconds", "5"],
    ]) {
      const { err } = await tubewright(call, { job });
      expect(err, call.join(" ")).toMatch(/danger: bars\.leg: raise the bender/);
      expect(err).toContain(WHO_DECIDES);
    }
  });
});
