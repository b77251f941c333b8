import { placeAt } from "../../../core/bar/index.ts";
import { PROGRESS } from "../../../core/job/index.ts";
import { capital, RAIL_SORTS } from "../../../words/index.ts";
import { type BarResult, hostsOf, type Results } from "../../model/compute/index.ts";
import { calledOf, type JobDocument } from "../../model/document/index.ts";
import { inJobOrder, orderOf } from "../../order/index.ts";
import { isFound } from "./find.ts";
import type { Sort } from "./rail-state.ts";
import type { BarRow } from "./rows.ts";

/** Bars under one heading, or under none. */
export interface Group {
  readonly title?: string;
  readonly rows: readonly BarRow[];
}

interface About {
  readonly document: JobDocument;
  readonly results: Results;
}

/** The bars as asked for. While one searches, those found by their own name or ID come before those found by a host's. */
export function arranged(rows: readonly BarRow[], sort: Sort, find: string, about: About): readonly Group[] {
  if (find.trim() === "") return SORTED_BY[sort](rows, about);
  const all = SORTED_BY[sort](rows, about).flatMap((group) => group.rows);
  const own = all.filter((row) => isFound(find, [row.label, row.id]));
  const hosts = all.filter((row) => !own.includes(row) && isFound(find, named(row, about)));
  return [{ rows: own }, { title: RAIL_SORTS.groups.byHost, rows: hosts }].filter(
    ({ rows: r }) => r.length > 0,
  );
}

/** What a bar is called, and what it lands on. */
function named({ id, label }: BarRow, { document, results }: About): readonly string[] {
  const hosts = hostsOf(results.bars.get(id));
  return [label, id, ...hosts.flatMap((host) => [host, calledOf(document, "bar", host)])];
}

const SORTED_BY: Readonly<Record<Sort, (rows: readonly BarRow[], about: About) => readonly Group[]>> = {
  job: (rows) => [{ rows }],
  order(rows, { document, results }) {
    const place = new Map(orderOf(document, results.bars).map((id, i) => [id, i]));
    return [{ rows: [...rows].sort((a, b) => (place.get(a.id) ?? 0) - (place.get(b.id) ?? 0)) }];
  },
  progress: (rows) =>
    PROGRESS.map((step) => ({
      title: capital(step),
      rows: rows.filter((row) => row.progress === step),
    })).filter((group) => group.rows.length > 0),
  place: byPlace,
};

/** What the order of fitting leaves to be told: that the job has none, or leaves bars out. */
export function sayOrder({ document, results }: About): string | undefined {
  const given = inJobOrder(document);
  const left = results.bars.size + results.without.length - given.length;
  return given.length === 0 ? RAIL_SORTS.notInJob : left > 0 ? RAIL_SORTS.partInJob(left) : undefined;
}

/** Middles nearer to the centre plane than this lie in it (mm): a bar that was read a little off is still no left one. */
const CENTRE = 20;
/** Middles less than this apart are at one height (mm). */
const LEVEL = 1;

type Place = readonly [x: number, y: number, z: number];

/** Front, middle and rear are thirds of the length of the cage; in each left, centre, right, and there low to high. */
function byPlace(rows: readonly BarRow[], { results }: About): readonly Group[] {
  const middles = new Map<BarRow, Place>();
  for (const row of rows) {
    const result = results.bars.get(row.id);
    if (result) middles.set(row, middleOf(result));
  }
  const ends = [...results.bars.values()].flatMap(({ bar: { centreline: c } }) => [c.start[0], c.finish[0]]);
  const [rear, front] = [Math.min(...ends), Math.max(...ends)];
  const third = ([x]: Place): "front" | "middle" | "rear" => {
    const share = front > rear ? (front - x) / (front - rear) : 0.5;
    return share < 1 / 3 ? "front" : share <= 2 / 3 ? "middle" : "rear";
  };
  const titles = RAIL_SORTS.groups;
  return [
    ...(["front", "middle", "rear"] as const).map((part) => ({
      title: titles[part],
      rows: [...middles]
        .filter(([, at]) => third(at) === part)
        .sort(([, a], [, b]) => across(a) - across(b) || level(a, b) || b[0] - a[0])
        .map(([row]) => row),
    })),
    { title: titles.without, rows: rows.filter((row) => !middles.has(row)) },
  ].filter((group) => group.rows.length > 0);
}

const middleOf = ({ bar: { centreline } }: BarResult): Place => placeAt(centreline, centreline.length / 2).at;
/** Left before the centre plane before right; y is to the left. */
const across = ([, y]: Place): number => (Math.abs(y) < CENTRE ? 0 : -Math.sign(y));
const level = (a: Place, b: Place): number => {
  const [low, high] = [Math.round(a[2] / LEVEL), Math.round(b[2] / LEVEL)];
  return low - high;
};
