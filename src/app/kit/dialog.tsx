import { X } from "lucide-react";
import { type ReactNode, useId, useLayoutEffect, useRef } from "react";
import { DIALOG } from "../../words/index.ts";
import { classes } from "./classes.ts";
import styles from "./dialog.module.css";
import parts from "./parts.module.css";

/** A sheet over the page; Escape, its cross and a tap beside it close it. Focus goes in and comes back by itself. */
export function Dialog(props: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
  readonly wide?: boolean;
}) {
  const ref = useRef<HTMLDialogElement>(null);
  const id = useId();
  // In the layout's turn: a dialog gives the focus back only if it is closed before it is taken out of the page.
  useLayoutEffect(() => {
    const dialog = ref.current;
    if (dialog && !dialog.open) dialog.showModal();
    return () => dialog?.close();
  }, []);
  return (
    // The Escape key is the dialog's own; a tap beside it needs no key of its own.
    // biome-ignore lint/a11y/useKeyWithClickEvents: see above
    <dialog
      ref={ref}
      aria-labelledby={id}
      className={classes(styles.sheet, props.wide && styles.wide)}
      onCancel={(event) => {
        event.preventDefault();
        props.onClose();
      }}
      onClick={(event) => {
        if (event.target === ref.current) props.onClose();
      }}
    >
      <div className={styles.in}>
        <header className={styles.head}>
          <h2 id={id}>{props.title}</h2>
          <button type="button" className={parts.icon} aria-label={DIALOG.close} onClick={props.onClose}>
            <X aria-hidden />
          </button>
        </header>
        {props.children}
      </div>
    </dialog>
  );
}

/** A few large choices under one question. */
export function Choose(props: {
  readonly title: string;
  readonly options: readonly (readonly [id: string, says: string, more?: string])[];
  readonly value?: string;
  readonly none?: string;
  readonly onPick: (id: string) => void;
  readonly onClose: () => void;
}) {
  return (
    <Dialog title={props.title} onClose={props.onClose}>
      {props.options.length === 0 && <p>{props.none ?? DIALOG.none}</p>}
      <ul className={parts.choices}>
        {props.options.map(([id, says, more]) => (
          <li key={id}>
            <button
              type="button"
              className={parts.choice}
              aria-pressed={props.value === undefined ? undefined : id === props.value}
              onClick={() => props.onPick(id)}
            >
              <span>{says}</span>
              {more && <small>{more}</small>}
            </button>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}
