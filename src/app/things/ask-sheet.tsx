import { THINGS } from "../../words/index.ts";
import { Dialog } from "../kit/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import { NamedSheet, TopicSheets } from "./things.tsx";
import { sheetsOf } from "./topics.ts";
import { useEdit } from "./use-edit.ts";

/** The sheet to which a finding or a step leads, over whatever page it is asked from; the bar stays in hand. */
export function AskSheet() {
  const question = useApp((s) => s.question);
  const edit = useEdit();
  const act = useActions();
  if (!question || question.topic === "car" || !edit) return null;
  const { topic, key } = question;
  const sheets = key === undefined ? [] : sheetsOf(edit.document, topic).filter((s) => isOf(s.key, key));
  return (
    <Dialog title={sheets[0]?.title ?? THINGS.many[topic]} onClose={() => act.ask(undefined)} wide>
      {sheets.length > 0 ? (
        sheets.map((sheet) => <NamedSheet key={sheet.key} sheet={sheet} edit={edit} isOnly />)
      ) : (
        <TopicSheets topic={topic} edit={edit} />
      )}
    </Dialog>
  );
}

/** A thing's own sheet, and what stands below it under its name. */
const isOf = (sheet: string, key: string): boolean => sheet === key || sheet === `${key} springback`;
