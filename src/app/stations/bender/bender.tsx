import { useMemo, useState } from "react";
import { extent, sizeOf } from "../../../core/tube/index.ts";
import { BENDER_PICTURES, BENDER_PAGE as PAGE, PAPERS, PRINT_OR_SAVE } from "../../../words/index.ts";
import { Caution, Dialog, HandOut, issuing, parts, Stage, TakeOne, writeIn } from "../../kit/index.ts";
import { at } from "../../model/document/index.ts";
import { useActions, useApp, useAppItself } from "../../model/state/index.ts";
import styles from "./bender.module.css";
import { benderSteps, cautionedSteps } from "./bender-steps.ts";
import { type InDie, inDie } from "./in-die.ts";
import { InDiePicture } from "./in-die-picture.tsx";
import { MarksPicture } from "./marks-picture.tsx";

/** Where do I mark, how far do I turn, how far do I bend? */
export function Bender() {
  const app = useAppItself();
  const { computer } = app;
  const issue = issuing(app);
  const act = useActions();
  const id = useApp((s) => s.inHand);
  const result = useApp((s) => (id === null ? undefined : s.results.bars.get(id)));
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  const done = useApp((s) => s.steps);
  const [prints, setPrints] = useState(false);
  const turnSide = document && at(document, ["bender", "turnSide"]) === "right" ? "right" : "left";
  const write = useMemo(() => writeIn(show), [show]);
  const steps = useMemo(
    () => (result ? benderSteps(result, turnSide, write) : []),
    [result, turnSide, write],
  );
  if (id === null || !result) return <TakeOne question={PAGE.which} />;
  const key = `bender ${id}`;
  const now = Math.min(done[key] ?? 0, steps.length - 1);
  const step = steps[now];
  const bent = result.bend.bends.length > 0;
  if (!step) return null;

  return (
    <>
      <Stage
        steps={steps}
        at={now}
        go={(to) => {
          // the first step is done: this card is in use
          if (to > 0) void issue(id);
          act.setStep(key, to);
        }}
        caution={<Caution steps={cautionedSteps(step, now === steps.length - 1)} />}
        finish={{
          says: bent ? PAGE.finish.bent : PAGE.finish.sawn,
          do: () => {
            act.markStep(id, bent ? "bent" : "sawn");
            act.goTo(bent ? "trestles" : "notcher");
          },
        }}
        head={
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
          </header>
        }
        picture={
          step.kind === "saw" || step.kind === "mark" ? (
            <MarksPicture result={result} now={step.kind === "mark" ? step.bend : undefined} write={write} />
          ) : step.bend === undefined ? undefined : (
            <DiePicture result={result} side={turnSide} bend={step.bend} kind={step.kind} />
          )
        }
        more={
          step.sizes && step.sizes.length > 0 ? (
            <ul className={styles.sizes}>
              {step.sizes.map((s) => (
                <li key={s.words}>
                  <strong>{s.value}</strong> {s.words}
                </li>
              ))}
            </ul>
          ) : undefined
        }
      />
      {prints && (
        <Dialog title={PRINT_OR_SAVE} onClose={() => setPrints(false)}>
          <HandOut
            computer={computer}
            issue={issue}
            cards={[
              {
                says: bent ? PAPERS.benderCard : PAPERS.sawCard,
                name: `${id}-bender-card`,
                request: { card: "bender", bar: id },
              },
              ...(bent
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
