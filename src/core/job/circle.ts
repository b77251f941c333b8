// biome-ignore-all lint/style/noNonNullAssertion: every bar of the graph is entered with order, low and rank before it is asked for; the stack is not empty in its loop; a circle in a group comes back to where it began.
import { count, phrase, type Quantity, text } from "../findings/index.ts";
import { type Fault, type Path, problem } from "./problem.ts";
import type { Reference } from "./references.ts";

type Graph = ReadonlyMap<string, readonly string[]>;

/**
 * Groups of bars each of which depends on every other of its group (strongly connected components), of two bars and
 * more. R. Tarjan, SIAM J. Comput. 1 (1972) 146, with its own stack: a chain of landings may be as long as the job.
 */
export function tangles(graph: Graph): readonly (readonly string[])[] {
  const order = new Map<string, number>();
  const low = new Map<string, number>();
  const open: string[] = [];
  const isOpen = new Set<string>();
  const found: (readonly string[])[] = [];
  const enter = (bar: string) => {
    order.set(bar, order.size);
    low.set(bar, order.get(bar)!);
    open.push(bar);
    isOpen.add(bar);
    return { bar, next: 0 };
  };
  for (const root of graph.keys()) {
    if (order.has(root)) continue;
    const work = [enter(root)];
    while (work.length > 0) {
      const step = work.at(-1)!;
      const host = graph.get(step.bar)?.[step.next++];
      if (host !== undefined) {
        if (!order.has(host)) work.push(enter(host));
        else if (isOpen.has(host)) low.set(step.bar, Math.min(low.get(step.bar)!, order.get(host)!));
        continue;
      }
      work.pop();
      const below = work.at(-1);
      if (below) low.set(below.bar, Math.min(low.get(below.bar)!, low.get(step.bar)!));
      if (low.get(step.bar) !== order.get(step.bar)) continue;
      const group = open.splice(open.lastIndexOf(step.bar));
      for (const bar of group) isOpen.delete(bar);
      if (group.length > 1) found.push(group);
    }
  }
  return found;
}

/** The shortest way from a bar back to itself inside its group, as the bars passed, the first one last again. */
function circleFrom(start: string, group: ReadonlySet<string>, graph: Graph): readonly string[] {
  const cameFrom = new Map<string, string>();
  const queue = [start];
  for (let i = 0; i < queue.length; i++) {
    for (const host of graph.get(queue[i]!) ?? []) {
      if (!group.has(host) || cameFrom.has(host)) continue;
      cameFrom.set(host, queue[i]!);
      if (host !== start) queue.push(host);
    }
  }
  const way = [start];
  for (let bar = cameFrom.get(start)!; bar !== start; bar = cameFrom.get(bar)!) way.push(bar);
  return [...way, start].reverse();
}

/** Bars printed of a long circle before and after the gap. */
const SHOWN = 6;

function printed(circle: readonly string[]): Quantity {
  const hidden = circle.length - 2 * SHOWN;
  const arrows = (names: readonly string[]): Quantity =>
    text(names.map((name) => name.replace(/[\p{Cc}\u2028\u2029]/gu, " ").slice(0, 60)).join(" → "));
  if (hidden <= 1) return arrows(circle);
  return phrase("long-circle", {
    first: arrows(circle.slice(0, SHOWN)),
    hidden: count(hidden),
    last: arrows(circle.slice(-SHOWN)),
  });
}

/** A circle of landings, followers and mirrors leaves its bars without a place: one problem a circle. */
export function circleProblems(references: readonly Reference[]): readonly Fault[] {
  const graph = new Map<string, string[]>();
  const said = new Map<string, Map<string, Path>>();
  const alone: Fault[] = [];
  for (const { bar, name, path, link } of references) {
    if (bar === undefined || link === undefined) continue;
    if (name === bar) alone.push(problem(path, "own-host", { link: text(link) }));
    if (!graph.has(bar)) {
      graph.set(bar, []);
      said.set(bar, new Map());
    }
    const paths = said.get(bar)!;
    if (name === bar || paths.has(name)) continue;
    paths.set(name, path);
    graph.get(bar)!.push(name);
  }
  const rank = new Map([...graph.keys()].map((bar, i) => [bar, i]));
  const circles = tangles(graph).map((group) => {
    const first = group.reduce((a, b) => (rank.get(b)! < rank.get(a)! ? b : a));
    const circle = circleFrom(first, new Set(group), graph);
    return problem(said.get(first)!.get(circle[1]!)!, "circle", { circle: printed(circle) });
  });
  return [...alone, ...circles];
}
