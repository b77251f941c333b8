import { NO_BARS, WALL } from "../../words/index.ts";
import { goToPage, useActions } from "../model/state/index.ts";
import parts from "./parts.module.css";

/** A job without a bar, where one is needed: what to do first, and the buttons for it. `onNew`: asks for the new bar here. */
export function NoBars({ why, onNew }: { readonly why: string; readonly onNew?: () => void }) {
  const act = useActions();
  return (
    <section className={parts.panelHead}>
      <h2>{NO_BARS.first}</h2>
      <p>{why}</p>
      <div className={parts.row}>
        <button type="button" className={parts.main} onClick={onNew ?? (() => act.goTo("wall"))}>
          {onNew ? WALL.create : NO_BARS.wall}
        </button>
        <button type="button" onClick={() => act.goTo("car")}>
          {NO_BARS.car}
        </button>
        <button type="button" onClick={() => goToPage("between")}>
          {NO_BARS.between}
        </button>
      </div>
    </section>
  );
}
