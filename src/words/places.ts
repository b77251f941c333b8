import { cautionFor, type Step, WHO_DECIDES } from "./cautions.ts";

/** Which steps are done from a sheet; each carries the cautions of all of them. */
const SHEETS = {
  "saw card": ["saw"],
  "bender card": ["saw", "bender", "lifting"],
  "mark strip": ["bender"],
  "notcher card": ["saw", "notcher", "hot cutting", "grinding"],
  "made record": [],
  wrap: ["hot cutting", "grinding", "fire watch"],
  overview: [],
  "reading list": ["axle stands"],
  "measuring plan": ["axle stands"],
  "trestle plan": ["lifting"],
  "die card": ["bender"],
  "fitting order": ["lifting", "axle stands", "open body", "airbags", "tank", "hot cutting", "fire watch"],
} as const satisfies Record<string, readonly Step[]>;

export type SheetKind = keyof typeof SHEETS;

/** What a template is cut by: no figure of it is a rule or a force, and every line takes room from the true size. */
const TEMPLATES: ReadonlySet<SheetKind> = new Set(["mark strip", "wrap"]);

export const stepsOn = (sheet: SheetKind): readonly Step[] => SHEETS[sheet];

/** What every sheet of a kind says under its title: the cautions of its steps (and of `more`), and who decides. */
export const cautionOn = (sheet: SheetKind, ...more: readonly Step[]): string =>
  [cautionFor(...SHEETS[sheet], ...more), ...(TEMPLATES.has(sheet) ? [] : [WHO_DECIDES])]
    .filter(Boolean)
    .join(" ");
