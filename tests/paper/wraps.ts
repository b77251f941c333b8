import { readFileSync } from "node:fs";
import { join } from "node:path";
import { cropped, wrapDrawn } from "./drawn/index.ts";
import { printed } from "./figure.ts";
import type { Around } from "./quantities/index.ts";
import { readDxf } from "./read-dxf.ts";
import { readSvg } from "./read-svg.ts";
import { ENDS, PAPER, type Report } from "./report.ts";
import type { Place } from "./scan.ts";
import { take } from "./sheets.ts";

export function readWraps(around: Around, out: string, id: string, files: string[], report: Report): void {
  const facts = around.second.bar(id);
  const fraction = around.second.job.fraction;
  const girth = Math.PI * (facts.laid.tube.od + PAPER);
  for (const end of ENDS) {
    const { joint } = facts.cope[end];
    const flat =
      facts.isDone(end) || joint.kind === "square" || (joint.kind === "plate" && joint.tilt < 0.01);
    for (const square of [false, true]) {
      const name = `wraps/${id}-${end}${square ? "-square" : ""}`;
      const has = files.includes(`${name}.svg`);
      if (!square && has === flat) report.faults.push(`${name}.svg ${has ? "is not wanted" : "is missing"}`);
      if (!has) continue;
      for (const type of ["svg", "dxf"] as const) {
        const file = `${name}.${type}`;
        if (!files.includes(file)) {
          report.faults.push(`${file} is missing`);
          continue;
        }
        const raw = readFileSync(join(out, file), "utf8");
        const drawn = type === "svg" ? readSvg(raw) : readDxf(raw);
        const text = `${[drawn.title, ...drawn.texts.map((t) => t.text)].join(" ")} `;
        const place: Place = { bar: id, end };
        const sheet = {
          page: { width: 0, height: 0, words: [], strokes: [] },
          text,
          kind: "wrap",
          spans: new Map(),
        };
        take(around, report, sheet, place, file);
        const base = /Base line (.*?) in from/.exec(text)?.[1];
        if (base === undefined) report.faults.push(`${file}: no base line`);
        else
          report.faults.push(
            ...wrapDrawn(cropped(drawn, girth), printed(base, fraction).value, facts, end, square, PAPER).map(
              (f) => `${file}: ${f}`,
            ),
          );
      }
    }
  }
}
