import { ChevronLeft, ChevronRight } from "lucide-react";
import { useCallback, useEffect, useMemo, useState } from "react";
import { type Judged, packingOf } from "../../core/fit/index.ts";
import {
  capital,
  comesFrom,
  goesIn,
  HONEST,
  packingSays,
  pastSays,
  TAG_IN_HAND,
  WAY_IN as WAY,
} from "../../words/index.ts";
import { View } from "../cage/index.ts";
import { Decides, parts, TakeOne, writeIn } from "../kit/index.ts";
import type { BarResult, Results } from "../model/compute/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import type { Tag } from "./row.ts";
import { answerSays, hasForce } from "./says.ts";
import { StateLine } from "./state-line.tsx";
import { useFitWords } from "./use-fit-words.ts";
import { useLook } from "./use-look.ts";
import { closestOn, moveFrom, poseAt, scrubOf, standFor, stopFrom } from "./way.ts";
import styles from "./way-in.module.css";

/** How the bar in hand goes in: its way, to be gone along step by step, seen from where the fitter stands. */
export function WayIn() {
  const id = useApp((s) => s.inHand);
  const result = useApp((s) => (id === null ? undefined : s.results.bars.get(id)));
  const [{ row, run }, looking] = useLook();
  const words = useFitWords();
  const tag = row.find((t) => t.id === id);
  if (id === null || !result || !tag) return <TakeOne question={WAY.which} next={["notched", "laid out"]} />;
  const says = answerSays(tag, words);
  const judged = tag.state === "unseen" ? undefined : tag.judged;
  if (judged && judged.way.length > 1) return <Scrubbed key={id} tag={tag} result={result} judged={judged} />;
  return (
    <div className={styles.none}>
      <h2>{TAG_IN_HAND.numbered(tag.n, tag.label)}</h2>
      <p>
        <StateLine state={tag.state} /> {judged ? goesIn(judged, words) : says.says}
      </p>
      {judged && <p>{says.says}</p>}
      {judged && says.reasons.map((reason) => <p key={reason}>{reason}</p>)}
      {tag.state === "unseen" && (
        <button
          type="button"
          className={parts.main}
          disabled={run !== undefined}
          onClick={() => looking.lookAt(id)}
        >
          {run ? WAY.checking : WAY.check}
        </button>
      )}
      <p className={parts.quiet}>{HONEST}</p>
      <Decides force={hasForce([tag])} />
    </div>
  );
}

function Scrubbed({
  tag,
  result,
  judged,
}: {
  readonly tag: Tag;
  readonly result: BarResult;
  readonly judged: Judged;
}) {
  const act = useActions();
  const job = useApp((s) => (s.job?.read.ok ? s.job.read.job : undefined));
  const results = useApp((s) => s.results);
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const words = useFitWords();
  const scrub = useMemo(() => scrubOf(judged.way, result), [judged, result]);
  const [at, setAt] = useState(0);
  const closest = useMemo(
    () =>
      closestOn(scrub, result, judged.nearest === undefined ? undefined : results.bars.get(judged.nearest)),
    [scrub, result, judged, results],
  );
  const step = useCallback((by: -1 | 1) => setAt((now) => stopFrom(scrub, now, by)), [scrub]);
  useArrows(step);
  const stage = useStage(
    tag.id,
    result,
    judged,
    scrub,
    at,
    results,
    job?.body.openings?.[judged.through[0] ?? ""],
  );
  const left = scrub.total - at;
  const move = moveFrom(scrub, at);
  const packing = useMemo(
    () => packingSays(packingOf(fitBarOf(result, results)), words),
    [result, results, words],
  );
  const isSeated = left < 0.05;
  const turn = move.turn > 1 ? write.angle(move.turn) : undefined;
  return (
    <div className={styles.way}>
      <section className={styles.view} aria-label={WAY.view}>
        <View
          results={results}
          job={job}
          inHand={tag.id}
          onTap={(id) => id !== null && act.take(id)}
          label={WAY.picture(tag.label, write.length(left))}
          unit={show.length}
          write={write.length}
          stage={stage}
          small
        />
      </section>
      <section className={styles.panel} aria-label={WAY.panel}>
        <h2>
          {TAG_IN_HAND.numbered(tag.n, tag.label)} <StateLine state={tag.state} /> {goesIn(judged, words)}
        </h2>
        <p className={styles.now} aria-live="polite">
          {isSeated ? WAY.isSeated : move.go === "" ? WAY.turn(turn) : WAY.go(capital(move.go), turn)}
          <strong>{isSeated ? "" : ` ${WAY.toGo(write.length(left))}`}</strong>
        </p>
        <input
          type="range"
          min={0}
          max={1000}
          value={Math.round((at / scrub.total) * 1000)}
          aria-label={WAY.slider}
          aria-valuetext={isSeated ? WAY.seated : WAY.toGo(write.length(left))}
          onChange={(event) => setAt((Number(event.target.value) / 1000) * scrub.total)}
        />
        <div className={styles.steps}>
          <button type="button" disabled={at <= 0} onClick={() => step(-1)}>
            <ChevronLeft aria-hidden /> {WAY.back}
          </button>
          <button type="button" className={parts.main} disabled={isSeated} onClick={() => step(1)}>
            {WAY.on} <ChevronRight aria-hidden />
          </button>
        </div>
        <ul className={styles.says}>
          <li>
            {WAY.comes(comesFrom(judged), judged.through)} {WAY.seen}
          </li>
          {judged.clearance !== undefined &&
            judged.nearest !== undefined &&
            Number.isFinite(judged.clearance) && (
              <li>
                {WAY.closest(write.fine(judged.clearance), words.called(judged.nearest))}
                {closest !== undefined && (
                  <button type="button" onClick={() => setAt(closest)}>
                    {WAY.showClosest}
                  </button>
                )}
              </li>
            )}
          {pastSays(judged, words).map((past) => (
            <li key={past}>{past}</li>
          ))}
          {answerSays(tag, words).reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
          {packing && <li>{packing}</li>}
        </ul>
        <p className={parts.quiet}>{HONEST}</p>
        <Decides force={hasForce([tag])} />
      </section>
    </div>
  );
}

/** The moment for the picture; the first one, by which it is fitted, is the bar outside. */
function useStage(
  id: string,
  result: BarResult,
  judged: Judged,
  scrub: ReturnType<typeof scrubOf>,
  at: number,
  results: Results,
  opening: Parameters<typeof standFor>[1],
) {
  const still = useMemo(() => {
    const isIn = new Set([...judged.after, id]);
    const hidden = new Set([...results.bars.keys()].filter((b) => !isIn.has(b)));
    const centre = scrub.marks[1];
    return { hidden, from: standFor(judged, opening, centre) };
  }, [id, judged, scrub, results, opening]);
  return useMemo(() => {
    const about = result.bar.centreline.start;
    const moment = (mm: number) => {
      const { at: shift, turn } = poseAt(scrub, mm);
      return { posed: { id, at: shift, turn, about }, hidden: still.hidden };
    };
    return { now: moment(at), first: moment(0), from: still.from };
  }, [id, result, scrub, at, still]);
}

const fitBarOf = ({ bar }: BarResult, results: Results): Parameters<typeof packingOf>[0] => {
  const hosts = (end: "A" | "B") => {
    const seat = bar.seat[end];
    return seat.kind === "on" ? seat.hosts.flatMap((h) => results.bars.get(h)?.bar ?? []) : [];
  };
  return { bar, hosts: { A: hosts("A"), B: hosts("B") } };
};

/** The arrow keys go along the way, wherever the focus is, but in a picture or a field that has its own use for them. */
function useArrows(step: (by: -1 | 1) => void): void {
  useEffect(() => {
    function onKey(event: KeyboardEvent): void {
      if (event.altKey || event.ctrlKey || event.metaKey || document.querySelector("dialog[open]")) return;
      if (event.target instanceof HTMLElement && event.target.matches("input, canvas, textarea")) return;
      if (event.key !== "ArrowRight" && event.key !== "ArrowLeft") return;
      step(event.key === "ArrowRight" ? 1 : -1);
      event.preventDefault();
    }
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, [step]);
}
