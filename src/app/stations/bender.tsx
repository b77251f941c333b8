import { useMemo, useState } from "react";
import { StaleCard } from "../car/stale-card.tsx";
import { at, setProgress } from "../document/index.ts";
import { issuing } from "../shell/issue.ts";
import { Caution } from "../ui/caution.tsx";
import { Dialog } from "../ui/dialog.tsx";
import { useActions, useApp, useAppItself } from "../use-app.ts";
import { benderSteps, cautionedSteps } from "./bender-steps.ts";
import { HandOut } from "./hand-out.tsx";
import { type Lying, lyingIn } from "./lying.ts";
import { LyingPicture } from "./lying-picture.tsx";
import { MarksPicture } from "./marks-picture.tsx";
import { Stage } from "./stage.tsx";
import { TakeOne } from "./take-one.tsx";
import { writeIn } from "./write.ts";

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
  if (id === null || !result) return <TakeOne question="which bar is bent?" />;
  const key = `bender ${id}`;
  const now = Math.min(done[key] ?? 0, steps.length - 1);
  const step = steps[now]!;
  const bent = result.bend.bends.length > 0;

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
          says: bent ? `${result.label} is bent` : `${result.label} is sawn`,
          do: () => {
            act.run(setProgress(id, bent ? "bent" : "sawn"));
            act.goTo(bent ? "trestles" : "notcher");
          },
        }}
        head={
          <header className="stage-head">
            <h2>{result.label}</h2>
            <p>
              {write.size(result.bar.tube.od)} × {write.fine(result.bar.tube.wall)}
              {result.bar.dieId && `, die ${result.bar.dieId}`}
            </p>
            <button type="button" onClick={() => setPrints(true)}>
              Print or save
            </button>
            <StaleCard id={id} />
          </header>
        }
        picture={
          step.kind === "saw" || step.kind === "mark" ? (
            <MarksPicture result={result} now={step.kind === "mark" ? step.bend : undefined} write={write} />
          ) : step.bend === undefined ? undefined : (
            <Lies result={result} side={turnSide} bend={step.bend} kind={step.kind} />
          )
        }
        more={
          step.sizes && step.sizes.length > 0 ? (
            <ul className="sizes">
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
        <Dialog title="Print or save" onClose={() => setPrints(false)}>
          <HandOut
            computer={computer}
            issue={issue}
            cards={[
              {
                says: bent ? "Bender card" : "Saw card",
                name: `${id}-bender-card`,
                request: { card: "bender", bar: id },
              },
              ...(bent
                ? [
                    {
                      says: "Strip of marks",
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

const WORDS = {
  turn: "Before: dashed. After the turn: drawn. Seen from behind the tail, looking down toward the die.",
  bend: "Before: dashed. After the bend: drawn. Seen from behind the tail, looking down toward the die.",
  check: "As it lies now. Seen from behind the tail, looking down toward the die.",
} as const;

function Lies(props: {
  readonly result: Parameters<typeof lyingIn>[0];
  readonly side: "left" | "right";
  readonly bend: number;
  readonly kind: string;
}) {
  const { result, side, bend, kind } = props;
  const here = lyingIn(result, side, bend, kind !== "turn");
  const was: Lying | undefined =
    kind === "bend"
      ? lyingIn(result, side, bend, false)
      : kind === "turn" && bend > 0
        ? lyingIn(result, side, bend - 1, true)
        : undefined;
  if (!here) return null;
  return (
    <LyingPicture
      after={here}
      {...(was ? { before: was } : {})}
      label={kind === "turn" && bend === 0 ? WORDS.check : WORDS[kind as keyof typeof WORDS]}
    />
  );
}
