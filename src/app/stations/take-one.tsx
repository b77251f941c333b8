import { isError } from "../../core/findings/index.ts";
import { say } from "../../words/index.ts";
import { namesIn } from "../document/index.ts";
import { useApp } from "../use-app.ts";
import { writeIn } from "./write.ts";

/** No bar is in hand where one is needed, or one that has no card: then what is in the way. */
export function TakeOne({ question }: { readonly question: string }) {
  const id = useApp((s) => s.inHand);
  const without = useApp((s) => s.results.without.find((w) => w.id === id));
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  if (without && document) {
    const write = writeIn(show);
    const names = namesIn(document);
    return (
      <section className="take-one">
        <h2>{without.label} has no card: it cannot be made as it is</h2>
        {without.findings.filter(isError).map((f) => (
          <p key={`${f.code} ${f.place} ${say(f, write, names)}`}>{sentence(say(f, write, names))}</p>
        ))}
      </section>
    );
  }
  return (
    <section className="take-one">
      <h2>Take a bar in hand: {question}</h2>
      <p>Tap one in the row of bars. It stays in hand from station to station.</p>
    </section>
  );
}

const sentence = (said: string): string => `${said.charAt(0).toUpperCase()}${said.slice(1)}.`;
