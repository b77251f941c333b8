import styles from "./answer.module.css";
import { classes } from "./classes.ts";
import { split } from "./write.ts";

/** A question of the bar in hand: one figure, and the reason folded beneath. */
export function Answer(props: {
  readonly question: string;
  readonly figure: string;
  readonly says: string;
  /** Its figure beneath the question, as large as the page allows. */
  readonly large?: boolean;
  readonly children?: React.ReactNode;
}) {
  const { number, unit } = split(props.figure);
  return (
    <details className={classes(styles.answer, props.large && styles.large)}>
      <summary>
        <span className={styles.question}>{props.question}</span>
        <span className={styles.figure}>
          {number}
          {unit && <small> {unit}</small>}
        </span>
        <span className={styles.says}>{props.says}</span>
      </summary>
      <p>{props.children}</p>
    </details>
  );
}
