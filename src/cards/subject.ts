import type { End } from "../core/job/index.ts";
import {
  type AsMade,
  asMade,
  type BarPlan,
  type CardNow,
  cardOf,
  dangersOf,
  hostsOf,
  onTube,
  type Plan,
} from "../core/plan/index.ts";
import { type ShopWriter, shopWriterFor } from "../core/units/index.ts";
import {
  AS_MADE,
  EXAMPLES,
  FIELD,
  type Hand,
  inLine,
  labels,
  type Names,
  sayCard,
  sayDangers,
  sayHand,
  sayHosts,
  sayNumber,
  sayOf,
  sayTube,
  WHERE_DANGERS,
} from "../words/index.ts";
import { handOf } from "./hand.ts";
import { calledIn, numberIn } from "./names.ts";

/** One bar as its cards speak of it. */
export interface Subject {
  readonly plan: Plan;
  readonly id: string;
  readonly bar: BarPlan;
  readonly label: string;
  /** Of a bar with a twin. */
  readonly hand?: Hand;
  /** The number of its card, with the code of its figures. */
  readonly card: CardNow;
  /** What is done of it already. */
  readonly made?: AsMade;
  /** What a person calls a bar of the job. */
  readonly called: (id: string) => string;
  /** Lengths and angles with their unit, as the job wants them shown. */
  readonly write: ShopWriter;
  /** What people call the things of the job. */
  readonly names: Names;
  /** Small sizes (gaps, offsets, walls): hundredths of a millimetre, or thousandths of an inch. */
  readonly fine: (mm: number) => string;
  /** Diameters of tubes and hole saws: tenths of a millimetre, or thousandths of an inch. */
  readonly size: (mm: number) => string;
  /** "Ø 40.0 mm × 2.00 mm, cold drawn seamless steel" */
  readonly tube: string;
}

/** Undefined for a bar that has no geometry, or that the job does not know. */
export function subjectOf(plan: Plan, id: string): Subject | undefined {
  const bar = plan.byId.get(id);
  return bar && subjectFor(plan, bar);
}

export function subjectFor(plan: Plan, bar: BarPlan): Subject {
  const { id } = bar;
  const write = onOneLine(shopWriterFor(plan.job.show));
  const hand = handOf(plan, id);
  const made = asMade(plan, id);
  return {
    plan,
    id,
    bar: made ? onTube(bar, made) : bar,
    label: bar.bar.label,
    ...(hand === undefined ? {} : { hand }),
    card: cardOf(plan, bar),
    ...(made ? { made } : {}),
    called: calledIn(plan),
    write,
    names: labels(calledIn(plan)),
    fine: write.fine,
    size: write.size,
    tube: sayTube(bar.bar.tube, write),
  };
}

/** No line breaks inside "1 3/16 in". */
function onOneLine({ length, fine, size, ...write }: ShopWriter): ShopWriter {
  const whole = (say: (mm: number) => string) => (mm: number) => say(mm).replaceAll(" ", "\u00a0");
  return { ...write, length: whole(length), fine: whole(fine), size: whole(size) };
}

/** What the stick is sawn to: the net length with its allowance at both ends (mm). */
export const sawnLength = (bar: BarPlan): number => bar.bend.blank + bar.bend.trim.A + bar.bend.trim.B;

/** The card that the last step done was made to, where that is not the bar's card now. */
export function madeToCard({ made }: Subject): number | undefined {
  if (!made) return undefined;
  const { A, B } = made.notched;
  const { card } =
    [B?.made, A?.made, made.bent?.made, made.sawn.made].find((step) => step !== undefined) ?? {};
  return card === made.card ? undefined : card;
}

const madeParts = (s: Subject): readonly string[] => {
  const n = madeToCard(s);
  return n === undefined ? [] : [AS_MADE.toCard(n)];
};

/** Said in the title block of every sheet, so that no sheet of a print is without it. */
export const dangerField = (dangers: number, where: keyof typeof WHERE_DANGERS): [string, string][] =>
  dangers === 0 ? [] : [[FIELD.danger, sayDangers(dangers, WHERE_DANGERS[where])]];

/** Figures that the shop has neither set nor confirmed: of the bar, its die, what it lands on, and the allowance. */
function exampleField({ plan, bar: { bar } }: Subject): readonly (readonly [string, string])[] {
  const { examples, shop } = plan.job;
  const { trim } = bar;
  if (!examples) return [];
  const hosts = (["A", "B"] as const).flatMap((end) => hostsOf(bar, end, plan.layout) ?? []);
  const tubes = new Set([bar, ...hosts].map((b) => b.tubeId));
  const plates = new Set([bar.seat.A, bar.seat.B].flatMap((s) => (s.kind === "plate" ? [s.plate] : [])));
  const said = [
    ...[...tubes].flatMap((id) => (examples.tubes[id] ? [EXAMPLES.tube(id)] : [])),
    ...(bar.dieId !== undefined && examples.dies[bar.dieId] ? [EXAMPLES.die(bar.dieId)] : []),
    ...[...plates].flatMap((id) => (examples.plates[id] ? [EXAMPLES.plate(id)] : [])),
    ...(examples.shop.includes("trim") && [trim.A, trim.B].includes(shop.trim) ? [EXAMPLES.allowance] : []),
  ];
  return said.length === 0 ? [] : [[FIELD.examples, inLine(said)]];
}

/** The fields of a template, which needs its room for the true size. */
export const shortFields = (s: Subject): (readonly [string, string])[] => [
  ...dangerField(dangersOf(s.plan, s.id).length, "card"),
  [FIELD.card, sayNumber(s.card)],
  ...(madeToCard(s) === undefined ? [] : [[AS_MADE.field, AS_MADE.fieldTo(madeToCard(s) ?? 0)] as const]),
  ...exampleField(s),
  [FIELD.inOverview, sayOf(numberIn(s.plan, s.id) ?? 0, s.plan.bars.length)],
  ...(s.hand === undefined ? [] : [[FIELD.hand, sayHand(s.hand)] as const]),
];

/** The fields that every card of a bar carries below its title, which names the bar in its title block. */
export const barFields = (s: Subject): (readonly [string, string])[] => [
  ...shortFields(s),
  [FIELD.tube, s.tube],
  [FIELD.job, s.plan.job.name],
];

/** What names a bar, or an end of it, on every piece that is cut out: its label, end, hand and card. */
export const barParts = (s: Subject, end?: End): readonly string[] => [
  s.label,
  ...(end === undefined ? [] : [`end ${end}`]),
  ...(s.hand === undefined ? [] : [s.hand]),
  sayCard(s.card),
  ...madeParts(s),
];

/** One line that is on every sheet of a long print. */
export const barLine = (s: Subject, end?: End): string => barParts(s, end).join(" · ");

/** What an end is made to: "Main hoop + Harness bar", "plate foot-a"; a mirrored bar ends on the plate's mirror image. */
export function sayOnto(s: Subject, end: End): string {
  const { cope } = s.bar.copes[end];
  if (cope.kind === "square") return sayHosts.square;
  if (cope.kind === "on") return sayHosts.bars(cope.onto.map(s.called));
  return sayHosts.plate(cope.onto[0] ?? "", s.bar.bar.mirrorOf !== undefined);
}
