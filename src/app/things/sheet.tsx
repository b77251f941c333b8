import { Trash2 } from "lucide-react";
import { lazy, type ReactNode, Suspense, useState } from "react";
import { THINGS } from "../../words/index.ts";
import { classes, parts } from "../kit/index.ts";
import { setValues } from "../model/document/index.ts";
import { Adding } from "./adding.tsx";
import type { Edit } from "./edit.ts";
import type { Add, List, Remove, Sheet } from "./field.ts";
import { Fields } from "./fields.tsx";
import styles from "./things.module.css";

// A drawing or a computation beside the figures comes with its sheet.
const BesideSheet = lazy(async () => ({ default: (await import("./beside.tsx")).BesideSheet }));

/** One thing: its figures, its lists, what can be added to it. */
export function SheetOf(props: {
  readonly sheet: Sheet;
  readonly edit: Edit;
  /** The buttons of its head, in place of its bare title. */
  readonly head?: ReactNode;
}) {
  const { sheet, edit } = props;
  return (
    <article className={styles.thing}>
      <header>
        {props.head ?? <h3 className={styles.title}>{sheet.title}</h3>}
        {sheet.remove && <RemoveButton remove={sheet.remove} edit={edit} />}
      </header>
      {sheet.fields.length > 0 && <Fields edit={edit} fields={sheet.fields} name={sheet.title} />}
      {sheet.lists?.map((list) => (
        <ListOf key={list.title} list={list} edit={edit} of={sheet.title} />
      ))}
      {sheet.beside && (
        <Suspense fallback={null}>
          <BesideSheet beside={sheet.beside} sheet={sheet} edit={edit} />
        </Suspense>
      )}
      {sheet.adds && sheet.adds.length > 0 && (
        <div className={parts.row}>
          {sheet.adds.map((add) => (
            <AddButton key={add.says} add={add} edit={edit} />
          ))}
        </div>
      )}
    </article>
  );
}

function ListOf({ list, edit, of }: { readonly list: List; readonly edit: Edit; readonly of: string }) {
  return (
    <section className={styles.list} aria-label={THINGS.field(of, list.title)}>
      <h4>{list.title}</h4>
      {list.entries.length > 0 && (
        <ol>
          {list.entries.map((entry) => (
            <li key={entry.key} className={classes(styles.entry, list.close && styles.short)}>
              {!list.close && <strong>{entry.says}</strong>}
              <Fields edit={edit} fields={entry.fields} name={THINGS.of(entry.says, of)} close />
              {entry.adds?.map((add) => (
                <AddButton key={add.says} add={add} edit={edit} />
              ))}
              {entry.remove && <RemoveButton remove={entry.remove} edit={edit} />}
            </li>
          ))}
        </ol>
      )}
      <div className={parts.row}>
        <AddButton add={list.add} edit={edit} />
      </div>
    </section>
  );
}

export function AddButton({ add, edit }: { readonly add: Add; readonly edit: Edit }) {
  const [asks, setAsks] = useState(false);
  return (
    <>
      <button type="button" onClick={() => setAsks(true)}>
        {add.says}
      </button>
      {asks && <Adding add={add} edit={edit} onClose={() => setAsks(false)} />}
    </>
  );
}

const RemoveButton = ({ remove, edit }: { readonly remove: Remove; readonly edit: Edit }) => (
  <button
    type="button"
    className={classes(parts.icon, styles.more)}
    aria-label={remove.says}
    onClick={() => edit.run(setValues(remove.without, remove.says))}
  >
    <Trash2 aria-hidden />
  </button>
);
