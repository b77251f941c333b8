import { readFileSync } from "node:fs";
import { inflateSync } from "node:zlib";
import { run } from "../programs.ts";
import { MM_PER_POINT } from "./figure.ts";

/** A word as poppler finds it, in the order in which it was drawn; mm from the sheet's top left corner. */
export interface Word {
  text: string;
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

/** One painted path, mm from the sheet's top left corner. Curves are given by their end points. */
export interface Stroke {
  points: [number, number][];
  closed: boolean;
  curved: boolean;
  stroked: boolean;
  filled: string | undefined;
  width: number;
  dashed: number;
}

export interface Page {
  width: number;
  height: number;
  words: Word[];
  strokes: Stroke[];
}

const ENTITIES: Record<string, string> = { amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'", apos: "'" };
const plain = (s: string): string =>
  s.replace(/&(\w+|#39);/g, (whole, name: string) => ENTITIES[name] ?? whole);

/** Every sheet of a PDF: its words by pdftotext, its lines from the page's own drawing operators. */
export function readPdf(path: string): Page[] {
  const html = run("pdftotext", "-raw", "-bbox", path, "-").toString("utf8");
  const drawn = drawings(readFileSync(path));
  return html
    .split("<page ")
    .slice(1)
    .map((page, i): Page => {
      const [, w, h] = /width="([\d.]+)" height="([\d.]+)"/.exec(page)!;
      const words = [...page.matchAll(/xMin="(\S+)" yMin="(\S+)" xMax="(\S+)" yMax="(\S+)">(.*?)<\/word>/g)];
      return {
        width: Number(w) * MM_PER_POINT,
        height: Number(h) * MM_PER_POINT,
        words: words.map(([, x0, y0, x1, y1, text]) => ({
          text: plain(text!),
          x0: Number(x0) * MM_PER_POINT,
          y0: Number(y0) * MM_PER_POINT,
          x1: Number(x1) * MM_PER_POINT,
          y1: Number(y1) * MM_PER_POINT,
        })),
        strokes: drawn[i] ?? [],
      };
    });
}

/** The paths of every page, in the order of the page tree. */
function drawings(bytes: Buffer): Stroke[][] {
  const text = bytes.toString("latin1");
  const object = (n: string): { head: string; at: number } => {
    const at = text.search(new RegExp(`(?:^|\\n)${n} 0 obj\\b`));
    const from = text.indexOf("obj", at) + 3;
    return { head: text.slice(from, text.indexOf("endobj", from)), at: from };
  };
  const kids = /\/Type \/Pages[\s\S]*?\/Kids \[([^\]]*)\]|\/Kids \[([^\]]*)\][\s\S]*?\/Type \/Pages/.exec(
    text,
  )!;
  const pages = [...(kids[1] ?? kids[2])!.matchAll(/(\d+) 0 R/g)].map((m) => m[1]!);
  return pages.map((page) => {
    const { head } = object(page);
    const height = Number(/\/MediaBox \[\S+ \S+ \S+ ([\d.]+)\]/.exec(head)![1]);
    const content = object(/\/Contents (\d+) 0 R/.exec(head)![1]!);
    const length = Number(/\/Length (\d+)/.exec(content.head)![1]);
    const start = text.indexOf("stream", content.at) + 6;
    const from = start + (text[start] === "\r" ? 2 : 1);
    const raw = bytes.subarray(from, from + length);
    const code = content.head.includes("FlateDecode") ? inflateSync(raw) : raw;
    return painted(code.toString("latin1"), height);
  });
}

type Matrix = [number, number, number, number, number, number];

/** Follows the drawing operators of one page (ISO 32000-1, 8.5), text apart. */
function painted(code: string, height: number): Stroke[] {
  const out: Stroke[] = [];
  let m: Matrix = [1, 0, 0, 1, 0, 0];
  let [width, dashed, fill] = [1, 0, ""];
  const kept: { m: Matrix; width: number; dashed: number; fill: string }[] = [];
  let paths: { points: [number, number][]; closed: boolean; curved: boolean }[] = [];
  let stack: (number | string)[] = [];
  const numbers = (): number[] => stack.filter((x) => typeof x === "number");
  const num = (i: number): number => Number(stack[stack.length + i]);
  const at = (x: number, y: number): [number, number] => [
    (m[0] * x + m[2] * y + m[4]) * MM_PER_POINT,
    (height - (m[1] * x + m[3] * y + m[5])) * MM_PER_POINT,
  ];
  const paint = (stroked: boolean, filled: boolean): void => {
    const scale = Math.hypot(m[0], m[1]) * MM_PER_POINT;
    for (const p of paths)
      if (p.points.length > 1)
        out.push({
          ...p,
          stroked,
          filled: filled ? fill : undefined,
          width: width * scale,
          dashed: dashed * scale,
        });
    paths = [];
  };
  const last = () => paths[paths.length - 1]!;
  const act = new Map<string, () => void>([
    ["q", () => void kept.push({ m, width, dashed, fill })],
    [
      "Q",
      () => {
        const k = kept.pop()!;
        ({ m, width, dashed, fill } = k);
      },
    ],
    [
      "cm",
      () => {
        const [a, b, c, d, e, f] = [num(-6), num(-5), num(-4), num(-3), num(-2), num(-1)];
        m = [
          a * m[0] + b * m[2],
          a * m[1] + b * m[3],
          c * m[0] + d * m[2],
          c * m[1] + d * m[3],
          e * m[0] + f * m[2] + m[4],
          e * m[1] + f * m[3] + m[5],
        ];
      },
    ],
    [
      "w",
      () => {
        width = num(-1);
      },
    ],
    [
      "d",
      () => {
        dashed = numbers().length > 1 ? numbers()[0]! : 0;
      },
    ],
    [
      "scn",
      () => {
        fill = numbers().join(" ");
      },
    ],
    ["m", () => void paths.push({ points: [at(num(-2), num(-1))], closed: false, curved: false })],
    ["l", () => void last().points.push(at(num(-2), num(-1)))],
    [
      "c",
      () => {
        last().points.push(at(num(-2), num(-1)));
        last().curved = true;
      },
    ],
    [
      "h",
      () => {
        last().closed = true;
      },
    ],
    ["S", () => paint(true, false)],
    ["f", () => paint(false, true)],
    ["B", () => paint(true, true)],
  ]);
  // strings of text may hold anything: they go first
  for (const [token] of code.replace(/<[0-9a-fA-F]*>|\((?:\\.|[^\\)])*\)/g, " ").matchAll(/[^\s[\]]+/g)) {
    if (/^[-+]?[\d.]+$/.test(token)) stack.push(Number(token));
    else if (token.startsWith("/")) stack.push(token);
    else {
      act.get(token)?.();
      stack = [];
    }
  }
  return out;
}
