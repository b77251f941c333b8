import { useMemo, useState } from "react";
import { EXPLAIN_ERROR, REPEATED, SHOP_SHEET } from "../../words/index.ts";
import { Dialog, parts, retyped, writeIn } from "../kit/index.ts";
import { type Json, setValue } from "../model/document/index.ts";
import type { Edit } from "./edit.ts";
import { degrees, length } from "./field.ts";
import { ERROR_KINDS, type ErrorKind } from "./kinds/shop.ts";
import { FieldPad } from "./pad.tsx";
import { keptError, READINGS, scatterOf } from "./scatter.ts";
import styles from "./things.module.css";

/** Ten readings of one and the same thing, one keypad after the other, and the error that they give. */
export function RepeatedReadings(props: {
  readonly kind: ErrorKind;
  readonly edit: Edit;
  readonly onClose: () => void;
}) {
  const { kind, edit, onClose } = props;
  const write = useMemo(() => writeIn(edit.show), [edit.show]);
  const [typed, setTyped] = useState<readonly Json[]>([]);
  const [asked, setAsked] = useState<number>();
  const inMm = ERROR_KINDS[kind] === "mm";
  const name = SHOP_SHEET.error[kind];
  const says = (value: Json): string =>
    typeof value === "string" ? retyped(value, "mm").text : inMm ? write.length(Number(value)) : `${value}°`;
  const error = (sd: number): string => (inMm ? write.fine(sd) : `${Number(sd.toPrecision(2))}°`);
  const found = scatterOf(typed);

  function take(to: Json | undefined): void {
    const n = asked ?? 0;
    setAsked(undefined);
    if (to === undefined) return;
    const next = [...typed.slice(0, n), to, ...typed.slice(n + 1)];
    setTyped(next);
    // one after the other, until all are there
    if (n === typed.length && next.length < READINGS) setAsked(next.length);
  }

  return (
    <Dialog title={REPEATED.title(SHOP_SHEET.errorOf[kind])} onClose={onClose}>
      <p>{REPEATED.how[kind]}</p>
      {typed.length > 0 && (
        <ol className={styles.readings}>
          {typed.map((value, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a reading has its number and no other name
            <li key={i}>
              <button
                type="button"
                className={parts.value}
                aria-label={REPEATED.change(i + 1, says(value))}
                onClick={() => setAsked(i)}
              >
                {says(value)}
              </button>
            </li>
          ))}
        </ol>
      )}
      {found ? (
        <>
          <p role="status" className={parts.verdict}>
            {REPEATED.found(error(found.sd), error(found.sdOfSd))}
          </p>
          {found.isScale && <p>{REPEATED.floor}</p>}
          <p className={parts.quiet}>{EXPLAIN_ERROR}</p>
          <button
            type="button"
            className={parts.main}
            onClick={() => {
              const sd = keptError(found.sd);
              edit.run(setValue(["shop", "errors", kind], sd, REPEATED.step(name, error(sd))));
              onClose();
            }}
          >
            {REPEATED.use(error(keptError(found.sd)))}
          </button>
        </>
      ) : (
        <>
          <p role="status">{REPEATED.left(READINGS - typed.length)}</p>
          <button type="button" className={parts.main} onClick={() => setAsked(typed.length)}>
            {REPEATED.add(typed.length + 1)}
          </button>
        </>
      )}
      {asked !== undefined && (
        <FieldPad
          key={asked}
          field={
            inMm
              ? length([], REPEATED.reading(asked + 1))
              : degrees([], REPEATED.reading(asked + 1), -180, 360)
          }
          title={REPEATED.reading(asked + 1)}
          value={typed[asked]}
          edit={edit}
          onClose={() => setAsked(undefined)}
          onSet={take}
        />
      )}
    </Dialog>
  );
}
