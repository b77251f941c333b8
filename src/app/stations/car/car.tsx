import { useState } from "react";
import { CAR, PAPERS, PRINT_OR_SAVE, type Step } from "../../../words/index.ts";
import { Caution, classes, Dialog, HandOut, parts, useAwake, writeIn } from "../../kit/index.ts";
import { goToPage, useActions, useAnswer, useApp, useAppItself } from "../../model/state/index.ts";
import { CAR_PART, useForce, WayIn } from "../../order/index.ts";
import { Body, type Draft, emptyDraft, pointIds, Station, tapeMark } from "../../readings/index.ts";
import { Agreement } from "./agreement.tsx";
import { Budget } from "./budget.tsx";
import styles from "./car.module.css";
import { wantedOf } from "./next-reads.ts";
import { Points } from "./points.tsx";
import { Read } from "./read.tsx";
import { alone, type Run } from "./run.tsx";
import { Tacked } from "./tacked.tsx";

const PARTS = ["read", "points", "tacked", "errors", "way"] as const;
type Part = (typeof PARTS)[number];

/** What each part is done with care for; after a tack the next thing is welding. */
const AT_CAR: Readonly<Record<Part, readonly Step[]>> = {
  read: ["axle stands"],
  points: ["axle stands"],
  tacked: ["airbags", "tank", "fire watch"],
  errors: ["axle stands"],
  way: ["lifting", "open body"],
};

const NOTHING = {};

/** What do I measure, where is it, does it sit right? */
export function Car() {
  const document = useApp((s) => s.job?.document);
  const act = useActions();
  const part = useApp((s) => PARTS[s.steps[CAR_PART] ?? 0] ?? "read");
  const setPart = (to: Part): void => act.setStep(CAR_PART, PARTS.indexOf(to));
  const [draft, setDraft] = useState<Draft>(() => ({ ...emptyDraft("tape"), ...tapeMark() }));
  const [point, setPoint] = useState<string>();
  const [run, setRun] = useState<Run>();
  const results = useApp((s) => s.results);
  const show = useApp((s) => s.show);
  const [prints, setPrints] = useState(false);
  const inHand = useApp((s) => s.inHand);
  const force = useForce(inHand);
  const answered = useAnswer("survey", NOTHING);
  const survey = answered?.answer;
  useAwake();
  if (!document) return null;
  // an undo may have taken the point away
  const inJob = point !== undefined && pointIds(document).includes(point) ? point : undefined;

  /** A reading that was advised for a point, which comes in hand with it. */
  function read(next: Draft, of: string): void {
    const { over, mark } = draft;
    const held = { ...next, over, ...(mark === undefined ? {} : { mark }) };
    const wanted = wantedOf(held, of, results, survey, writeIn(show));
    setPoint(of);
    setRun(alone({ draft: held, says: "", gains: "", ...(wanted ? { wanted } : {}) }));
    setPart("read");
  }

  return (
    <Station>
      <header className={parts.stageHead}>
        <div className={classes(parts.pair, styles.parts)} role="group" aria-label={CAR.parts}>
          {PARTS.map((id) => (
            <button key={id} type="button" aria-pressed={id === part} onClick={() => setPart(id)}>
              {CAR.part[id]}
            </button>
          ))}
        </div>
        <button type="button" onClick={() => setPrints(true)}>
          {PRINT_OR_SAVE}
        </button>
      </header>
      {part === "read" && (
        <Read
          document={document}
          survey={survey}
          isFresh={answered?.isFresh ?? false}
          point={inJob}
          setPoint={setPoint}
          run={run}
          setRun={setRun}
          draft={draft}
          setDraft={setDraft}
          onRead={read}
        />
      )}
      {part === "points" && (
        <Body>
          <Agreement document={document} survey={survey} onRead={read} />
          <Points document={document} survey={survey} onRead={read} />
        </Body>
      )}
      {part === "tacked" && <Tacked document={document} />}
      {part === "errors" && <Budget document={document} />}
      {part === "way" && <WayIn />}
      <Caution steps={AT_CAR[part]} force={part === "way" && force} />
      {prints && <Papers onClose={() => setPrints(false)} />}
    </Station>
  );
}

function Papers({ onClose }: { readonly onClose: () => void }) {
  const { computer } = useAppItself();
  return (
    <Dialog title={PRINT_OR_SAVE} onClose={onClose}>
      <HandOut
        computer={computer}
        onMore={() => goToPage("print")}
        cards={[
          { says: PAPERS.readingList, name: "readings", request: { card: "readings" } },
          { says: PAPERS.measuringPlan, name: "measuring-plan", request: { card: "measuring" } },
        ]}
      />
    </Dialog>
  );
}
