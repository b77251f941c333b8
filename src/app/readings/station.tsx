import type { ReactNode } from "react";
import { classes, parts } from "../kit/index.ts";
import styles from "./station.module.css";

/** A station of readings: its head (a header), its body, what can hurt there (a paragraph), and dialogs. */
export const Station = ({ children }: { readonly children: ReactNode }) => (
  <div className={styles.station}>{children}</div>
);

/** Beside the name in the head; on a phone too. */
export const HeadNote = ({ children }: { readonly children: ReactNode }) => (
  <p className={styles.note}>{children}</p>
);

/** The body where it is one run of parts. */
export const Body = ({ children }: { readonly children: ReactNode }) => (
  <div className={classes(parts.panel, styles.body)}>{children}</div>
);

/** The body where it is two: what is read, and what comes of it; over both its outcome. */
export const Two = ({ children }: { readonly children: ReactNode }) => (
  <div className={styles.two}>{children}</div>
);

export const Side = (props: { readonly label: string; readonly children: ReactNode }) => (
  <section className={classes(parts.panel, styles.side)} aria-label={props.label}>
    {props.children}
  </section>
);

/** What comes of the readings, and what to do with it; read out when it changes. */
export const Outcome = (props: {
  readonly label: string;
  readonly isFresh: boolean;
  readonly children: ReactNode;
}) => (
  <section className={styles.outcome} aria-label={props.label} aria-live="polite" aria-busy={!props.isFresh}>
    {props.children}
  </section>
);

/** The outcome in one sentence; `isOff`: to be looked at. */
export const Verdict = (props: { readonly isOff?: boolean; readonly children: ReactNode }) => (
  <p className={props.isOff ? `${styles.verdict} ${styles.off}` : styles.verdict}>
    {props.isOff && <span aria-hidden="true">⚠ </span>}
    {props.children}
  </p>
);

/** That the job holds what was found. */
export const Kept = ({ children }: { readonly children: ReactNode }) => (
  <p className={styles.kept}>{children}</p>
);
