import type { ReactNode } from "react";
import { classes } from "./classes.ts";
import parts from "./parts.module.css";

/**
 * What must be known at once, over every station: one line and what can be done about it. Where the line is longer than
 * the page is wide it opens; `more` is below it then.
 */
export const Notice = (props: {
  readonly says: string;
  readonly isWrong?: boolean;
  readonly role?: "alert";
  /** Open from the first. */
  readonly isOpen?: boolean;
  readonly more?: ReactNode;
  readonly children?: ReactNode;
}) => (
  <div
    className={classes(parts.notice, props.isWrong && parts.wrong)}
    role={props.role ?? (props.isWrong ? "alert" : "status")}
  >
    <details open={props.isOpen}>
      <summary>
        <span>{props.says}</span>
      </summary>
      {props.more}
    </details>
    {props.children}
  </div>
);
