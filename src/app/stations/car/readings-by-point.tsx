import { BY_POINT, type Fits, pointWords, READING_LIST } from "../../../words/index.ts";
import { classes, parts } from "../../kit/index.ts";
import { at, calledOf, type JobDocument, type Json } from "../../model/document/index.ts";
import { draftOf, pointIds, ReadingList } from "../../readings/index.ts";
import styles from "./readings-by-point.module.css";

const READINGS = ["readings"] as const;

/** The readings of one point, by their places in the job's list. */
interface Group {
  readonly key: string;
  readonly name: string;
  readonly counted: readonly number[];
  readonly struck: readonly number[];
  readonly last: number;
}

/**
 * Readings by the point that they are of, the newest first: those of the point in hand are open, the rest is folded, and
 * so is what was struck.
 */
export function ReadingsByPoint(props: {
  readonly document: JobDocument;
  readonly inHand: string | undefined;
  readonly fits: ReadonlyMap<number, Fits>;
  readonly unknown: string;
}) {
  const { document, fits } = props;
  const groups = groupsOf(document);
  const first = groups.find((g) => g.key === `point ${props.inHand ?? ""}`) ?? groups[0];
  if (!first) return <p className={classes(parts.quiet, styles.none)}>{READING_LIST.none}</p>;
  const rest = groups.filter((g) => g !== first);
  const list = (group: Group) => (
    <Readings group={group} document={document} fits={fits} unknown={props.unknown} />
  );
  return (
    <>
      <h3 className={styles.head}>{summary(first, fits)}</h3>
      {list(first)}
      {rest.length > 0 && (
        <details className={styles.fold}>
          <summary>
            {BY_POINT.earlier(
              rest.length,
              rest.reduce((n, g) => n + g.counted.length + g.struck.length, 0),
            )}
          </summary>
          {rest.map((group) => (
            <details key={group.key} className={styles.fold}>
              <summary>{summary(group, fits)}</summary>
              {list(group)}
            </details>
          ))}
        </details>
      )}
    </>
  );
}

function Readings(props: {
  readonly group: Group;
  readonly document: JobDocument;
  readonly fits: ReadonlyMap<number, Fits>;
  readonly unknown: string;
}) {
  const { group, document, fits, unknown } = props;
  const some = (only: readonly number[], label: string) => (
    <ReadingList
      document={document}
      path={READINGS}
      only={only}
      label={label}
      fits={fits}
      unknown={unknown}
    />
  );
  return (
    <>
      {group.counted.length > 0 && some(group.counted, `${BY_POINT.list}: ${group.name}`)}
      {group.struck.length > 0 && (
        <details className={styles.fold}>
          <summary>{BY_POINT.struck(group.struck.length)}</summary>
          {some(group.struck, `${BY_POINT.struck(group.struck.length)}: ${group.name}`)}
        </details>
      )}
    </>
  );
}

/** "Sill left: 4 readings", and whether any of them does not fit. */
function summary({ name, counted }: Group, fits: ReadonlyMap<number, Fits>) {
  const off = counted.filter((i) => fits.get(i)?.ok === false).length;
  return (
    <span>
      {BY_POINT.group(name, counted.length)}
      {off > 0 && <strong className={styles.off}> ⚠ {BY_POINT.off(off)}</strong>}
    </span>
  );
}

/** A tape between two points is of the one that came later: it is read from what was there. */
function groupsOf(document: JobDocument): readonly Group[] {
  const order = new Map(pointIds(document).map((id, i) => [id, i]));
  const list = at(document, READINGS);
  const groups = new Map<string, { name: string; counted: number[]; struck: number[]; last: number }>();
  for (const [i, reading] of (Array.isArray(list) ? (list as readonly Json[]) : []).entries()) {
    const { key, name } = keyOf(reading, order, document);
    const group = groups.get(key) ?? { name, counted: [], struck: [], last: i };
    (at(reading, ["struck"]) === true ? group.struck : group.counted).push(i);
    group.last = i;
    groups.set(key, group);
  }
  return [...groups].map(([key, group]) => ({ key, ...group })).sort((a, b) => b.last - a.last);
}

function keyOf(
  reading: Json,
  order: ReadonlyMap<string, number>,
  document: JobDocument,
): { readonly key: string; readonly name: string } {
  const ends = draftOf(reading)?.ends ?? [];
  const points = ends.flatMap((e) => (e?.is === "point" ? [e.id] : []));
  const [latest] = points.sort((a, b) => (order.get(b) ?? -1) - (order.get(a) ?? -1));
  if (latest !== undefined) return { key: `point ${latest}`, name: pointWords(latest) };
  const bar = ends.find((e) => e !== undefined && e.is !== "point");
  return bar && bar.is !== "point"
    ? { key: `bar ${bar.bar}`, name: calledOf(document, "bar", bar.bar) }
    : { key: "shell", name: BY_POINT.shell };
}
