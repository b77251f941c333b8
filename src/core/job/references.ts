import { phrase, text } from "../findings/index.ts";
import { namesInNode } from "./kinds/index.ts";
import { namesInMade } from "./made.ts";
import { entriesOf, listOf, own } from "./peek.ts";
import { type Fault, type Path, problem, quote } from "./problem.ts";
import { hintOf } from "./problems.ts";
import { namesInReadings } from "./readings.ts";
import type { Suggester } from "./suggest.ts";
import { BESIDE_BARS } from "./types.ts";

type Kind = "tube" | "die" | "plate" | "point" | "bar" | "opening" | "part";

/** A name that stands for another thing of the job. */
export interface Reference {
  readonly kind: Kind;
  readonly name: string;
  readonly path: Path;
  /** The bar that says it. */
  readonly bar?: string;
  /** How that bar's own place depends on the one named, if it does: its part in a circle. */
  readonly link?: "land on" | "follow" | "mirror";
  /** The name is the key that the path ends with, not what stands there. */
  readonly isKey?: true;
}

/** Where a kind is listed: its homes in the document or, the last two kinds, in its body. */
const HOMES: Readonly<Record<Kind, readonly string[]>> = {
  tube: ["tubes"],
  die: ["dies"],
  plate: ["plates"],
  point: ["points"],
  bar: ["bars"],
  opening: ["openings"],
  part: ["lines", "skin", "openings", "panels"],
};

const NONE: ReadonlyMap<string, unknown> = new Map();

/** What is listed under one kind. */
function homeOf(document: unknown, kind: Kind): ReadonlyMap<string, unknown> {
  const holder = kind === "opening" || kind === "part" ? own(document, "body") : document;
  return new Map(HOMES[kind].flatMap((name) => entriesOf(holder, name)));
}

type Found = (kind: Kind, name: unknown, path: Path, link?: Reference["link"]) => void;

/** Names in the order of fitting, in panels and among what comes off with the roof. */
function namesOfFitting(document: unknown, found: Found): void {
  listOf(own(document, "order")).forEach((name, i) => {
    found("bar", name, ["order", i]);
  });
  const body = own(document, "body");
  listOf(own(body, "roof")).forEach((name, i) => {
    found("part", name, ["body", "roof", i]);
  });
  for (const [id, panel] of entriesOf(body, "panels")) {
    listOf(own(panel, "openings")).forEach((name, i) => {
      found("opening", name, ["body", "panels", id, "openings", i]);
    });
  }
}

/** Every name in the document, in its order; whatever has the wrong type is passed over. */
export function referencesOf(document: unknown): readonly Reference[] {
  const all: Reference[] = [];
  const collect = (bar?: string): Found => {
    return (kind, name, path, link) => {
      if (typeof name !== "string") return;
      all.push({ kind, name, path, ...(bar === undefined ? {} : { bar }), ...(link ? { link } : {}) });
    };
  };
  listOf(own(document, "rack")).forEach((pile, i) => {
    collect()("tube", own(pile, "tube"), ["rack", i, "tube"]);
  });
  namesInReadings(document, (kind, name, path) => {
    if (typeof name === "string") all.push({ kind, name, path });
  });
  namesOfFitting(document, collect());
  for (const home of BESIDE_BARS)
    for (const [id] of entriesOf(document, home))
      all.push({ kind: "bar", name: id, path: [home, id], isKey: true });
  namesInMade(document, (kind, name, path) => {
    if (typeof name === "string") all.push({ kind, name, path });
  });
  for (const [id, bar] of entriesOf(document, "bars")) {
    const found = collect(id);
    const at = ["bars", id];
    found("tube", own(bar, "tube"), [...at, "tube"]);
    found("die", own(bar, "die"), [...at, "die"]);
    found("bar", own(bar, "mirrorOf"), [...at, "mirrorOf"], "mirror");
    listOf(own(bar, "path")).forEach((node, i) => {
      namesInNode(node, [...at, "path", i], found);
    });
    found("bar", own(own(bar, "follow"), "bar"), [...at, "follow", "bar"], "follow");
  }
  return all;
}

/** Names that stand for nothing, mirrors of mirrors, bars that crowd themselves. */
export function referenceProblems(
  document: unknown,
  references: readonly Reference[],
  suggester: Suggester,
): readonly Fault[] {
  const homes = new Map((Object.keys(HOMES) as Kind[]).map((kind) => [kind, homeOf(document, kind)]));
  return references.flatMap(({ kind, name, path, bar, link }) => {
    const home = homes.get(kind) ?? NONE;
    if (!home.has(name)) {
      const none =
        home.size === 0 ? phrase("job-has-none", { homes: text(HOMES[kind].join(", ")) }) : text("");
      const hint = hintOf(suggester.closest(name, home.keys()), none);
      return [
        problem(path, "no-such", {
          kind: kind === "part" ? phrase("kind-part") : text(kind),
          name: text(quote(name)),
          hint,
        }),
      ];
    }
    const named = home.get(name);
    if (link === "mirror" && name !== bar && own(named, "mirrorOf") !== undefined)
      return [problem(path, "mirror-of-mirror", { name: text(quote(name)) })];
    if (kind === "bar" && link === undefined && name === bar) return [problem(path, "coped-to-itself")];
    return [];
  });
}
