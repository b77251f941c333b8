import { MoreHorizontal } from "lucide-react";
import { Fragment, useMemo, useState } from "react";
import { NOT_SET, SENTENCE } from "../../words/index.ts";
import { Choose, classes, LengthPad, mmOf, parts, retyped, writeIn } from "../kit/index.ts";
import { calledOf, type JobDocument, type Json, same, setValue } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import styles from "./bar-editor.module.css";
import { NodeTools } from "./node-tools.tsx";
import { optionsFor } from "./options.ts";
import type { Part, Sentence } from "./parts.ts";

/** One sentence, each of its numbers and names a button. */
export function SentenceLine(props: {
  readonly document: JobDocument;
  readonly bar: string;
  readonly sentence: Sentence;
  readonly onWait: (node: number) => void;
}) {
  const { document, bar, sentence } = props;
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const act = useActions();
  const [asked, setAsked] = useState<Exclude<Part, { kind: "words" }>>();
  const [tools, setTools] = useState(false);
  const label = calledOf(document, "bar", bar);

  function set(part: Exclude<Part, { kind: "words" }>, to: Json | undefined): void {
    setAsked(undefined);
    const value =
      to === undefined ? SENTENCE.none : typeof to === "number" ? write.length(to) : nameOf(part, to);
    act.run(setValue(part.path, to, SENTENCE.step(label, part.label, value)));
  }

  /** A choice by what a person calls it. */
  const nameOf = (part: Exclude<Part, { kind: "words" }>, to: Json): string =>
    part.kind === "choice"
      ? (optionsFor(document, part.what, bar).find(([id]) => same(keptFor(part, id), to))?.[1] ?? String(to))
      : String(to);

  const { node } = sentence;
  const isNode = node !== undefined && sentence.role !== "crowd";
  return (
    <div className={classes(parts.sentence, sentence.role === "crowd" && styles.crowd)}>
      <p>
        {sentence.parts.map((part, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the parts of a sentence have their place and no other name
          <Fragment key={i}>
            {i > 0 && " "}
            {part.kind === "words" ? (
              part.words
            ) : part.kind === "length" ? (
              <button
                type="button"
                className={parts.value}
                aria-label={SENTENCE.value(part.label, saysLength(part, write.length))}
                onClick={() => setAsked(part)}
              >
                {saysLength(part, write.length)}
              </button>
            ) : (
              <button
                type="button"
                className={classes(parts.value, parts.name)}
                aria-label={SENTENCE.value(part.label, part.says)}
                onClick={() => setAsked(part)}
              >
                {part.says}
              </button>
            )}
          </Fragment>
        ))}
      </p>
      {isNode && (
        <button
          type="button"
          className={classes(parts.icon, styles.more)}
          aria-label={SENTENCE.more(sentence.who ?? "")}
          onClick={() => setTools(true)}
        >
          <MoreHorizontal aria-hidden />
        </button>
      )}
      {asked?.kind === "length" && (
        <LengthPad
          title={asked.label}
          value={asked.value}
          unit={show.length}
          {...(asked.sides ? { sides: asked.sides } : {})}
          {...(asked.otherwise ? { clear: asked.otherwise } : {})}
          write={write.length}
          onClose={() => setAsked(undefined)}
          onSet={(value) => set(asked, value)}
        />
      )}
      {asked?.kind === "choice" && (
        <Choose
          title={asked.label}
          value={asked.value}
          options={optionsFor(document, asked.what, bar)}
          onClose={() => setAsked(undefined)}
          onPick={(id) => set(asked, keptFor(asked, id))}
        />
      )}
      {tools && isNode && (
        <NodeTools
          document={document}
          bar={bar}
          node={node}
          role={sentence.role as "A" | "B" | "corner"}
          onWait={props.onWait}
          onClose={() => setTools(false)}
        />
      )}
    </div>
  );
}

/** What the document keeps for an option. */
const keptFor = (part: Extract<Part, { kind: "choice" }>, id: string): Json | undefined =>
  part.make ? part.make(id) : id === "" ? undefined : id;

/** As entered where it was entered with a unit, else in the shop's own; its side after it. */
function saysLength(part: Extract<Part, { kind: "length" }>, write: (mm: number) => string): string {
  if (part.value === undefined) return part.otherwise ?? NOT_SET;
  const mm = mmOf(part.value);
  const size =
    typeof part.value === "string"
      ? retyped(part.value, "mm").text
      : mm === undefined
        ? String(part.value)
        : write(Math.abs(mm));
  if (!part.sides) return size;
  return SENTENCE.sided(size, part.sides[(mm ?? 0) < 0 ? 1 : 0]);
}
