import {
  Copy,
  FlipHorizontal2,
  Move,
  Plus,
  RotateCcw,
  SlidersHorizontal,
  Spline,
  Trash2,
} from "lucide-react";
import { type ReactNode, Suspense, useMemo, useState } from "react";
import { concerns, isDanger, isError, severityOf } from "../../core/findings/index.ts";
import { PROGRESS, type Progress } from "../../core/job/index.ts";
import { nearlyInLine } from "../../core/layout/index.ts";
import { BAR_PANEL, BAR_SHEET, COME_TO, isForOthers, MAKE_AGAIN, needs, say } from "../../words/index.ts";
import { AskText, Choose, Decides, Dialog, parts, writeIn } from "../kit/index.ts";
import { standsIn } from "../model/compute/index.ts";
import {
  at,
  calledOf,
  changeBar,
  comeTo,
  type Dependent,
  dependentsOf,
  duplicateBar,
  freeId,
  idFrom,
  labelWith,
  mirrorBar,
  namesIn,
  otherSide,
} from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import { Fields, fieldsOf, LeadsOf, useEdit } from "../things/index.ts";
import styles from "./bar-editor.module.css";
import { followBar, unfollow } from "./following.ts";
import { MoveBar } from "./move-bar.tsx";
import { optionsFor } from "./options.ts";
import { SentenceLine } from "./sentence-line.tsx";
import { sentencesOf } from "./sentences.ts";

const END_CHOICES = (["A", "B"] as const).map((end) => [end, COME_TO.notched(end)] as const);

type Asks = "more" | "name" | "progress" | "delete" | "follow" | "move";

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
  const edit = useEdit();
  const write = useMemo(() => writeIn(show), [show]);
  const sentences = useMemo(() => (document ? sentencesOf(document, id) : []), [document, id]);
  const lined = useMemo(() => nearlyInLine([...results.bars.values()].map(({ bar }) => bar)), [results.bars]);
  if (!document) return null;
  const label = calledOf(document, "bar", id);
  const isMirror = at(document, ["bars", id, "mirrorOf"]) !== undefined;
  const follows = at(document, ["bars", id, "follow"]) !== undefined;
  const { progress, notched } = comeTo(document, id);
  const isLoose = PROGRESS.indexOf(progress) < PROGRESS.indexOf("notched");
  const isMade = progress !== "laid out";
  const found = results.bars.get(id)?.findings ?? results.without.find((w) => w.id === id)?.findings ?? [];
  // dangers are over every station, in sight however far this is scrolled
  const findings = [...found, ...lined.filter((f) => concerns(f, id))].filter((f) => !isDanger(f));
  const dependents = dependentsOf(document, "bar", id);

  function add(kind: "duplicate" | "mirror"): void {
    if (!document) return;
    const name =
      kind === "mirror"
        ? (otherSide(label) ?? labelWith(label, BAR_PANEL.mirrored))
        : labelWith(label, BAR_PANEL.copy);
    const newId = freeId(document, "bar", idFrom(name));
    const done = act.run(kind === "mirror" ? mirrorBar(id, newId, name) : duplicateBar(id, newId, name));
    if (done.ok) act.take(newId);
  }

  return (
    <>
      <header className={parts.panelHead}>
        <h2>{label}</h2>
      </header>
      {props.children}
      <div className={parts.row}>
        <button type="button" onClick={() => setAsks("name")}>
          {BAR_PANEL.rename}
        </button>
        <button type="button" onClick={() => setAsks("progress")}>
          {COME_TO.step(progress, notched)}
        </button>
        <button type="button" onClick={() => act.take(null)}>
          {BAR_PANEL.deselect}
        </button>
      </div>
      {findings.length > 0 && (
        <ul className={parts.findings} aria-label={BAR_PANEL.findings}>
          {findings.map((f, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: findings have no other name, and none keeps a state
            <li key={i} className={isError(f) ? parts.error : undefined}>
              <strong>{severityOf(f)}</strong> {say(f, write, namesIn(document))}
            </li>
          ))}
        </ul>
      )}
      <Suspense fallback={null}>
        <LeadsOf findings={findings} />
      </Suspense>
      {isForOthers(findings) && <Decides />}
      <section className={parts.sentences} aria-label={BAR_PANEL.path}>
        {sentences.map((s) => (
          <SentenceLine key={s.key} document={document} bar={id} sentence={s} onWait={props.onWait} />
        ))}
      </section>
      <div className={parts.row}>
        <button type="button" onClick={props.onNew}>
          <Plus aria-hidden /> {BAR_PANEL.create}
        </button>
        <button type="button" onClick={() => add("duplicate")}>
          <Copy aria-hidden /> {BAR_PANEL.duplicate}
        </button>
        {!isMirror && (
          <button type="button" onClick={() => add("mirror")}>
            <FlipHorizontal2 aria-hidden /> {BAR_PANEL.mirror}
          </button>
        )}
        {!isMirror && (
          <button type="button" onClick={() => setAsks("move")}>
            <Move aria-hidden /> {BAR_PANEL.move}
          </button>
        )}
        {!isMirror && (
          <button type="button" onClick={() => setAsks("follow")}>
            <Spline aria-hidden /> {follows ? BAR_PANEL.unfollow : BAR_PANEL.follow}
          </button>
        )}
        <button type="button" onClick={() => setAsks("more")}>
          <SlidersHorizontal aria-hidden /> {BAR_SHEET.button}
        </button>
        {isMade && (
          <button type="button" onClick={() => act.makeAgain(id)}>
            <RotateCcw aria-hidden /> {MAKE_AGAIN.button}
          </button>
        )}
        <button type="button" onClick={() => (dependents.length > 0 ? setAsks("delete") : act.deleteBar(id))}>
          <Trash2 aria-hidden /> {BAR_PANEL.remove}
        </button>
      </div>
      {asks === "name" && (
        <AskText
          title={BAR_PANEL.renameTitle}
          label={BAR_PANEL.nameLabel}
          as="label"
          value={label}
          done={BAR_PANEL.rename}
          onClose={() => setAsks(undefined)}
          onDone={(text) => {
            setAsks(undefined);
            act.run(changeBar(id, { label: text }, BAR_PANEL.renamed(label, text)));
          }}
        />
      )}
      {asks === "progress" && (
        <Choose
          title={BAR_PANEL.progress(label)}
          value={progress}
          options={PROGRESS.flatMap((p) => [
            ...(p === "notched" ? END_CHOICES.filter(([end]) => isLoose && end !== notched) : []),
            [p, p] as const,
          ])}
          onClose={() => setAsks(undefined)}
          onPick={(p) => {
            setAsks(undefined);
            if (p === "A" || p === "B") {
              act.markStep(id, { notched: p });
              return;
            }
            const to = p as Progress;
            if (to === "laid out" || PROGRESS.indexOf(to) < PROGRESS.indexOf(progress)) act.stepBack(id, to);
            else act.markStep(id, to);
          }}
        />
      )}
      {asks === "more" && edit && (
        <Dialog title={BAR_SHEET.title(label)} onClose={() => setAsks(undefined)} wide>
          <Fields edit={edit} fields={fieldsOf(document, "bar", id)} name={label} />
        </Dialog>
      )}
      {asks === "move" && <MoveBar id={id} label={label} onClose={() => setAsks(undefined)} />}
      {asks === "follow" && !follows && (
        <Choose
          title={BAR_PANEL.followsWhich(label)}
          options={optionsFor(document, "followed", id)}
          onClose={() => setAsks(undefined)}
          onPick={(bar) => {
            setAsks(undefined);
            act.run(followBar(document, id, bar, results.bars));
          }}
        />
      )}
      {asks === "follow" && follows && (
        <Dialog title={BAR_PANEL.unfollowTitle(label)} onClose={() => setAsks(undefined)}>
          <p>{BAR_PANEL.unfollowMore}</p>
          <div className={parts.row}>
            <button
              type="button"
              className={parts.main}
              onClick={() => {
                setAsks(undefined);
                act.run(unfollow(document, id, standsIn({ byId: results.bars }, id)?.corners ?? []));
              }}
            >
              {BAR_PANEL.unfollow}
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
    <Dialog title={BAR_PANEL.deleteTitle(props.label)} onClose={props.onClose}>
      <p>{BAR_PANEL.needed}</p>
      <ul className={styles.needs}>
        {props.dependents.map((d) => (
          <li key={`${d.bar} ${d.how}`}>
            <strong>{document ? calledOf(document, "bar", d.bar) : d.bar}</strong> {needs(d.how)}
          </li>
        ))}
      </ul>
      <div className={parts.column}>
        <button type="button" className={parts.main} onClick={() => go("leave")}>
          {BAR_PANEL.deleteLeave}
        </button>
        <button type="button" className={parts.danger} onClick={() => go("delete")}>
          {BAR_PANEL.deleteAll}
        </button>
        <button type="button" onClick={props.onClose}>
          {BAR_PANEL.cancel}
        </button>
      </div>
    </Dialog>
  );
}
