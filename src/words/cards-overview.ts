import { capital } from "./text.ts";

/** The overview of a job. */
export const OVERVIEW = {
  pictures: "Overview",
  bars: "Bars",
  findings: "Findings",
  views: {
    left: "Seen from the left of the car, forward to the left",
    front: "Seen from in front, the driver's left to the right",
    above: "Seen from above, forward to the left",
  },
  empty: "No bar of this job can be figured yet.",
  numbers: (scale: string): string =>
    `${scale}, not true size. Numbers: the bars in the table that follows. Axes: x forward, y to the left, z up.`,
  columns: ["No.", "Bar", "Tube", "Length on centreline", "Saw to", "Bends", "Ends A → B"],
  bar: (label: string, card: string, done: string | undefined): string =>
    [label, card, ...(done === undefined ? [] : [done])].join("\n"),
  ends: (a: string, b: string): string => `${a}\n→ ${b}`,
  none: "No findings. That is no approval.",
  severity: (severity: string, count: number): string => `${capital(severity)}${count > 1 ? "s" : ""}`,
} as const;

const THINGS: Readonly<Record<string, string>> = {
  dies: "Die",
  plates: "Plate",
  points: "Point",
  tubes: "Tube",
};

/** Where a finding is, for a person: "Header bar", "Die d40", "Reading 3", "Shop". */
export function sayPlace(
  { bar, place }: { readonly bar?: string; readonly place: string },
  called: (id: string) => string,
): string {
  if (bar !== undefined) return called(bar);
  const reading = /^readings\[(\d+)\]/.exec(place)?.[1];
  if (reading !== undefined) return `Reading ${Number(reading) + 1}`;
  const [home = ""] = place.split(".");
  const id = place.slice(home.length + 1).replace(/\.(tests|legs|path|follow|point)(\[.*)?$/, "");
  const thing = THINGS[home];
  return thing === undefined || id === "" ? capital(place) : `${thing} ${id}`;
}
