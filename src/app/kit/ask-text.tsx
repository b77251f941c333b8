import { type ReactNode, useEffect, useId, useRef, useState } from "react";
import { wrongText } from "../../core/job/index.ts";
import { DIALOG, sayProblem } from "../../words/index.ts";
import { classes } from "./classes.ts";
import styles from "./dialog.module.css";
import { Dialog } from "./dialog.tsx";
import parts from "./parts.module.css";

/** One line of text under one question. What the job's file could not hold is refused here, with what is wrong. */
export function AskText(props: {
  readonly title: string;
  readonly label: string;
  /** What the text becomes, which says how long it may be. */
  readonly as?: "label" | "name";
  readonly value: string;
  readonly done: string;
  readonly onDone: (text: string) => void;
  readonly onClose: () => void;
  readonly children?: ReactNode;
}) {
  const input = useRef<HTMLInputElement>(null);
  const id = useId();
  const [wrong, setWrong] = useState<string>();
  useEffect(() => {
    input.current?.select();
  }, []);
  return (
    <Dialog title={props.title} onClose={props.onClose}>
      <form
        className={styles.ask}
        onSubmit={(event) => {
          event.preventDefault();
          const text = input.current?.value.trim() ?? "";
          const why = wrongText(text, props.as);
          setWrong(why && sayProblem(why));
          if (text !== "" && why === undefined) props.onDone(text);
        }}
      >
        <label htmlFor={id}>{props.label}</label>
        <input
          id={id}
          ref={input}
          className={styles.text}
          type="text"
          defaultValue={props.value}
          autoComplete="off"
          aria-invalid={wrong !== undefined}
          onChange={() => setWrong(undefined)}
        />
        {wrong !== undefined && (
          <output className={classes(parts.says, parts.wrong)}>{DIALOG.wrongText(wrong)}</output>
        )}
        {props.children}
        <button type="submit" className={parts.main}>
          {props.done}
        </button>
      </form>
    </Dialog>
  );
}
