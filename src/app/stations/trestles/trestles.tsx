import { useState } from "react";
import { AS_MADE, bentLines, PAPERS, PRINT_OR_SAVE, TRESTLES } from "../../../words/index.ts";
import { Caution, Dialog, HandOut, parts, TakeOne, useAwake } from "../../kit/index.ts";
import { MadeNotes, MakeAgain, otherCard, Record, useMade } from "../../made/index.ts";
import type { BarResult } from "../../model/compute/index.ts";
import { calledOf, type JobDocument } from "../../model/document/index.ts";
import { goToPage, useActions, useApp, useAppItself } from "../../model/state/index.ts";
import { HeadNote, Station, Two } from "../../readings/index.ts";
import { AsBent } from "./as-bent.tsx";
import { BentOutcome, showsForce } from "./bent-outcome.tsx";
import { ToRead } from "./to-read.tsx";
import { useBent } from "./use-bent.ts";

/** Is what I bent what I wanted? */
export function Trestles() {
  const id = useApp((s) => s.inHand);
  const document = useApp((s) => s.job?.document);
  const result = useApp((s) => (id === null ? undefined : s.results.bars.get(id)));
  useAwake();
  if (id === null || !document || !result) return <TakeOne question={TRESTLES.which} next={["bent"]} />;
  return <BentBar key={id} id={id} document={document} result={result} />;
}

function BentBar(props: { readonly id: string; readonly document: JobDocument; readonly result: BarResult }) {
  const { id, document, result } = props;
  const act = useActions();
  const [prints, setPrints] = useState(false);
  const bent = useBent(id);
  const bends = result.bend.bends.map((b) => b.n);
  const known = useMade(result);
  const made = known?.made;
  return (
    <Station>
      <header className={parts.stageHead}>
        <h2>{TRESTLES.heading(calledOf(document, "bar", id))}</h2>
        <HeadNote>{bends.length === 0 ? TRESTLES.straightBar : TRESTLES.bends(bends.length)}</HeadNote>
        {known && !made?.bent && bends.length > 0 && (
          <button type="button" onClick={() => act.markStep(id, "bent")}>
            {TRESTLES.mark}
          </button>
        )}
        <button type="button" onClick={() => setPrints(true)}>
          {PRINT_OR_SAVE}
        </button>
        {made && <MakeAgain id={id} />}
        {known && <MadeNotes known={known} trim={result.bend.trim} write={bent.write} />}
      </header>
      {bends.length === 0 ? (
        <div>
          <p className={parts.wait}>{TRESTLES.straight}</p>
        </div>
      ) : (
        <Two>
          <BentOutcome id={id} document={document} bent={bent} />
          <ToRead id={id} document={document} bent={bent} bends={bends} fromEnd={result.bar.fromEnd} />
          <AsBent id={id} document={document} bent={bent} held={result.bar.fromEnd}>
            {made?.bent && (
              <Record
                heading={AS_MADE.heading.madeTo}
                lines={bentLines(made.bent, bent.write)}
                card={otherCard(made.bent.made.card, made.card)}
                note={made.bent.made.bends.length > 1 ? AS_MADE.turns : undefined}
              />
            )}
          </AsBent>
        </Two>
      )}
      <Caution steps={["lifting"]} force={showsForce(bent.judged)} />
      {prints && <Papers bar={id} onClose={() => setPrints(false)} />}
    </Station>
  );
}

function Papers({ bar, onClose }: { readonly bar: string; readonly onClose: () => void }) {
  const { computer } = useAppItself();
  return (
    <Dialog title={PRINT_OR_SAVE} onClose={onClose}>
      <HandOut
        computer={computer}
        onMore={() => goToPage("print")}
        cards={[
          {
            says: PAPERS.measuringPlan,
            name: `${bar}-measuring-plan`,
            request: { card: "measuring", bar },
          },
          { says: PAPERS.readingList, name: "readings", request: { card: "readings" } },
        ]}
      />
    </Dialog>
  );
}
