import { Files, Printer, Save } from "lucide-react";
import { useState } from "react";
import { HAND_OUT, TRUE_SIZE } from "../../words/index.ts";
import type { CardRequest, Computer } from "../model/compute/index.ts";
import styles from "./hand-out.module.css";
import { PaperPair } from "./paper-pair.tsx";
import { handOut, type Paper, paperNow } from "./print.ts";

/** Print or save a card, on the paper of this shop. */
export function HandOut(props: {
  readonly computer: Pick<Computer, "pdf">;
  /** Counts the card of a bar as issued, before it is drawn. */
  readonly issue?: (bar: string) => Promise<void>;
  /** Where there is more to print than this. */
  readonly onMore?: () => void;
  readonly cards: readonly {
    readonly says: string;
    readonly name: string;
    readonly request: Omit<CardRequest, "paper">;
  }[];
}) {
  const [paper, choose] = useState<Paper>(paperNow);
  const [state, setState] = useState("");
  async function give(card: (typeof props.cards)[number], how: "save" | "print"): Promise<void> {
    setState(HAND_OUT.drawing);
    try {
      if (card.request.bar !== undefined) await props.issue?.(card.request.bar);
      const done = await handOut(props.computer, { ...card.request, paper }, card.name, how);
      setState(done === "done" ? HAND_OUT.done(card.says, TRUE_SIZE) : HAND_OUT.nothing(card.says));
    } catch (error) {
      setState(HAND_OUT.failed(error instanceof Error ? error.message : String(error)));
    }
  }
  return (
    <section className={styles.handOut} aria-label={HAND_OUT.all}>
      <ul>
        {props.cards.map((card) => (
          <li key={card.name}>
            <span>{card.says}</span>
            <button
              type="button"
              aria-label={HAND_OUT.printIt(card.says)}
              onClick={() => void give(card, "print")}
            >
              <Printer aria-hidden /> {HAND_OUT.print}
            </button>
            <button
              type="button"
              aria-label={HAND_OUT.saveIt(card.says)}
              onClick={() => void give(card, "save")}
            >
              <Save aria-hidden /> {HAND_OUT.save}
            </button>
          </li>
        ))}
      </ul>
      <PaperPair label={HAND_OUT.paper} paper={paper} onPick={choose} />
      <p role="status">{state}</p>
      {props.onMore && (
        <button type="button" onClick={props.onMore}>
          <Files aria-hidden /> {HAND_OUT.more}
        </button>
      )}
    </section>
  );
}
