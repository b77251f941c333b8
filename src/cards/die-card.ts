import { type DieCard, dieSettings, isBelievable, radiusOf } from "../core/bend/index.ts";
import { byGravity, severityOf } from "../core/findings/index.ts";
import type { Die, Job } from "../core/job/index.ts";
import type { Plan } from "../core/plan/index.ts";
import { type ShopWriter, shopWriterFor } from "../core/units/index.ts";
import { type Mark, type Paper, paragraph, table, text } from "../draw/index.ts";
import {
  cautionOn,
  EXPLAIN_ERROR,
  FIELD,
  IDS,
  LOOK_FIRST,
  NOT_SET,
  DIE_CARD as SAYS,
  SOURCE,
  say,
} from "../words/index.ts";
import { diePlot } from "./die-plot.ts";
import { type Block, figure, flow, heading, words } from "./flow.ts";
import type { Laid } from "./laid.ts";

/** Angles that a card lists (degrees). */
const COMMON = [15, 30, 45, 60, 75, 90, 105, 120, 135, 150];

const NOTHING: DieCard = { findings: [] };

/** What a die does, from its test bends: what to set, the tube it takes, and how sure that is. */
export function dieSheets(plan: Plan, id: string, paper: Paper): Laid[] {
  const die = plan.job.dies[id];
  if (!die) return [];
  const card = plan.dies.get(id) ?? NOTHING;
  const write = shopWriterFor(plan.job.show);
  const fields = [
    [FIELD.job, plan.job.name],
    [SAYS.tube, write.size(die.od)],
    [SAYS.tests, `${die.tests.length}`],
  ] as const;
  return flow(paper, { title: SAYS.title(id), fields, note: cautionOn("die card") }, ({ width }) => [
    figures(die, card, write, width),
    ...findings(card, write, width),
    heading(SAYS.settings, width),
    settings(die, card, plan.job.shop.errors, write, width),
    words(SAYS.columnsAre, width, { size: 2.2 }),
    ...(die.tests.length > 0 || die.springback
      ? [heading(SAYS.plot, width), plotted(die, card, write, width)]
      : [heading(SAYS.limits, width), words(limits(die, write), width), words(from(die, write), width)]),
  ]);
}

function figures(die: Die, card: DieCard, write: ShopWriter, width: number): Block {
  const third = width / 3;
  const { clr, arcFactor } = radiusOf(die, card);
  const { springback } = card;
  const isTrue = isBelievable(die, card);
  const radius = isTrue ? card.radius : undefined;
  const line = die.springback ?? (springback && { k: springback.k.value, c: springback.c.value });
  const all = [
    figure(
      [0, 0],
      third - 3,
      SAYS.springback,
      line ? SAYS.line(line.k, line.c) : SAYS.unknown,
      die.springback
        ? SAYS.given
        : springback
          ? SAYS.lineError(springback.k.sd, springback.basis === "line" ? springback.c.sd : undefined)
          : SAYS.noTests,
      4.6,
    ),
    figure(
      [third, 0],
      third - 3,
      SAYS.radius,
      write.length(clr),
      radius
        ? SAYS.radiusError(write.length(radius.clr.sd), write.length(die.clr))
        : isTrue
          ? SAYS.radiusGiven
          : SAYS.radiusNone,
      6,
    ),
    figure(
      [2 * third, 0],
      third,
      SAYS.arcFactor,
      arcFactor.toFixed(3),
      radius?.arcFactor ? SAYS.arcError(radius.arcFactor.sd) : radius ? SAYS.arcTaken : SAYS.arcGiven,
      6,
    ),
  ];
  return { marks: all.flatMap((f) => f.marks), height: Math.max(...all.map((f) => f.height)) };
}

function findings(card: DieCard, write: ShopWriter, width: number): Block[] {
  const found = byGravity(card.findings);
  if (found.length === 0) return [];
  return [
    heading(LOOK_FIRST, width),
    ...found.map((f) => {
      const said = paragraph([22, 0], width - 22, say(f, write, IDS), { size: 2.5 });
      return {
        marks: [text([0, 3.25], severityOf(f).toUpperCase(), 2.2, { bold: true }), ...said.marks],
        height: said.height,
      };
    }),
  ];
}

function settings(
  die: Die,
  card: DieCard,
  errors: Job["shop"]["errors"],
  write: ShopWriter,
  width: number,
): Block {
  const shares = [0.14, 0.16, 0.12, 0.22, 0.18, 0.18];
  const columns = SAYS.columns.map((title, i) => ({
    title,
    width: width * (shares[i] ?? 0),
    anchor: "end" as const,
  }));
  const rows = dieSettings(die, card, errors, COMMON).map((s) => [
    write.angle(s.angle),
    s.set === undefined ? (s.isBeyond ? SAYS.cannotSet : SAYS.notKnown) : write.angle(s.set),
    s.sd === undefined ? "" : write.angle(s.sd),
    write.length(s.takeUp),
    write.length(s.used),
    s.gain < 0 ? SAYS.longer(write.length(-s.gain)) : write.length(s.gain),
  ]);
  return table([0, 0], columns, rows, 2.2);
}

/** Width of the plot, and of the air beside it (mm). */
const PLOT = 104;
const GAP = 5;

/** The plot, and beside it what the bender needs and what all of it was figured from. */
function plotted(die: Die, card: DieCard, write: ShopWriter, width: number): Block {
  const plot = diePlot(die, card, PLOT);
  const x = PLOT + GAP;
  const beside: Mark[] = [text([x, 3], SAYS.limits, 2.5, { bold: true })];
  let y = 4.5;
  const add = (said: string): void => {
    const placed = paragraph([x, y], width - x, said, { size: 2.2 });
    beside.push(...placed.marks);
    y += placed.height + 2;
  };
  add(limits(die, write));
  beside.push(text([x, y + 3], SOURCE, 2.5, { bold: true }));
  y += 4.5;
  add(from(die, write));
  return { marks: [...plot.marks, ...beside], height: Math.max(plot.height, y) };
}

const limits = (die: Die, write: ShopWriter): string => {
  const of = (mm: number | undefined): string => (mm === undefined ? NOT_SET : write.length(mm));
  return SAYS.needs(
    of(die.clamp),
    of(die.between),
    of(die.tail),
    die.maxAngle === undefined ? NOT_SET : write.angle(die.maxAngle),
    write.length(Math.abs(die.mark)),
    die.mark === 0 ? "at" : die.mark > 0 ? "tail" : "fed",
  );
};

function from(die: Die, write: ShopWriter): string {
  const tests = die.tests.map(({ set, got, legs, stick }, i) =>
    SAYS.test(
      i + 1,
      write.angle(set),
      write.angle(got),
      legs && stick !== undefined
        ? SAYS.legs(write.length(legs[0]), write.length(legs[1]), write.length(stick))
        : "",
    ),
  );
  return [...(tests.length > 0 ? tests : [SAYS.noTests]), EXPLAIN_ERROR].join("\n");
}
