import { type ReactNode, useMemo, useState } from "react";
import { checksAfter } from "../../../core/bend/index.ts";
import { type AsMade, isOnTube, onTube } from "../../../core/plan/index.ts";
import { extent, sizeOf } from "../../../core/tube/index.ts";
import {
  AS_MADE,
  BENDER_PICTURES,
  bentLines,
  COMPUTING,
  LEAD,
  BENDER_PAGE as PAGE,
  PAPERS,
  PRINT_OR_SAVE,
  sawnLines,
} from "../../../words/index.ts";
import { Caution, Dialog, HandOut, issuing, parts, Stage, TakeOne, writeIn } from "../../kit/index.ts";
import { MadeNotes, MakeAgain, otherCard, Record, RecordPage, useMade } from "../../made/index.ts";
import type { BarResult } from "../../model/compute/index.ts";
import { at } from "../../model/document/index.ts";
import { goToPage, useActions, useApp, useAppItself } from "../../model/state/index.ts";
import { benderSteps, cautionedSteps } from "./bender-steps.ts";
import { CheckList } from "./check-list.tsx";
import { type InDie, inDie } from "./in-die.ts";
import { InDiePicture } from "./in-die-picture.tsx";
import { MarksPicture } from "./marks-picture.tsx";
import { TurnPicture } from "./turn-picture.tsx";

/** Where do I mark, how far do I turn, how far do I bend? */
export function Bender() {
  const app = useAppItself();
  const { computer } = app;
  const issue = issuing(app);
  const id = useApp((s) => s.inHand);
  const result = useApp((s) => (id === null ? undefined : s.results.bars.get(id)));
  const show = useApp((s) => s.show);
  const [prints, setPrints] = useState(false);
  const write = useMemo(() => writeIn(show), [show]);
  const known = useMade(result);
  if (id === null || !result) return <TakeOne question={PAGE.which} next={["sawn", "laid out"]} />;
  if (!known) return <p className={parts.wait}>{COMPUTING}</p>;
  const { made } = known;
  const bent = result.bend.bends.length > 0;
  const head = (
    <header className={parts.stageHead}>
      <h2>{result.label}</h2>
      <p>
        {PAGE.size(
          write.size(extent(result.bar.tube)),
          write.fine(sizeOf(result.bar.tube).wall),
          result.bar.dieId,
        )}
      </p>
      <button type="button" onClick={() => setPrints(true)}>
        {PRINT_OR_SAVE}
      </button>
      {made && <MakeAgain id={id} />}
      <MadeNotes known={known} trim={result.bend.trim} write={write} />
    </header>
  );
  const isDone = made !== undefined && (!bent || made.bent !== undefined);

  return (
    <>
      {isDone ? (
        <DoneHere made={made} write={write} head={head} />
      ) : (
        <Steps id={id} result={made ? onThis(result, made) : result} made={made} write={write} head={head} />
      )}
      {prints && (
        <Dialog title={PRINT_OR_SAVE} onClose={() => setPrints(false)}>
          <HandOut
            computer={computer}
            onMore={() => goToPage("print")}
            issue={issue}
            cards={[
              {
                says: bent ? PAPERS.benderCard : PAPERS.sawCard,
                name: `${id}-bender-card`,
                request: { card: "bender", bar: id },
              },
              ...(bent && !made?.bent
                ? [
                    {
                      says: PAPERS.markStrip,
                      name: `${id}-marks`,
                      request: { card: "marks", bar: id } as const,
                    },
                  ]
                : []),
            ]}
          />
        </Dialog>
      )}
    </>
  );
}

type Write = ReturnType<typeof writeIn>;

/** Sawn, and bent where it has bends: what that was made to. */
function DoneHere(props: { readonly made: AsMade; readonly write: Write; readonly head: ReactNode }) {
  const { made, write, head } = props;
  const act = useActions();
  const { bent } = made;
  return (
    <RecordPage
      head={head}
      says={(bent ? AS_MADE.head.bent : AS_MADE.head.sawn)(write.length(made.sawn.made.length))}
      foot={
        <button type="button" className={parts.main} onClick={() => act.goTo(bent ? "trestles" : "notcher")}>
          {bent ? PAGE.toTrestles : PAGE.toNotcher}
        </button>
      }
    >
      <Sawn made={made} write={write} />
      {bent && (
        <Record
          heading={AS_MADE.heading.bent}
          lines={bentLines(bent, write)}
          card={otherCard(bent.made.card, made.card)}
          note={bent.made.bends.length > 1 ? AS_MADE.turns : undefined}
        />
      )}
    </RecordPage>
  );
}

const Sawn = ({ made, write }: { readonly made: AsMade; readonly write: Write }) => (
  <Record
    heading={AS_MADE.heading.sawn}
    lines={sawnLines(made.sawn, write)}
    card={otherCard(made.sawn.made.card, made.card)}
  />
);

/** Marks and checks from the sawn ends as they are. */
function onThis(result: BarResult, made: AsMade): BarResult {
  if (!isOnTube(made)) return result;
  const there = onTube(result, made);
  return { ...there, checks: checksAfter(there.bar, there.leastBack) };
}

/** What is still to be done: of a bar that is sawn, the bends. */
function Steps(props: {
  readonly id: string;
  readonly result: BarResult;
  readonly made: AsMade | undefined;
  readonly write: Write;
  readonly head: ReactNode;
}) {
  const { id, result, made, write, head } = props;
  const app = useAppItself();
  const issue = issuing(app);
  const act = useActions();
  const document = useApp((s) => s.job?.document);
  const done = useApp((s) => s.steps);
  const turnSide = document && at(document, ["bender", "turnSide"]) === "right" ? "right" : "left";
  const all = useMemo(() => benderSteps(result, turnSide, write), [result, turnSide, write]);
  const key = `bender ${id}`;
  // a bar that is sawn begins with its marks
  const skip = made ? 1 : 0;
  const steps = all.slice(skip);
  const now = Math.max(0, Math.min(done[key] ?? 0, all.length - 1) - skip);
  const step = steps[now];
  const bent = result.bend.bends.length > 0;
  if (!step) return null;
  const { dieId } = result.bar;
  const isCalibrated = result.bend.bends.every((b) => b.set?.calibrated);
  return (
    <Stage
      steps={steps}
      at={now}
      go={(to) => {
        // the first step is done: this card is in use
        if (to > 0) void issue(id);
        act.setStep(key, to + skip);
      }}
      caution={<Caution steps={cautionedSteps(step, now === steps.length - 1)} />}
      finish={{
        says: bent ? PAGE.finish.bent : PAGE.finish.sawn,
        do: () => {
          act.markStep(id, bent ? "bent" : "sawn");
          act.goTo(bent ? "trestles" : "notcher");
        },
      }}
      head={head}
      picture={
        step.kind === "saw" || step.kind === "mark" ? (
          <MarksPicture
            result={result}
            sawn={made?.sawn.made.length}
            now={step.kind === "mark" ? step.bend : undefined}
            write={write}
          />
        ) : step.bend === undefined ? undefined : step.kind === "turn" && step.n !== undefined ? (
          <TurnPicture turn={step.turn} bend={step.n} side={turnSide} write={write}>
            <DiePicture result={result} side={turnSide} bend={step.bend} kind={step.kind} />
          </TurnPicture>
        ) : (
          <DiePicture result={result} side={turnSide} bend={step.bend} kind={step.kind} />
        )
      }
      more={
        step.kind === "check" && step.n !== undefined ? (
          <CheckList key={step.key} id={id} result={result} bend={step.n} write={write} />
        ) : step.kind === "saw" && bent ? (
          <button type="button" onClick={() => act.markStep(id, "sawn")}>
            {AS_MADE.markSawn}
          </button>
        ) : step.kind === "bend" && dieId !== undefined && !isCalibrated ? (
          <button type="button" onClick={() => act.ask({ topic: "die", key: dieId })}>
            {LEAD.die(dieId)}
          </button>
        ) : made && now === 0 ? (
          <Sawn made={made} write={write} />
        ) : undefined
      }
    />
  );
}

function DiePicture(props: {
  readonly result: Parameters<typeof inDie>[0];
  readonly side: "left" | "right";
  readonly bend: number;
  readonly kind: string;
}) {
  const { result, side, bend, kind } = props;
  const here = inDie(result, side, bend, kind !== "turn");
  const was: InDie | undefined =
    kind === "bend"
      ? inDie(result, side, bend, false)
      : kind === "turn" && bend > 0
        ? inDie(result, side, bend - 1, true)
        : undefined;
  if (!here) return null;
  return (
    <InDiePicture
      after={here}
      {...(was ? { before: was } : {})}
      label={
        kind === "bend"
          ? BENDER_PICTURES.bend
          : kind === "turn" && bend > 0
            ? BENDER_PICTURES.turn
            : BENDER_PICTURES.now
      }
    />
  );
}
