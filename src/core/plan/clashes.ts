// biome-ignore-all lint/style/noNonNullAssertion: at has every bar of the plan, and clashes are between bars of the plan.
import { closestTo } from "../bar/index.ts";
import { bar, type Finding, mm, plate } from "../findings/index.ts";
import {
  apart,
  type Box,
  type Clash,
  clashesOf,
  type Metal,
  metalOf,
  plateClash,
  plateObstacle,
  seatBox,
  selfClashes,
} from "../fit/index.ts";
import { platesUnder } from "../layout/index.ts";
import { extent } from "../tube/index.ts";
import { fitBarOf } from "./fitting.ts";
import type { BarPlan, Plan } from "./plan.ts";

interface Kept {
  readonly metal: Metal;
  readonly box: Box;
  readonly self: readonly Clash[];
  readonly others: WeakMap<BarPlan, readonly Clash[]>;
}

/** A bar's plan is the same object as long as the bar, its ends and its hosts are: so is what was found of it. */
const kept = new WeakMap<BarPlan, Kept>();
const found = new WeakMap<Plan, readonly Finding[]>();

function keptOf(b: BarPlan, plan: Plan): Kept {
  const have = kept.get(b);
  if (have) return have;
  const metal = metalOf(fitBarOf(b, plan));
  const made: Kept = { metal, box: seatBox(metal.solid), self: selfClashes(metal), others: new WeakMap() };
  kept.set(b, made);
  return made;
}

/**
 * Where bars run into each other, into themselves or into plates of a known size, joints apart; one finding a place, by
 * pairs in the job's order. Bars are taken as cut (fit's `clashesOf`). A plate without a size is no danger, as its
 * outline is only taken for want of one. Worked out when first asked for, of what an edit did not touch not again.
 */
export function clashFindings(plan: Plan): readonly Finding[] {
  const have = found.get(plan);
  if (have) return have;
  const at = new Map(plan.bars.map((b, i) => [b, i]));
  const all: { readonly of: number; readonly to: number; readonly finding: Finding }[] = [];
  for (const [a, b] of near(plan)) {
    const [ka, kb] = [keptOf(a, plan), keptOf(b, plan)];
    let clashes = ka.others.get(b);
    if (!clashes) {
      clashes = clashesOf(ka.metal, kb.metal);
      ka.others.set(b, clashes);
    }
    for (const c of clashes) all.push({ of: at.get(a)!, to: at.get(b)!, finding: ofTwo(a, b, c) });
  }
  for (const b of plan.bars)
    for (const c of keptOf(b, plan).self) all.push({ of: at.get(b)!, to: at.get(b)!, finding: ofOne(b, c) });
  all.sort((x, y) => x.of - y.of || x.to - y.to);
  const out = [...all.map((x) => x.finding), ...ofPlates(plan)];
  found.set(plan, out);
  return out;
}

/** Pairs whose boxes meet, the one that comes first in the job first: swept along x. */
function* near(plan: Plan): Iterable<readonly [BarPlan, BarPlan]> {
  const at = new Map(plan.bars.map((b, i) => [b, i]));
  const boxes = plan.bars.map((bar) => ({ bar, box: keptOf(bar, plan).box }));
  boxes.sort((a, b) => a.box.lo[0] - b.box.lo[0]);
  let open: typeof boxes = [];
  for (const next of boxes) {
    open = open.filter((o) => o.box.hi[0] >= next.box.lo[0]);
    for (const o of open) {
      if (apart(o.box, next.box) > 0) continue;
      yield at.get(o.bar)! < at.get(next.bar)! ? [o.bar, next.bar] : [next.bar, o.bar];
    }
    open.push(next);
  }
}

const placeOf = ([x, y, z]: Clash["at"]) => ({ x: mm(x), y: mm(y), z: mm(z) });
const alongOf = ({ bar }: BarPlan, c: Clash) => mm(closestTo(bar.centreline, c.at).s);

const ofTwo = (a: BarPlan, b: BarPlan, c: Clash): Finding => ({
  code: "clash",
  place: `bars.${a.id}`,
  bar: a.id,
  values: {
    bar: bar(a.id),
    other: bar(b.id),
    overlap: mm(c.by),
    ...placeOf(c.at),
    along: alongOf(a, c),
    otherAlong: alongOf(b, c),
  },
});

function ofOne(b: BarPlan, c: Clash): Finding {
  const { centreline, tube } = b.bar;
  const stations = centreline.pieces
    .map((piece) => ({ piece, s: closestTo({ ...centreline, pieces: [piece] }, c.at) }))
    .filter(({ s }) => s.distance < extent(tube))
    .map(({ s }) => s.s);
  return {
    code: "clash-self",
    place: `bars.${b.id}`,
    bar: b.id,
    values: {
      overlap: mm(c.by),
      ...placeOf(c.at),
      first: mm(Math.min(...stations)),
      second: mm(Math.max(...stations)),
    },
  };
}

const ofPlates = (plan: Plan): readonly Finding[] =>
  platesUnder(
    plan.job.plates,
    plan.bars.map((b) => b.bar),
  )
    .filter((p) => p.isSized)
    .flatMap((p) => {
      const slab = plateObstacle(p);
      return plan.bars.flatMap((b) =>
        plateClash(keptOf(b, plan).metal, slab).map(
          (c): Finding => ({
            code: "clash-plate",
            place: `bars.${b.id}`,
            bar: b.id,
            values: {
              bar: bar(b.id),
              plate: plate(p.id),
              overlap: mm(c.by),
              ...placeOf(c.at),
              along: alongOf(b, c),
            },
          }),
        ),
      );
    });
