import { RAIL_SORTS, sentence } from "../../../words/index.ts";
import { useActions, useApp, useAppItself } from "../../model/state/index.ts";
import { openTags, rowSays, useLook } from "../../order/index.ts";
import { sayOrder } from "./arrange.ts";
import styles from "./more.module.css";
import { railOf } from "./rail-state.ts";

/** Where the order that the bars are sorted by comes from, whether it was checked, and the way to where it is found. */
export function OrderNote() {
  const app = useAppItself();
  const act = useActions();
  const document = useApp((s) => s.job?.document);
  const results = useApp((s) => s.results);
  const [look] = useLook();
  if (!document) return null;
  const from = sayOrder({ document, results });
  return (
    <div className={styles.note}>
      <p>
        {sentence(rowSays(look))} {from}
      </p>
      <button
        type="button"
        onClick={() => {
          railOf(app).setState({ sheet: "no" });
          openTags(act);
        }}
      >
        {RAIL_SORTS.openOrder}
      </button>
    </div>
  );
}
