import { useState } from "react";
import { ASKED, SIDES } from "../../words/index.ts";
import { AskText, Choose, Dialog, LengthPad, NumberPad, parts, type Write, writeIn } from "../kit/index.ts";
import type { Json } from "../model/document/index.ts";
import type { Edit } from "./edit.ts";
import { AXES, chosen, type Field, type NamesField, optionOf, type PlaceField } from "./field.ts";
import { otherwise } from "./says.ts";

interface Asked<F extends Field = Field> {
  readonly field: F;
  readonly title: string;
  readonly value: Json | undefined;
  readonly edit: Edit;
  /** Offered beside the keypad in place of what holds without the figure. */
  readonly skip?: { readonly says: string; readonly onSkip: () => void };
  readonly onClose: () => void;
  /** Undefined: no figure. `says`: what is picked, in its own words. */
  readonly onSet: (to: Json | undefined, says?: string) => void;
}

/** The question of one figure, whatever its kind. */
export function FieldPad(props: Asked) {
  const { field, title, value, edit, skip, onClose, onSet } = props;
  const write = writeIn(edit.show);
  const clear = skip?.says ?? otherwise(field, write);
  const onClear = skip?.onSkip ?? (() => onSet(undefined));
  if (field.kind === "length")
    return (
      <LengthPad
        key={title}
        title={title}
        value={value}
        unit={edit.show.length}
        {...(field.sides ? { sides: field.sides } : {})}
        {...(clear ? { clear } : {})}
        write={field.fine ? write.fine : write.length}
        onClose={onClose}
        onSet={(to) => (to === undefined ? onClear() : onSet(to))}
      />
    );
  if (field.kind === "number")
    return (
      <NumberPad
        key={title}
        title={title}
        value={typeof value === "number" ? value : undefined}
        least={field.least}
        most={field.most}
        unit={field.unit}
        {...(field.sides ? { sides: field.sides } : {})}
        {...(clear ? { clear: { says: clear, onClear } } : {})}
        onClose={onClose}
        onSet={onSet}
      />
    );
  if (field.kind === "text")
    return (
      <AskText
        title={title}
        label={field.label}
        as="name"
        value={typeof value === "string" ? value : ""}
        done={ASKED.done}
        onClose={onClose}
        onDone={onSet}
      />
    );
  if (field.kind === "choice")
    return (
      <Choose
        title={title}
        value={optionOf(field, value)}
        options={field.options.map((o) => [o, o])}
        onClose={onClose}
        onPick={(option) => onSet(chosen(field, option), option)}
      />
    );
  if (field.kind === "place") return <PlacePad {...props} field={field} write={write} />;
  return <NamesPad {...props} field={field} />;
}

/** A place: a measured point's, or three lengths in a row. */
function PlacePad(props: Asked<PlaceField> & { readonly write: Write }) {
  const { field, title, value, edit, write, onClose, onSet } = props;
  const points = Object.entries(edit.points ?? {});
  const [typed, setTyped] = useState<readonly Json[] | undefined>(points.length === 0 ? [] : undefined);
  if (!typed)
    return (
      <Choose
        title={title}
        options={[
          ["type", ASKED.type, ASKED.typeMore],
          ...points.map(([id], i) => [String(i), ASKED.point(id)] as const),
          ...(field.optional && value !== undefined ? [["clear", field.optional] as const] : []),
        ]}
        onClose={onClose}
        onPick={(id) => {
          if (id === "type") setTyped([]);
          else if (id === "clear") onSet(undefined);
          else onSet(points[Number(id)]?.[1].at.map((v) => Math.round(v * 10) / 10 + 0));
        }}
      />
    );
  const axis = AXES[typed.length] ?? "z";
  return (
    <LengthPad
      key={axis}
      title={ASKED.axis(title, SIDES[axis][0])}
      value={Array.isArray(value) ? value[typed.length] : undefined}
      unit={edit.show.length}
      sides={SIDES[axis]}
      {...(field.optional && typed.length === 0 && value !== undefined ? { clear: field.optional } : {})}
      write={write.length}
      onClose={onClose}
      onSet={(to) => {
        if (to === undefined) onSet(undefined);
        else if (typed.length === 2) onSet([...typed, to]);
        else setTyped([...typed, to]);
      }}
    />
  );
}

/** Some of a list, each a button that is pressed or not. */
function NamesPad({ field, title, value, onClose, onSet }: Asked<NamesField>) {
  const [picked, setPicked] = useState<readonly string[]>(
    Array.isArray(value) ? value.map(String).filter((n) => field.options.includes(n)) : [],
  );
  return (
    <Dialog title={title} onClose={onClose}>
      <ul className={parts.choices}>
        {field.options.map((name) => {
          const isIn = picked.includes(name);
          return (
            <li key={name}>
              <button
                type="button"
                className={parts.choice}
                aria-pressed={isIn}
                onClick={() => setPicked(isIn ? picked.filter((n) => n !== name) : [...picked, name])}
              >
                <span>{name}</span>
              </button>
            </li>
          );
        })}
      </ul>
      <button
        type="button"
        className={parts.main}
        onClick={() =>
          onSet(picked.length > 0 ? picked : undefined, picked.length > 0 ? picked.join(", ") : ASKED.none)
        }
      >
        {ASKED.done}
      </button>
    </Dialog>
  );
}
