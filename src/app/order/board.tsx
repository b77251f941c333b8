import { Printer, X } from "lucide-react";
import { useState } from "react";
import { concerns } from "../../core/findings/index.ts";
import { HONEST, NO_BARS, ORDER_PAGE as PAGE, PAPERS, PRINT_OR_SAVE, stepsOn } from "../../words/index.ts";
import { Caution, classes, Decides, Dialog, HandOut, NoBars, parts } from "../kit/index.ts";
import { goToPage, useActions, useApp, useAppItself, useDangers } from "../model/state/index.ts";
import styles from "./board.module.css";
import { moveBefore } from "./commands.ts";
import { FoundOrder } from "./found-order.tsx";
import { InHand } from "./in-hand.tsx";
import { Lacks } from "./lacks.tsx";
import { rowSays } from "./row-says.ts";
import { hasForce } from "./says.ts";
import { Tag } from "./tag.tsx";
import { useFitWords } from "./use-fit-words.ts";
import { useLook } from "./use-look.ts";
import { orderFound } from "./use-order-found.ts";

/** The row of tags on the Wall: the order in which the bars go in, and whether each does. */
export function Board({ onClose, onNew }: { readonly onClose: () => void; readonly onNew: () => void }) {
  const { computer } = useAppItself();
  const act = useActions();
  const inHand = useApp((s) => s.inHand);
  const [look, looking] = useLook();
  const words = useFitWords();
  const dangers = useDangers();
  const [prints, setPrints] = useState(false);
  const { row, run } = look;
  const force = hasForce(row);
  const found = orderFound(look);
  const { order } = found;
  const held = row.find((t) => t.id === inHand);

  return (
    <section className={styles.board} aria-label={PAGE.title}>
      <header className={styles.head}>
        <div>
          <h2>{PAGE.title}</h2>
          <p role="status">{rowSays(look)}</p>
        </div>
        <button type="button" data-escape className={parts.icon} aria-label={PAGE.close} onClick={onClose}>
          <X aria-hidden />
        </button>
        <div className={classes(parts.row, styles.buttons)}>
          {run ? (
            <button type="button" className={parts.main} onClick={() => looking.stop()}>
              {PAGE.stop}
            </button>
          ) : (
            <button
              type="button"
              className={look.isOn ? undefined : parts.main}
              aria-pressed={look.isOn}
              disabled={row.length === 0}
              onClick={() => (look.isOn ? looking.stop() : looking.lookAtAll())}
            >
              {PAGE.checkAll}
            </button>
          )}
          <button type="button" disabled={run !== undefined || row.length < 2} onClick={() => looking.find()}>
            {PAGE.find}
          </button>
          <button type="button" disabled={row.length === 0} onClick={() => setPrints(true)}>
            <Printer aria-hidden /> {PAGE.print}
          </button>
        </div>
        {run && <progress value={run.share} max={1} aria-label={PAGE.progress} />}
        {look.fault && (
          <p className={styles.fault} role="alert">
            ⚠ {look.fault}
          </p>
        )}
      </header>
      <div className={styles.tags}>
        {row.length === 0 && <NoBars why={NO_BARS.order} onNew={onNew} />}
        <Lacks />
        {look.found && <FoundOrder found={look.found} row={row} words={words} />}
        <ol className={styles.wire} aria-label={PAGE.tags}>
          {row.map((tag) => (
            <Tag
              key={tag.id}
              tag={tag}
              isInHand={tag.id === inHand}
              inDanger={dangers.some((f) => concerns(f, tag.id))}
              words={words}
              onTake={() => act.take(tag.id === inHand ? null : tag.id)}
              onCure={(cure) => act.run(moveBefore(order, tag.id, cure.before, words.called))}
            />
          ))}
        </ol>
        <p className={classes(parts.quiet, styles.limits)}>{HONEST}</p>
        <Decides force={force} />
      </div>
      <div className={styles.foot}>
        <Caution steps={["lifting", "open body"]} force={force} />
        {held && <InHand tag={held} row={row} words={words} />}
      </div>
      {prints && (
        <Dialog title={PRINT_OR_SAVE} onClose={() => setPrints(false)}>
          <Caution steps={stepsOn("fitting order")} force={force} />
          <Decides force={force} />
          <HandOut
            computer={computer}
            onMore={() => goToPage("print")}
            cards={[
              {
                says: PAPERS.order,
                name: "order-of-fitting",
                request: { card: "order", found },
              },
            ]}
          />
        </Dialog>
      )}
    </section>
  );
}
