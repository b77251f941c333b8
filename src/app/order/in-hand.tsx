import { ArrowLeft, ArrowRight } from "lucide-react";
import { useState } from "react";
import type { Needs } from "../../core/job/index.ts";
import type { FitWords } from "../../words/index.ts";
import { TAG_IN_HAND as HAND } from "../../words/index.ts";
import { Choose, parts } from "../kit/index.ts";
import { useActions } from "../model/state/index.ts";
import { moveBefore, moveOne, setNeeds } from "./commands.ts";
import styles from "./in-hand.module.css";
import type { Tag } from "./row.ts";
import { answerSays } from "./says.ts";
import { useShowWay } from "./show-way.ts";
import { useLook } from "./use-look.ts";

const LAST = "\u0000last";
const ROOF = (["either", "body on", "roof off"] as const).map(
  (needs) => [needs, HAND.roof[needs], HAND.roofIs[needs]] as const,
);

/** The tag of the bar in hand: moved by two big buttons, or before another. */
export function InHand(props: { readonly tag: Tag; readonly row: readonly Tag[]; readonly words: FitWords }) {
  const { tag, row, words } = props;
  const act = useActions();
  const [look, looking] = useLook();
  const showWay = useShowWay();
  const [asks, setAsks] = useState<"before" | "needs">();
  const order = row.map((t) => t.id);
  const says = answerSays(tag, words);
  const { called } = words;
  return (
    <section className={styles.hand} aria-label={HAND.label(tag.label, tag.n, row.length)}>
      <p>
        <strong>{HAND.numbered(tag.n, tag.label)}</strong>{" "}
        {says.figure === "?" ? says.says : `${says.figure}: ${says.says}`}
        {tag.twin !== undefined && `${says.says.endsWith(".") ? "" : "."}${HAND.twin(called(tag.twin))}`}
      </p>
      <div className={styles.moves}>
        <button
          type="button"
          className={parts.main}
          disabled={tag.n === 1}
          onClick={() => act.run(moveOne(order, tag.id, -1, called))}
        >
          <ArrowLeft aria-hidden /> {HAND.earlier}
        </button>
        <button
          type="button"
          className={parts.main}
          disabled={tag.n === row.length}
          onClick={() => act.run(moveOne(order, tag.id, 1, called))}
        >
          {HAND.later} <ArrowRight aria-hidden />
        </button>
        <button type="button" onClick={() => setAsks("before")}>
          {HAND.before}
        </button>
        <button type="button" onClick={() => setAsks("needs")}>
          {HAND.roof[tag.needs ?? "either"]}
        </button>
        {tag.state === "unseen" && !look.run && !look.isOn && (
          <button type="button" onClick={() => looking.lookAt(tag.id)}>
            {HAND.check}
          </button>
        )}
        {tag.state !== "unseen" && (tag.judged?.way.length ?? 0) > 1 && (
          <button type="button" onClick={showWay}>
            {HAND.showWay}
          </button>
        )}
      </div>
      {asks === "before" && (
        <Choose
          title={HAND.place(tag.label)}
          options={[
            ...row.filter((t) => t.id !== tag.id).map((t) => [t.id, HAND.beforeBar(t.n, t.label)] as const),
            [LAST, HAND.last] as const,
          ]}
          onClose={() => setAsks(undefined)}
          onPick={(id) => {
            setAsks(undefined);
            act.run(moveBefore(order, tag.id, id === LAST ? null : id, called));
          }}
        />
      )}
      {asks === "needs" && (
        <Choose
          title={HAND.roofTitle(tag.label)}
          value={tag.needs ?? "either"}
          options={ROOF}
          onClose={() => setAsks(undefined)}
          onPick={(id) => {
            setAsks(undefined);
            act.run(setNeeds(tag.id, id === "either" ? undefined : (id as Needs), tag.label));
          }}
        />
      )}
    </section>
  );
}
