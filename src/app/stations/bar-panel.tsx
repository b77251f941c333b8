import { Copy, FlipHorizontal2, Move, Plus, Spline, Trash2 } from "lucide-react";
import { type ReactNode, useMemo, useState } from "react";
import { isDanger, severityOf } from "../../core/findings/index.ts";
import { PROGRESS, type Progress } from "../../core/job/index.ts";
import { isForOthers, say } from "../../words/index.ts";
import { standsIn } from "../compute/index.ts";
import {
  at,
  calledOf,
  changeBar,
  type Dependent,
  dependentsOf,
  duplicateBar,
  freeId,
  idFrom,
  labelWith,
  mirrorBar,
  namesIn,
  otherSide,
  setProgress,
} from "../document/index.ts";
import { Decides } from "../ui/caution.tsx";
import { AskText, Choose, Dialog } from "../ui/dialog.tsx";
import { useActions, useApp } from "../use-app.ts";
import { followBar, unfollow } from "./following.ts";
import { MoveBar } from "./move-bar.tsx";
import { optionsFor } from "./options.ts";
import { SentenceLine } from "./sentence-line.tsx";
import { sentencesOf } from "./sentences.ts";
import { writeIn } from "./write.ts";

type Asks = "name" | "progress" | "delete" | "follow" | "move";

/** The bar in hand: its questions, its sentences, and what can be done with the whole of it. */
export function BarPanel(props: {
  readonly id: string;
  readonly onNew: () => void;
  readonly onWait: (node: number) => void;
  readonly children: ReactNode;
}) {
  const { id } = props;
  const document = useApp((s) => s.job?.document);
  const results = useApp((s) => s.results);
  const show = useApp((s) => s.show);
  const act = useActions();
  const [asks, setAsks] = useState<Asks>();
  const write = useMemo(() => writeIn(show), [show]);
  const sentences = useMemo(() => (document ? sentencesOf(document, id) : []), [document, id]);
  if (!document) return null;
  const label = calledOf(document, "bar", id);
  const isMirror = at(document, ["bars", id, "mirrorOf"]) !== undefined;
  const follows = at(document, ["bars", id, "follow"]) !== undefined;
  const progress = (at(document, ["bars", id, "progress"]) ?? "laid out") as Progress;
  const found = results.bars.get(id)?.findings ?? results.without.find((w) => w.id === id)?.findings ?? [];
  // dangers are over every station, in sight however far this is scrolled
  const findings = found.filter((f) => !isDanger(f));
  const dependents = dependentsOf(document, "bar", id);

  function add(kind: "duplicate" | "mirror"): void {
    if (!document) return;
    const name =
      kind === "mirror" ? (otherSide(label) ?? labelWith(label, "mirrored")) : labelWith(label, "copy");
    const newId = freeId(document, "bar", idFrom(name));
    const done = act.run(kind === "mirror" ? mirrorBar(id, newId, name) : duplicateBar(id, newId, name));
    if (done.ok) act.take(newId);
  }

  return (
    <>
      <header className="panel-head">
        <h2>{label}</h2>
        <div className="row">
          <button type="button" onClick={() => setAsks("name")}>
            Rename
          </button>
          <button type="button" onClick={() => setAsks("progress")}>
            {progress}
          </button>
          <button type="button" onClick={() => act.take(null)}>
            Put it down
          </button>
        </div>
      </header>
      {props.children}
      {findings.length > 0 && (
        <ul className="findings" aria-label="To look at">
          {findings.map((f, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: findings have no other name, and none keeps a state
            <li key={i} className={severityOf(f)}>
              <strong>{severityOf(f)}</strong> {say(f, write, namesIn(document))}
            </li>
          ))}
        </ul>
      )}
      {isForOthers(findings) && <Decides />}
      <section className="sentences" aria-label="Where it runs">
        {sentences.map((s) => (
          <SentenceLine key={s.key} document={document} bar={id} sentence={s} onWait={props.onWait} />
        ))}
      </section>
      <div className="row tools">
        <button type="button" onClick={props.onNew}>
          <Plus aria-hidden /> New bar
        </button>
        <button type="button" onClick={() => add("duplicate")}>
          <Copy aria-hidden /> Duplicate
        </button>
        {!isMirror && (
          <button type="button" onClick={() => add("mirror")}>
            <FlipHorizontal2 aria-hidden /> Mirror
          </button>
        )}
        {!isMirror && (
          <button type="button" onClick={() => setAsks("move")}>
            <Move aria-hidden /> Move
          </button>
        )}
        {!isMirror && (
          <button type="button" onClick={() => setAsks("follow")}>
            <Spline aria-hidden /> {follows ? "Follow no more" : "Follow a bar"}
          </button>
        )}
        <button type="button" onClick={() => (dependents.length > 0 ? setAsks("delete") : act.deleteBar(id))}>
          <Trash2 aria-hidden /> Delete
        </button>
      </div>
      {asks === "name" && (
        <AskText
          title="Rename the bar"
          label="What is it called?"
          as="label"
          value={label}
          done="Rename"
          onClose={() => setAsks(undefined)}
          onDone={(text) => {
            setAsks(undefined);
            act.run(changeBar(id, { label: text }, `${label} renamed ${text}`));
          }}
        />
      )}
      {asks === "progress" && (
        <Choose
          title={`How far has ${label} come?`}
          value={progress}
          options={PROGRESS.map((p) => [p, p])}
          onClose={() => setAsks(undefined)}
          onPick={(p) => {
            setAsks(undefined);
            act.run(setProgress(id, p as Progress));
          }}
        />
      )}
      {asks === "move" && <MoveBar id={id} label={label} onClose={() => setAsks(undefined)} />}
      {asks === "follow" && !follows && (
        <Choose
          title={`${label} follows which bar?`}
          options={optionsFor(document, "followed", id)}
          onClose={() => setAsks(undefined)}
          onPick={(bar) => {
            setAsks(undefined);
            act.run(followBar(document, id, bar, results.bars));
          }}
        />
      )}
      {asks === "follow" && follows && (
        <Dialog title={`${label} follows no more?`} onClose={() => setAsks(undefined)}>
          <p>Its corners stay where they are now, as places of its own.</p>
          <div className="row">
            <button
              type="button"
              className="main"
              onClick={() => {
                setAsks(undefined);
                act.run(unfollow(document, id, standsIn({ byId: results.bars }, id)?.corners ?? []));
              }}
            >
              Let it stand by itself
            </button>
          </div>
        </Dialog>
      )}
      {asks === "delete" && (
        <AskDelete id={id} label={label} dependents={dependents} onClose={() => setAsks(undefined)} />
      )}
    </>
  );
}

function AskDelete(props: {
  readonly id: string;
  readonly label: string;
  readonly dependents: readonly Dependent[];
  readonly onClose: () => void;
}) {
  const document = useApp((s) => s.job?.document);
  const act = useActions();
  const go = (others: "delete" | "leave"): void => {
    props.onClose();
    act.deleteBar(props.id, others);
  };
  return (
    <Dialog title={`Delete ${props.label}?`} onClose={props.onClose}>
      <p>Other bars need it:</p>
      <ul className="needs">
        {props.dependents.map((d) => (
          <li key={`${d.bar} ${d.how}`}>
            <strong>{document ? calledOf(document, "bar", d.bar) : d.bar}</strong> {d.how}
          </li>
        ))}
      </ul>
      <div className="column">
        <button type="button" className="main" onClick={() => go("leave")}>
          Delete it, let the others stand where they are
        </button>
        <button type="button" className="danger" onClick={() => go("delete")}>
          Delete it and all that needs it
        </button>
        <button type="button" onClick={props.onClose}>
          Keep it
        </button>
      </div>
    </Dialog>
  );
}
