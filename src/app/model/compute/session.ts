import type { PrintAsk } from "../../../cards/index.ts";
import { checksAfter, fromOwnEnds, turnedRound, turnsOf } from "../../../core/bend/index.ts";
import type { Notch } from "../../../core/cope/index.ts";
import { tubeMesh } from "../../../core/mesh/index.ts";
import { type BarPlan, notchAt, type Plan, placedPoints, planJob } from "../../../core/plan/index.ts";
import type { Document, Fonts } from "../../../draw/index.ts";
import { answererOf } from "./answers/index.ts";
import type {
  BarResult,
  CardRequest,
  ComputeAnswer,
  ComputeRequest,
  Engine,
  NotchRequest,
  SeenPage,
  SeenPrint,
} from "./protocol.ts";

/**
 * The engine itself: holds the plan of one job, and answers with what an edit changed. Runs as it stands in a test or in the page; `worker.ts` runs it beside the page.
 */
export function sessionWith(fonts: () => Promise<Fonts>): Engine {
  let plan: Plan | undefined;
  let sent: ReadonlyMap<string, BarPlan> = new Map();
  let sentPoints = "";

  /** Cards and their PDF are half of the program's weight and seldom asked for: they come when they are. */
  async function card(request: CardRequest): Promise<Document | undefined> {
    const cards = await import("../../../cards/index.ts");
    const { bar, paper } = request;
    if (!plan) return undefined;
    if (request.card === "print")
      return request.print && cards.printJob(plan, askOf(request.print, request)).document;
    if (request.card === "overview") return cards.overview(plan, paper);
    if (request.card === "order") return request.found && cards.orderSheet(plan, request.found, paper);
    if (request.card === "readings") return cards.readingList(plan, request.document, paper);
    if (request.card === "measuring") return cards.measuringPlan(plan, paper, bar);
    if (request.card === "die")
      return request.die === undefined ? undefined : cards.dieCard(plan, request.die, paper);
    if (bar === undefined) return undefined;
    if (request.card === "bender") return cards.benderCard(plan, bar, paper);
    if (request.card === "notcher") return cards.notcherCard(plan, bar, paper);
    if (request.card === "marks") return cards.markStrip(plan, bar, paper);
    return request.end && cards.wrapCard(plan, bar, request.end, paper);
  }

  let asked = 0;

  /** In steps, so that what else is asked is answered between two of them, and another preview ends this one. */
  async function preview(request: CardRequest): Promise<SeenPrint | undefined> {
    const mine = ++asked;
    const [cards, { toSvg }] = await Promise.all([
      import("../../../cards/index.ts"),
      import("../../../draw/index.ts"),
    ]);
    if (!plan || !request.print) return undefined;
    const steps = cards.printing(plan, askOf(request.print, request));
    let step = steps.next();
    for (; !step.done; step = steps.next()) {
      await breathe();
      if (mine !== asked) return undefined;
    }
    const { document, without, findings } = step.value;
    const pages: SeenPage[] = [];
    for (const sheet of document.sheets) {
      const { name, width, height, isTrueSize = false } = sheet;
      pages.push({ name, width, height, isTrueSize, svg: toSvg(sheet) });
      if (pages.length % 8 === 0) await breathe();
      if (mine !== asked) return undefined;
    }
    return { pages, without, findings };
  }

  return {
    compute({ revision, job }: ComputeRequest): ComputeAnswer {
      const began = performance.now();
      const next = planJob(job, plan);
      const changed = next.bars.filter((bar) => sent.get(bar.id) !== bar).map((bar) => resultOf(bar, next));
      plan = next;
      sent = next.byId;
      const points = placedPoints(next.places);
      const before = sentPoints;
      sentPoints = JSON.stringify(points);
      return {
        ok: true,
        revision,
        order: next.bars.map((bar) => bar.id),
        changed,
        without: withoutGeometry(next),
        mutual: next.mutual,
        dies: [...next.dies],
        ...(sentPoints === before ? {} : { points }),
        took: performance.now() - began,
      };
    },
    notch: ({ bar, end, believed }: NotchRequest): Notch | undefined =>
      plan && notchAt(plan, bar, end, believed),
    card,
    preview,
    async pdf(request) {
      const document = await card(request);
      if (!document || document.sheets.length === 0) return undefined;
      const { toPdf } = await import("../../../draw/index.ts");
      return toPdf(document, await fonts());
    },
    async ask(kind, about) {
      const answerer = await answererOf(kind);
      if (!plan) return undefined;
      const began = performance.now();
      const answer = answerer(plan, about);
      return { answer, took: performance.now() - began };
    },
    close() {},
  };
}

const breathe = (): Promise<void> => new Promise((go) => setTimeout(go));

const askOf = (print: NonNullable<CardRequest["print"]>, { paper, document }: CardRequest): PrintAsk => ({
  ...print,
  paper,
  ...(document === undefined ? {} : { document }),
});

function resultOf({ id, bar, copes, leastBack, bend, findings }: BarPlan, plan: Plan): BarResult {
  const { turnSide } = plan.job.bender;
  const curves = { A: copes.A.cope, B: copes.B.cope };
  const own = fromOwnEnds(bend);
  const points = turnedRound(bar, turnSide);
  return {
    id,
    label: bar.label,
    progress: plan.job.bars[id]?.progress ?? "laid out",
    bar,
    copes: curves,
    leastBack,
    bend,
    turns: turnsOf(bar, turnSide),
    checks: checksAfter(bar, leastBack),
    ...(own && points ? { ownEnds: { ...own, points } } : {}),
    mesh: tubeMesh(bar, curves),
    findings: [...(plan.layout.bars.find((b) => b.id === id)?.findings ?? []), ...findings],
  };
}

const withoutGeometry = (plan: Plan) =>
  Object.entries(plan.job.bars).flatMap(([id, { label }]) =>
    plan.byId.has(id) ? [] : [{ id, label, findings: plan.findings.filter((f) => f.bar === id) }],
  );
