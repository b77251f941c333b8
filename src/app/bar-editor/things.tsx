import { Trash2 } from "lucide-react";
import { useMemo, useState } from "react";
import { NOT_SET, SENTENCE, THINGS } from "../../words/index.ts";
import {
  AskText,
  Choose,
  classes,
  LengthPad,
  mmOf,
  NumberPad,
  parts,
  retyped,
  writeIn,
} from "../kit/index.ts";
import {
  addThing,
  at,
  confirmExample,
  deleteThing,
  entries,
  freeId,
  idFrom,
  type JobDocument,
  type Json,
  renameThing,
  setValue,
  thingsOf,
} from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import styles from "./bar-editor.module.css";
import {
  chosen,
  type Field,
  fieldsOf,
  figureOf,
  isExample,
  newThing,
  optionOf,
  placeWith,
  SHOP_FIELDS,
  THING_KINDS,
  type ThingKind,
} from "./thing-fields.ts";

/** Tubes, dies, plates, points and what holds for the shop, each value a button. */
export function Things() {
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  const act = useActions();
  const [kind, setKind] = useState<ThingKind | "shop">("tube");
  const [asks, setAsks] = useState<"new" | { readonly rename: string }>();
  if (!document) return null;
  const list = kind === "shop" ? [] : entries(thingsOf(document, kind));
  return (
    <section className={styles.things} aria-label={THINGS.region}>
      <h3>{THINGS.region}</h3>
      <div className={classes(parts.pair, parts.many)} role="group" aria-label={THINGS.which}>
        {[...THING_KINDS, "shop" as const].map((k) => (
          <button key={k} type="button" aria-pressed={k === kind} onClick={() => setKind(k)}>
            {k === "shop" ? THINGS.shop : THINGS.many[k]}
          </button>
        ))}
      </div>
      {kind === "shop" ? (
        <Fields document={document} fields={SHOP_FIELDS} name={THINGS.shop} />
      ) : (
        <>
          {list.map(([id]) => (
            <article key={id} className={styles.thing}>
              <header>
                <button
                  type="button"
                  className={classes(parts.value, parts.name)}
                  aria-label={THINGS.rename(THINGS.one[kind], id)}
                  onClick={() => setAsks({ rename: id })}
                >
                  {id}
                </button>
                <button
                  type="button"
                  className={classes(parts.icon, styles.more)}
                  aria-label={THINGS.remove(THINGS.one[kind], id)}
                  onClick={() => act.run(deleteThing(kind, id))}
                >
                  <Trash2 aria-hidden />
                </button>
              </header>
              <Fields
                document={document}
                fields={fieldsOf(document, kind, id)}
                name={THINGS.named(THINGS.one[kind], id)}
              />
            </article>
          ))}
          {list.length === 0 && <p>{THINGS.none(THINGS.one[kind])}</p>}
          <button type="button" onClick={() => setAsks("new")}>
            {THINGS.create(THINGS.one[kind])}
          </button>
        </>
      )}
      {asks !== undefined && kind !== "shop" && (
        <AskText
          title={asks === "new" ? THINGS.create(THINGS.one[kind]) : THINGS.renameTitle(asks.rename)}
          label={THINGS.nameLabel(THINGS.one[kind])}
          value={asks === "new" ? THINGS.one[kind] : asks.rename}
          done={asks === "new" ? THINGS.add(THINGS.one[kind]) : THINGS.renameIt}
          onClose={() => setAsks(undefined)}
          onDone={(text) => {
            setAsks(undefined);
            if (asks === "new")
              act.run(
                addThing(kind, freeId(document, kind, idFrom(text)), newThing(kind, show.length, text)),
              );
            else act.run(renameThing(kind, asks.rename, idFrom(text)));
          }}
        />
      )}
    </section>
  );
}

export function Fields({
  document,
  fields,
  name,
}: {
  readonly document: JobDocument;
  readonly fields: readonly Field[];
  readonly name: string;
}) {
  const show = useApp((s) => s.show);
  const act = useActions();
  const write = useMemo(() => writeIn(show), [show]);
  const [asked, setAsked] = useState<Field>();
  const value = asked && at(document, asked.path);

  function set(field: Field, to: Json | undefined, value = String(to)): void {
    setAsked(undefined);
    const [path, whole] = placeWith(document, field.path, to);
    act.run(
      setValue(
        path,
        whole,
        THINGS.step(
          name,
          field.label,
          to === undefined
            ? NOT_SET
            : typeof to === "number" && field.kind === "length"
              ? write.length(to)
              : value,
        ),
      ),
    );
  }

  return (
    <dl className={styles.fields}>
      {fields.map((field) => {
        const says = saysField(
          field,
          at(document, field.path),
          field.kind === "length" && field.fine ? write.fine : write.length,
        );
        return (
          <div key={field.path.join(".")}>
            <dt>{field.label}</dt>
            {isExample(document, field) && (
              <dd className={styles.example}>
                {THINGS.example}
                <button
                  type="button"
                  aria-label={THINGS.confirmOf(name, field.label)}
                  onClick={() => {
                    const [thing, figure] = figureOf(field.path);
                    act.run(confirmExample(thing, figure, THINGS.confirmOf(name, field.label)));
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
      {asked?.kind === "length" && (
        <LengthPad
          title={THINGS.field(name, asked.label)}
          value={value}
          unit={show.length}
          {...(asked.sides ? { sides: asked.sides } : {})}
          {...(asked.optional ? { clear: asked.optional } : {})}
          write={asked.fine ? write.fine : write.length}
          onClose={() => setAsked(undefined)}
          onSet={(to) => set(asked, to)}
        />
      )}
      {asked?.kind === "number" && (
        <NumberPad
          title={THINGS.field(name, asked.label)}
          value={typeof value === "number" ? value : undefined}
          least={asked.least}
          most={asked.most}
          unit={asked.unit}
          {...(asked.sides ? { sides: asked.sides } : {})}
          onClose={() => setAsked(undefined)}
          onSet={(to) => set(asked, to)}
        />
      )}
      {asked?.kind === "text" && (
        <AskText
          title={THINGS.field(name, asked.label)}
          label={asked.label}
          as="name"
          value={typeof value === "string" ? value : ""}
          done={THINGS.set}
          onClose={() => setAsked(undefined)}
          onDone={(to) => set(asked, to)}
        />
      )}
      {asked?.kind === "choice" && (
        <Choose
          title={asked.label}
          value={optionOf(asked, value)}
          options={asked.options.map((o) => [o, o])}
          onClose={() => setAsked(undefined)}
          onPick={(option) => set(asked, chosen(asked, option), option)}
        />
      )}
    </dl>
  );
}

function saysField(field: Field, value: Json | undefined, write: (mm: number) => string): string {
  if (field.kind === "choice") return optionOf(field, value);
  if (value === undefined) return (field.kind === "length" ? field.optional : undefined) ?? NOT_SET;
  if (field.kind === "text") return String(value);
  if (field.kind === "number") {
    const n = Number(value);
    return field.sides
      ? n === 0
        ? "0"
        : SENTENCE.sided(String(Math.abs(n)), field.sides[n < 0 ? 1 : 0])
      : `${n}${field.unit}`;
  }
  const mm = mmOf(value) ?? 0;
  const size = typeof value === "string" ? retyped(value, "mm").text : write(field.sides ? Math.abs(mm) : mm);
  return field.sides ? SENTENCE.sided(size, field.sides[mm < 0 ? 1 : 0]) : size;
}
