import styles from "./order-line.module.css";
import { useLook } from "./use-look.ts";
import { rowSays } from "./words.ts";

/** How the order of fitting stands, in one line that opens the row of tags. */
export function OrderLine({ onOpen }: { readonly onOpen: () => void }) {
  const [look] = useLook();
  const bad = look.row.some((t) => t.state === "no");
  return (
    <button type="button" className={bad ? `${styles.line} ${styles.look}` : styles.line} onClick={onOpen}>
      <strong>Order of fitting</strong>
      <span>
        {bad && <span aria-hidden="true">⚠ </span>}
        {rowSays(look)}
      </span>
    </button>
  );
}
