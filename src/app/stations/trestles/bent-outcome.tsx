import { sayBentSize, sentence, small, TRESTLES, verdictWords } from "../../../words/index.ts";
import { classes, Decides, parts } from "../../kit/index.ts";
import { at, calledOf, forgetAsBuilt, type JobDocument, keepAsBuilt } from "../../model/document/index.ts";
import { useActions } from "../../model/state/index.ts";
import { draftOfJson, Kept, keptAs, Outcome, Verdict } from "../../readings/index.ts";
import type { Bent, Judged } from "./use-bent.ts";

/** Whether the bar goes where it was planned, as bent. */
export const landsIn = (judged: Judged | undefined): boolean =>
  judged?.verdict.kind === "good" || judged?.verdict.kind === "moved";

/** Whether the job uses the bar as bent already. */
export const isUsed = (document: JobDocument, id: string, judged: Judged | undefined): boolean =>
  judged?.placed !== undefined &&
  at(document, ["asBuilt", id]) !== undefined &&
  keptAs(document, id, judged.placed.path);

/** Whether a force is shown of the bent bar. */
export const showsForce = (judged: Judged | undefined): boolean =>
  verdictsOf(judged).some((v) => v.spring !== undefined);

const verdictsOf = (judged: Judged | undefined) =>
  judged ? [judged.verdict, ...judged.others.map((m) => m.verdict)] : [];

/** The reading that the bar cannot have by the shop's usual errors; none where all fit. */
function doubtedIn(document: JobDocument, id: string, { answer, judged }: Bent): string | undefined {
  const doubted = judged?.bent.suspect;
  const index = doubted === undefined ? undefined : answer?.counted[doubted];
  const size = index === undefined ? undefined : at(document, ["made", id, "bent", index]);
  const draft = size === undefined ? undefined : draftOfJson(size);
  return draft && sayBentSize(draft);
}

/** What to do with the bar as bent. */
export function BentOutcome(props: {
  readonly id: string;
  readonly document: JobDocument;
  readonly bent: Bent;
}) {
  const { id, document, bent } = props;
  const { answer, judged, write } = bent;
  const act = useActions();
  const label = calledOf(document, "bar", id);
  const lands = landsIn(judged);
  const used = isUsed(document, id, judged);
  const force = showsForce(judged);
  // the large sentence is what to do; what else would do is below it
  const { main, or } = judged ? verdictWords(judged.verdict, write) : { main: "", or: undefined };
  const doubted = doubtedIn(document, id, bent);

  function use(): void {
    if (!judged?.placed || !judged.after) return;
    act.run(keepAsBuilt({ [id]: judged.placed }, TRESTLES.commandUse(label)));
  }

  return (
    <Outcome label={TRESTLES.result} isFresh={bent.isFresh}>
      {answer?.judged === "none" && <p className={classes(parts.notice, parts.wrong)}>{TRESTLES.none}</p>}
      {doubted !== undefined && <Verdict isOff>{TRESTLES.again(small(doubted))}</Verdict>}
      {judged && doubted === undefined && <Verdict isOff={!lands}>{sentence(main)}</Verdict>}
      {doubted !== undefined && (
        <p>
          {TRESTLES.unless} {sentence(main)}
        </p>
      )}
      {or !== undefined && <p>{sentence(`or ${or}`)}</p>}
      {(force || verdictsOf(judged).some((v) => v.kind === "ease")) && <Decides force={force} />}
      <div className={parts.row}>
        {lands && !used && (
          <button type="button" className={doubted === undefined ? parts.main : undefined} onClick={use}>
            {TRESTLES.use}
          </button>
        )}
        {used && (
          <>
            <Kept>{TRESTLES.kept}</Kept>
            <button type="button" className={parts.main} onClick={() => act.goTo("notcher")}>
              {TRESTLES.notcher}
            </button>
          </>
        )}
        {at(document, ["asBuilt", id]) !== undefined && (
          <button type="button" onClick={() => act.run(forgetAsBuilt(id, TRESTLES.commandUndo(label)))}>
            {TRESTLES.undo}
          </button>
        )}
      </div>
    </Outcome>
  );
}
