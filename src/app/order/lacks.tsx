import { LACKS } from "../../words/index.ts";
import { parts } from "../kit/index.ts";
import { at, entries, type JobDocument } from "../model/document/index.ts";
import { type Question, useActions, useApp } from "../model/state/index.ts";

/** What the way of a bar would be judged by, were it in the job: each a button to its question. */
export function Lacks() {
  const document = useApp((s) => s.job?.document);
  const act = useActions();
  const lacks = document ? lacksOf(document) : [];
  if (lacks.length === 0) return null;
  return (
    <div>
      <p className={parts.quiet}>{LACKS.says}</p>
      <div className={parts.row}>
        {lacks.map(([what, question]) => (
          <button key={what} type="button" onClick={() => act.ask(question)}>
            {LACKS.enter[what]}
          </button>
        ))}
      </div>
    </div>
  );
}

type Lack = readonly [what: keyof typeof LACKS.enter, question: Question];

/** The torch, the driver, the panels that block, the openings of the body: none of them counts before it is entered. */
export function lacksOf(document: JobDocument): readonly Lack[] {
  const isEmpty = (home: string): boolean => entries(at(document, ["body", home])).length === 0;
  return [
    ...(at(document, ["shop", "torch"]) === undefined
      ? [["torch", { topic: "shop", key: "torch" }] as const]
      : []),
    ...(at(document, ["driver"]) === undefined ? [["driver", { topic: "driver" }] as const] : []),
    ...(isEmpty("panels") || isEmpty("openings") ? [["body", { topic: "body" }] as const] : []),
  ];
}
