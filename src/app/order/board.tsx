import "../shell/order.css";
import { Printer, X } from "lucide-react";
import { useState } from "react";
import { concerns } from "../../core/findings/index.ts";
import { HONEST, stepsOn } from "../../words/index.ts";
import { HandOut } from "../stations/hand-out.tsx";
import { Caution, Decides } from "../ui/caution.tsx";
import { Dialog } from "../ui/dialog.tsx";
import { useDangers } from "../ui/use-dangers.ts";
import { useActions, useApp, useAppItself } from "../use-app.ts";
import { hangBefore } from "./commands.ts";
import { FoundOrder } from "./found-order.tsx";
import { InHand } from "./in-hand.tsx";
import { Tag } from "./tag.tsx";
import { useLook } from "./use-look.ts";
import { useFitWords } from "./use-words.ts";
import { hasForce, rowSays } from "./words.ts";

/** The row of tags on the Wall: the order in which the bars go in, and whether each does. */
export function Board({ onClose }: { readonly onClose: () => void }) {
  const { computer } = useAppItself();
  const act = useActions();
  const inHand = useApp((s) => s.inHand);
  const [look, looking] = useLook();
  const words = useFitWords();
  const dangers = useDangers();
  const [prints, setPrints] = useState(false);
  const { row, run } = look;
  const force = hasForce(row);
  const order = row.map((t) => t.id);
  const held = row.find((t) => t.id === inHand);
  const judged = row.flatMap((t) => (t.state !== "unseen" && t.judged ? [t.judged] : []));

  return (
    <section className="board" aria-label="Order of fitting">
      <header className="board-head">
        <div>
          <h2>Order of fitting</h2>
          <p role="status">{rowSays(look)}</p>
        </div>
        <button type="button" className="icon" aria-label="Put the tags away" onClick={onClose}>
          <X aria-hidden />
        </button>
        <div className="row">
          {run ? (
            <button type="button" className="main" onClick={() => looking.stop()}>
              Stop
            </button>
          ) : (
            <button
              type="button"
              className={look.isOn ? "" : "main"}
              aria-pressed={look.isOn}
              disabled={row.length === 0}
              onClick={() => (look.isOn ? looking.stop() : looking.lookAtAll())}
            >
              {look.isOn ? "Kept up" : "Look at all"}
            </button>
          )}
          <button type="button" disabled={run !== undefined || row.length < 2} onClick={() => looking.find()}>
            Find an order
          </button>
          <button type="button" disabled={row.length === 0} onClick={() => setPrints(true)}>
            <Printer aria-hidden /> Print the sheet
          </button>
        </div>
        {run && <progress value={run.share} max={1} aria-label="How far it has come" />}
        {look.fault && (
          <p className="fault" role="alert">
            ⚠ {look.fault}
          </p>
        )}
      </header>
      <div className="board-tags">
        {look.found && <FoundOrder found={look.found} row={row} words={words} />}
        <ol className="wire" aria-label="The tags, first in first">
          {row.map((tag) => (
            <Tag
              key={tag.id}
              tag={tag}
              isInHand={tag.id === inHand}
              inDanger={dangers.some((f) => concerns(f, tag.id))}
              words={words}
              onTake={() => act.take(tag.id === inHand ? null : tag.id)}
              onCure={(cure) => act.run(hangBefore(order, tag.id, cure.before, words.called))}
            />
          ))}
        </ol>
        <p className="quiet">{HONEST}</p>
        <Decides force={force} />
      </div>
      <div className="board-foot">
        <Caution steps={["lifting", "open body"]} force={force} />
        {held && <InHand tag={held} row={row} words={words} />}
      </div>
      {prints && (
        <Dialog title="Print or save" onClose={() => setPrints(false)}>
          <Caution steps={stepsOn("order of fitting")} force={force} />
          <Decides force={force} />
          <HandOut
            computer={computer}
            cards={[
              {
                says: "Order of fitting",
                name: "order-of-fitting",
                request: { card: "order", found: { order, judged, reach: look.reach } },
              },
            ]}
          />
        </Dialog>
      )}
    </section>
  );
}
