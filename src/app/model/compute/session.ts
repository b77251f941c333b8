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
    if (request.card === "overview") return cards.overview(plan, paper);
    if (request.card === "order") return request.found && cards.orderSheet(plan, request.found, paper);
    if (request.card === "readings") return cards.readingList(plan, request.document, paper);
    if (request.card === "measuring") return cards.measuringPlan(plan, paper, bar);
    if (bar === undefined) return undefined;
    if (request.card === "bender") return cards.benderCard(plan, bar, paper);
    if (request.card === "notcher") return cards.notcherCard(plan, bar, paper);
    if (request.card === "marks") return cards.markStrip(plan, bar, paper);
    return request.end && cards.wrapCard(plan, bar, request.end, paper);
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
    async pdf(request) {
      const document = await card(request);
      if (!document) return undefined;
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
