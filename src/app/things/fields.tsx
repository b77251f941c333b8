import { useMemo, useState } from "react";
import { NOT_SET, THINGS } from "../../words/index.ts";
import { classes, parts, writeIn } from "../kit/index.ts";
import { at, confirmExample, type Json, setValue } from "../model/document/index.ts";
import type { Edit } from "./edit.ts";
import { type Field, figureOf, isExample } from "./field.ts";
import { FieldPad } from "./pad.tsx";
import { placeWith } from "./place-with.ts";
import { saysField } from "./says.ts";
import styles from "./things.module.css";

/** The figures of one thing, each a button that opens its question. */
export function Fields(props: {
  readonly edit: Edit;
  readonly fields: readonly Field[];
  readonly name: string;
  /** Short figures beside one another. */
  readonly close?: boolean;
}) {
  const { edit, fields, name } = props;
  const { document } = edit;
  const write = useMemo(() => writeIn(edit.show), [edit.show]);
  const [asked, setAsked] = useState<Field>();

  function set(field: Field, to: Json | undefined, picked?: string): void {
    setAsked(undefined);
    const [path, whole] = placeWith(document, field.path, to);
    const value = to === undefined ? NOT_SET : (picked ?? saysField(field, to, write));
    edit.run(setValue(path, whole, THINGS.step(name, field.label, value)));
  }

  return (
    <dl className={classes(styles.fields, props.close && styles.close)}>
      {fields.map((field) => {
        const says = saysField(field, at(document, field.path), write);
        return (
          <div
            key={field.path.join(".") + field.kind}
            className={field.kind === "place" || field.kind === "names" ? styles.long : undefined}
          >
            <dt>{field.label}</dt>
            {isExample(document, field) && (
              <dd className={styles.example}>
                {THINGS.example}
                <button
                  type="button"
                  aria-label={THINGS.confirmOf(name, field.label)}
                  onClick={() => {
                    const [thing, figure] = figureOf(field.path);
                    edit.run(confirmExample(thing, figure, THINGS.confirmOf(name, field.label)));
                  }}
                >
                  {THINGS.confirm}
                </button>
              </dd>
            )}
            <dd>
              <button
                type="button"
                className={classes(parts.value, styles.field)}
                aria-label={THINGS.value(name, field.label, says)}
                onClick={() => setAsked(field)}
              >
                {says}
              </button>
            </dd>
          </div>
        );
      })}
      {asked && (
        <FieldPad
          field={asked}
          title={THINGS.field(name, asked.label)}
          value={at(document, asked.path)}
          edit={edit}
          onClose={() => setAsked(undefined)}
          onSet={(to, picked) => set(asked, to, picked)}
        />
      )}
    </dl>
  );
}
