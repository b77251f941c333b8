import { ArrowRight } from "lucide-react";
import type { Finding } from "../../core/findings/index.ts";
import { LEAD } from "../../words/index.ts";
import { parts } from "../kit/index.ts";
import { type Question, useActions, useApp } from "../model/state/index.ts";
import { questionsOf } from "./leads.ts";

/** Below findings: a button to each question that mends one of them. */
export function LeadsOf({ findings }: { readonly findings: readonly Finding[] }) {
  const document = useApp((s) => s.job?.document);
  const act = useActions();
  const questions = document ? questionsOf(document, findings) : [];
  if (questions.length === 0) return null;
  return (
    <div className={parts.row}>
      {questions.map((question) => (
        <button
          key={`${question.topic} ${question.key}`}
          type="button"
          onClick={() => (question.topic === "car" ? act.goTo("car") : act.ask(question))}
        >
          {says(question)} <ArrowRight aria-hidden />
        </button>
      ))}
    </div>
  );
}

function says({ topic, key }: Question): string {
  if (topic === "car") return LEAD.car;
  if (topic === "die") return key === undefined ? LEAD.dies : LEAD.die(key);
  if (topic === "plate") return LEAD.plate(key ?? "");
  return key === "bender" ? LEAD.bender : key === "errors" ? LEAD.errors : LEAD.notcher;
}
