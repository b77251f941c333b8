import { ArrowLeft, ArrowRight } from "lucide-react";
import { useState } from "react";
import type { Needs } from "../../core/job/index.ts";
import type { FitWords } from "../../words/index.ts";
import { Choose } from "../ui/dialog.tsx";
import { useActions } from "../use-app.ts";
import { hangBefore, hangOn, setNeeds } from "./commands.ts";
import type { Tag } from "./row.ts";
import { useShowWay } from "./show-way.ts";
import { useLook } from "./use-look.ts";
import { answerSays } from "./words.ts";

const LAST = "\u0000last";
const ROOF: readonly (readonly [string, string, string])[] = [
  ["either", "Roof on or off", "it goes in past whatever stands then"],
  ["body on", "Body on", "it is set by the body, roof and all"],
  ["roof off", "Roof off", "it goes in only with the roof off"],
];

/** The tag of the bar in hand: moved by two big buttons, or hung before another. */
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
    <section className="board-hand" aria-label={`${tag.label}, number ${tag.n} of ${row.length}`}>
      <p>
        <strong>
          {tag.n}. {tag.label}
        </strong>{" "}
        {says.figure === "?" ? says.says : `${says.figure}: ${says.says}`}
        {tag.twin !== undefined && `${says.says.endsWith(".") ? "" : "."} A pair with ${called(tag.twin)}.`}
      </p>
      <div className="board-moves">
        <button
          type="button"
          className="main"
          disabled={tag.n === 1}
          onClick={() => act.run(hangOn(order, tag.id, -1, called))}
        >
          <ArrowLeft aria-hidden /> Earlier
        </button>
        <button
          type="button"
          className="main"
          disabled={tag.n === row.length}
          onClick={() => act.run(hangOn(order, tag.id, 1, called))}
        >
          Later <ArrowRight aria-hidden />
        </button>
        <button type="button" onClick={() => setAsks("before")}>
          Hang before…
        </button>
        <button type="button" onClick={() => setAsks("needs")}>
          {tag.needs === undefined ? "Roof: either" : tag.needs === "body on" ? "Body on" : "Roof off"}
        </button>
        {tag.state === "unseen" && !look.run && !look.isOn && (
          <button type="button" onClick={() => looking.lookAt(tag.id)}>
            Look at this one
          </button>
        )}
        {tag.state !== "unseen" && (tag.judged?.way.length ?? 0) > 1 && (
          <button type="button" onClick={showWay}>
            See its way in
          </button>
        )}
      </div>
      {asks === "before" && (
        <Choose
          title={`Hang ${tag.label} before which bar?`}
          options={[
            ...row.filter((t) => t.id !== tag.id).map((t) => [t.id, `${t.n}. ${t.label}`] as const),
            [LAST, "Last of all"] as const,
          ]}
          onClose={() => setAsks(undefined)}
          onPick={(id) => {
            setAsks(undefined);
            act.run(hangBefore(order, tag.id, id === LAST ? null : id, called));
          }}
        />
      )}
      {asks === "needs" && (
        <Choose
          title={`What must hold while ${tag.label} goes in?`}
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
