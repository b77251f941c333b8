import { useState } from "react";
import { ASKED, THINGS } from "../../words/index.ts";
import { AskText } from "../kit/index.ts";
import {
  at,
  isObject,
  type JobDocument,
  type Json,
  type JsonPath,
  setValue,
} from "../model/document/index.ts";
import type { Edit } from "./edit.ts";
import type { Add } from "./field.ts";
import { FieldPad } from "./pad.tsx";
import { added, built } from "./place-with.ts";

/** The questions of something new, one after the other; what was answered is put in whole, in one step. */
export function Adding({
  add,
  edit,
  onClose,
}: {
  readonly add: Add;
  readonly edit: Edit;
  readonly onClose: () => void;
}) {
  const [name, setName] = useState<string | undefined>(add.name ? undefined : "");
  const [values, setValues] = useState<readonly Json[]>([]);
  if (name === undefined && add.name)
    return (
      <AskText
        title={add.says}
        label={add.name.label}
        as="name"
        value={add.name.usual}
        done={THINGS.set}
        onClose={onClose}
        onDone={setName}
      />
    );
  const { asks } = add;
  const ask = asks[values.length];
  if (!ask) return null;

  function finish(all: readonly Json[]): void {
    onClose();
    const whole = built(asks, all);
    const path = free(edit.document, add.to(edit.document, name ?? ""));
    edit.run(setValue(...added(edit.document, path, whole), add.says));
  }
  const next = (to: Json): void => {
    const all = [...values, to];
    if (all.length === asks.length) finish(all);
    else setValues(all);
  };
  const what = name ? ASKED.axis(name, ask.field.label) : ASKED.axis(add.says, ask.field.label);
  return (
    <FieldPad
      key={values.length}
      field={ask.field}
      title={ASKED.step(what, values.length + 1, asks.length)}
      value={undefined}
      edit={edit}
      {...(ask.skip ? { skip: { says: ask.skip, onSkip: () => finish(values) } } : {})}
      onClose={onClose}
      onSet={(to) => (to === undefined ? onClose() : next(to))}
    />
  );
}

/** Of a name that is taken the next that is free. */
function free(document: JobDocument, path: JsonPath): JsonPath {
  const last = path.at(-1);
  const home = at(document, path.slice(0, -1));
  if (typeof last !== "string" || !isObject(home)) return path;
  let name = last;
  for (let n = 2; Object.hasOwn(home, name); n++) name = `${last} ${n}`;
  return [...path.slice(0, -1), name];
}
