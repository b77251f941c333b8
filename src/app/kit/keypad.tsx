import { Delete } from "lucide-react";
import { useEffect, useRef, useState } from "react";
import { KEYPAD } from "../../words/index.ts";
import type { Json } from "../model/document/index.ts";
import { classes } from "./classes.ts";
import { Dialog } from "./dialog.tsx";
import { type Entered, enteredLength, enteredNumber, retyped, sided } from "./entered.ts";
import styles from "./keypad.module.css";
import parts from "./parts.module.css";

interface Asked {
  readonly title: string;
  readonly onClose: () => void;
}

const BACK = KEYPAD.backspace;
/** Row by row; digits as on any keypad. */
const LENGTH_KEYS: readonly string[] = [
  ["7", "8", "9", BACK],
  ["4", "5", "6", "in"],
  ["1", "2", "3", "mm"],
  ["0", ".", "/", " "],
  ["+", "−"],
].flat();
const NUMBER_KEYS: readonly string[] = [
  ["7", "8", "9"],
  ["4", "5", "6"],
  ["1", "2", "3"],
  ["0", ".", BACK],
].flat();

/** A length, in millimetres or inch fractions as read; kept as entered. `onSet(undefined)`: no value. */
export function LengthPad(
  props: Asked & {
    readonly value: Json | undefined;
    readonly unit: "mm" | "in";
    readonly sides?: readonly [string, string];
    /** Which way it goes until that is chosen, where there is no value yet. */
    readonly below?: boolean;
    readonly write: (mm: number) => string;
    readonly clear?: string;
    /** What is wrong with a length that can be read (mm), if anything. */
    readonly wrong?: (mm: number) => string | undefined;
    /** A likely figure, beside what is said of the one typed. */
    readonly likely?: React.ReactNode;
    /** Beside OK: another way on. */
    readonly beside?: React.ReactNode;
    readonly onSet: (value: number | string | undefined) => void;
  },
) {
  const was = retyped(props.value, props.unit);
  const [text, setText] = useState(was.text);
  const side = useSide(text, setText, props.sides, was.negative || props.below === true);
  const typed = enteredLength(side.figure, props.unit, props.sides !== undefined && side.below);
  const why = typed.ok ? props.wrong?.(typed.mm) : undefined;
  const read: Entered = why === undefined ? typed : { ok: false, why };
  return (
    <Pad
      {...props}
      text={text}
      setText={setText}
      read={read}
      keys={LENGTH_KEYS}
      says={read.ok ? KEYPAD.equals(props.write(Math.abs(read.mm))) : read.why}
      onDone={() => read.ok && props.onSet(read.value)}
    >
      {props.sides && <Sides sides={props.sides} {...side} />}
      {props.clear && (
        <button type="button" onClick={() => props.onSet(undefined)}>
          {props.clear}
        </button>
      )}
    </Pad>
  );
}

/** Degrees within bounds, or another plain number. */
export function NumberPad(
  props: Asked & {
    readonly value: number | undefined;
    readonly least: number;
    readonly most: number;
    /** Default degrees. */
    readonly unit?: string;
    readonly sides?: readonly [string, string];
    readonly clear?: { readonly says: string; readonly onClear: () => void };
    readonly onSet: (value: number) => void;
  },
) {
  const [text, setText] = useState(props.value === undefined ? "" : String(Math.abs(props.value)));
  const side = useSide(text, setText, props.sides, (props.value ?? 0) < 0);
  const read = enteredNumber(side.figure, props.sides ? 0 : props.least, props.most, props.unit);
  return (
    <Pad
      {...props}
      text={text}
      setText={setText}
      read={read}
      keys={NUMBER_KEYS}
      says={read.ok ? KEYPAD.equals(`${read.value}${props.unit ?? "°"}`) : read.why}
      onDone={() => read.ok && props.onSet((props.sides && side.below ? -read.mm : read.mm) + 0)}
    >
      {props.sides && <Sides sides={props.sides} {...side} />}
      {props.clear && (
        <button type="button" onClick={props.clear.onClear}>
          {props.clear.says}
        </button>
      )}
    </Pad>
  );
}

/** Which way a figure goes: as its side was tapped, or, as the page writes it, typed behind it. `figure`: without it. */
function useSide(
  text: string,
  setText: (text: string) => void,
  sides: readonly [string, string] | undefined,
  wasBelow: boolean,
) {
  const [chosen, setChosen] = useState(wasBelow);
  const typed = sided(text, sides);
  function setBelow(to: boolean): void {
    setChosen(to);
    if (typed.below !== undefined) setText(typed.text);
  }
  return { figure: typed.text, below: typed.below ?? chosen, setBelow };
}

/** Which of two ways a figure goes: forward or back, left or right. */
function Sides(props: {
  readonly sides: readonly [string, string];
  readonly below: boolean;
  readonly setBelow: (below: boolean) => void;
}) {
  return (
    // A tap leaves the caret in the field: the figure that is typed next goes there.
    <div className={parts.pair} role="group" aria-label={KEYPAD.direction} onMouseDown={stayInField}>
      {props.sides.map((side, i) => (
        <button
          key={side}
          type="button"
          aria-pressed={props.below === (i === 1)}
          onClick={() => props.setBelow(i === 1)}
        >
          {side}
        </button>
      ))}
    </div>
  );
}

const stayInField = (event: { preventDefault(): void }): void => event.preventDefault();
const WIDE: Readonly<Record<string, string | undefined>> = {
  " ": styles.space,
  "+": styles.half,
  "−": styles.half,
};

function Pad(
  props: Asked & {
    readonly text: string;
    readonly setText: (text: string) => void;
    readonly read: Entered;
    readonly keys: readonly string[];
    readonly says: string;
    readonly likely?: React.ReactNode;
    readonly beside?: React.ReactNode;
    readonly onDone: () => void;
    readonly children?: React.ReactNode;
  },
) {
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    input.current?.select();
  }, []);
  /** Types at the caret, over what is selected. */
  function type(key: string): void {
    const field = input.current;
    if (!field) return;
    const [from, to] = [field.selectionStart ?? props.text.length, field.selectionEnd ?? props.text.length];
    const put = key === "mm" || key === "in" ? ` ${key}` : key === "+" || key === "−" ? ` ${key} ` : key;
    props.setText(props.text.slice(0, from) + put + props.text.slice(to));
    const caret = from + put.length;
    requestAnimationFrame(() => field.setSelectionRange(caret, caret));
  }
  function back(): void {
    const field = input.current;
    if (!field) return;
    const [from, to] = [field.selectionStart ?? 0, field.selectionEnd ?? 0];
    const start = from === to ? Math.max(0, from - 1) : from;
    props.setText(props.text.slice(0, start) + props.text.slice(to));
    requestAnimationFrame(() => field.setSelectionRange(start, start));
  }
  return (
    <Dialog title={props.title} onClose={props.onClose}>
      <form
        className={styles.pad}
        onSubmit={(event) => {
          event.preventDefault();
          props.onDone();
        }}
        onKeyDown={(event) => {
          // a figure typed while a button has the focus is meant for the field
          const isFigure =
            /^[\d.,/+−-]$/.test(event.key) && !event.ctrlKey && !event.metaKey && !event.altKey;
          if (isFigure && event.target !== input.current) input.current?.focus();
        }}
      >
        {/* the keypad below types; a real keyboard does, too, but none is called up over the page */}
        <input
          ref={input}
          className={styles.reading}
          type="text"
          inputMode="none"
          autoComplete="off"
          aria-label={props.title}
          aria-invalid={!props.read.ok}
          value={props.text}
          onChange={(event) => props.setText(event.target.value)}
        />
        <div className={styles.said}>
          <output className={classes(parts.says, !props.read.ok && parts.wrong)}>{props.says}</output>
          {props.likely}
        </div>
        {props.children}
        <div
          className={styles.keys}
          data-columns={props.keys === NUMBER_KEYS ? 3 : 4}
          role="group"
          aria-label={KEYPAD.keys}
          onMouseDown={stayInField}
        >
          {props.keys.map((key) => (
            <button
              key={key}
              type="button"
              tabIndex={-1}
              onClick={() => (key === BACK ? back() : type(key))}
              className={WIDE[key]}
              aria-label={key === " " ? KEYPAD.space : key}
            >
              {key === " " ? KEYPAD.space : key === BACK ? <Delete aria-hidden /> : key}
            </button>
          ))}
        </div>
        <div className={styles.done}>
          {props.beside}
          <button type="submit" className={parts.main} disabled={!props.read.ok}>
            {KEYPAD.done}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
