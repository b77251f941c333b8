import { Printer, Save } from "lucide-react";
import { useState } from "react";
import { TRUE_SIZE } from "../../words/index.ts";
import type { CardRequest, Computer } from "../compute/index.ts";
import { handOut, type Paper, paperNow, setPaper } from "../shell/print.ts";

/** Print or save a card, on the paper of this shop. */
export function HandOut(props: {
  readonly computer: Pick<Computer, "pdf">;
  /** Counts the card of a bar as issued, before it is drawn. */
  readonly issue?: (bar: string) => Promise<void>;
  readonly cards: readonly {
    readonly says: string;
    readonly name: string;
    readonly request: Omit<CardRequest, "paper">;
  }[];
}) {
  const [paper, choose] = useState<Paper>(paperNow);
  const [said, setSaid] = useState("");
  async function give(card: (typeof props.cards)[number], how: "save" | "print"): Promise<void> {
    setSaid("Being drawn…");
    try {
      if (card.request.bar !== undefined) await props.issue?.(card.request.bar);
      const done = await handOut(props.computer, { ...card.request, paper }, card.name, how);
      setSaid(
        done === "done" ? `${card.says} is drawn. ${TRUE_SIZE}` : `${card.says}: there is nothing to print.`,
      );
    } catch (error) {
      setSaid(`Not drawn: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  return (
    <section className="hand-out" aria-label="Print or save">
      <ul>
        {props.cards.map((card) => (
          <li key={card.name}>
            <span>{card.says}</span>
            <button type="button" aria-label={`Print ${card.says}`} onClick={() => void give(card, "print")}>
              <Printer aria-hidden /> Print
            </button>
            <button type="button" aria-label={`Save ${card.says}`} onClick={() => void give(card, "save")}>
              <Save aria-hidden /> Save
            </button>
          </li>
        ))}
      </ul>
      <div className="pair" role="group" aria-label="Paper">
        {(["A4", "Letter"] as const).map((p) => (
          <button
            key={p}
            type="button"
            aria-pressed={p === paper}
            onClick={() => {
              choose(p);
              setPaper(p);
            }}
          >
            {p}
          </button>
        ))}
      </div>
      <p role="status">{said}</p>
    </section>
  );
}
