import type { Tag } from "./row.ts";
import styles from "./state-line.module.css";

const PATHS: Readonly<Record<Tag["state"], string>> = {
  free: "M4 8H60",
  touches: "M4 8H60M32 4V12",
  spring: "M4 8H14L18 2L24 14L30 2L36 14L42 2L46 8H60",
  no: "M4 8H24M40 8H60M26 2L38 14M38 2L26 14",
  unseen: "M4 8H60",
  placeless: "M4 8H16",
};

/** How a bar goes in, by line: drawn through, with a tick where it touches, like a spring, broken by a cross; dotted while nobody looked. */
export function StateLine({ state }: { readonly state: Tag["state"] }) {
  return (
    <svg
      className={
        state === "unseen" || state === "placeless" ? `${styles.line} ${styles.dotted}` : styles.line
      }
      viewBox="0 0 64 16"
      aria-hidden="true"
    >
      <path d={PATHS[state]} />
    </svg>
  );
}
