import type { Name } from "../core/findings/index.ts";
import { pointWords } from "./car-places.ts";

/** How a thing of the job is named for the reader at hand. */
export type Names = (name: Name) => string;

/** By ID and by place in the file: for the command line, files and JSON. */
export const IDS: Names = (name) => {
  if ("bar" in name) return name.bar;
  if ("plate" in name) return name.plate;
  if ("point" in name) return name.point;
  if ("die" in name) return name.die;
  if ("thing" in name) return name.thing;
  return `readings[${name.reading}]`;
};

/** By label, for screens and cards: `labelOf` gives a bar's; readings count from 1, as they are listed. */
export const labels =
  (labelOf: (bar: string) => string | undefined): Names =>
  (name) => {
    if ("bar" in name) return labelOf(name.bar) ?? name.bar;
    if ("thing" in name) return labelOf(name.thing) ?? name.thing;
    if ("point" in name) return pointWords(name.point);
    return "reading" in name ? `reading ${name.reading + 1}` : IDS(name);
  };

/** The labels of a job's bars. */
export const labelsIn = (bars: Readonly<Record<string, { readonly label: string }>>): Names =>
  labels((id) => (Object.hasOwn(bars, id) ? bars[id]?.label : undefined));
