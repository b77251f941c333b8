import { cautionFor, FORCES, type Step, WHO_DECIDES } from "../../words/index.ts";
import styles from "./caution.module.css";
import { classes } from "./classes.ts";

/**
 * What can hurt at the step in hand. Its place in the page keeps it in sight however far the rest is scrolled (style
 * sheet: `caution`). `force`: a force is shown at this step. `className`: its place in the page around it.
 */
export function Caution(props: {
  readonly steps: readonly Step[];
  readonly force?: boolean;
  readonly className?: string | undefined;
}) {
  const steps: readonly Step[] = props.force ? [...props.steps, "sprung"] : props.steps;
  return <p className={classes(styles.caution, props.className)}>{cautionFor(...steps)}</p>;
}

/** Beside a rule, a force or an answer of a search: who decides. */
export function Decides({ force = false }: { readonly force?: boolean }) {
  return <p className={styles.decides}>{force ? `${FORCES} ${WHO_DECIDES}` : WHO_DECIDES}</p>;
}
