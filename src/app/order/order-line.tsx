import { ORDER_PAGE } from "../../words/index.ts";
import styles from "./order-line.module.css";
import { rowSays } from "./row-says.ts";
import { useLook } from "./use-look.ts";

/** How the order of fitting is, in one line that opens the row of tags. */
export function OrderLine({ onOpen }: { readonly onOpen: () => void }) {
  const [look] = useLook();
  const bad = look.row.some((t) => t.state === "no");
  return (
    <button type="button" className={bad ? `${styles.line} ${styles.look}` : styles.line} onClick={onOpen}>
      <strong>{ORDER_PAGE.title}</strong>
      <span>
        {bad && <span aria-hidden="true">⚠ </span>}
        {rowSays(look)}
      </span>
    </button>
  );
}
