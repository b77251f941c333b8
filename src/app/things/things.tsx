import { Trash2 } from "lucide-react";
import { useState } from "react";
import { THINGS } from "../../words/index.ts";
import { AskText, classes, parts } from "../kit/index.ts";
import { addThing, deleteThing, freeId, idFrom, renameThing } from "../model/document/index.ts";
import type { Edit } from "./edit.ts";
import type { Sheet } from "./field.ts";
import { SheetOf } from "./sheet.tsx";
import styles from "./things.module.css";
import { isThing, newThing, sheetsOf, TOPICS, type Topic } from "./topics.ts";
import { useEdit } from "./use-edit.ts";

/** As many topics as are side by side. */
const ROW = 4;

/** All that the job in hand holds beside bars and readings. */
export function Things() {
  const edit = useEdit();
  return edit ? <ThingsOf edit={edit} topics={TOPICS} title={THINGS.region} /> : null;
}

/** Topics of a job, each value a button, by what it is of. */
export function ThingsOf(props: {
  readonly edit: Edit;
  readonly topics: readonly Topic[];
  readonly title: string;
}) {
  const { edit, topics, title } = props;
  const [topic, setTopic] = useState<Topic>(topics[0] ?? "tube");
  return (
    <section className={styles.things} aria-label={title}>
      <h3>{title}</h3>
      <div
        className={classes(parts.pair, topics.length > ROW && classes(parts.many, styles.topics))}
        role="group"
        aria-label={THINGS.which}
      >
        {topics.map((one) => (
          <button key={one} type="button" aria-pressed={one === topic} onClick={() => setTopic(one)}>
            {THINGS.many[one]}
          </button>
        ))}
      </div>
      <TopicSheets key={topic} topic={topic} edit={edit} />
    </section>
  );
}

/** Every sheet of a topic, and the button for a new thing where it is one of things by name. */
export function TopicSheets({ topic, edit }: { readonly topic: Topic; readonly edit: Edit }) {
  const sheets = sheetsOf(edit.document, topic);
  return (
    <>
      {sheets.map((sheet) => (
        <NamedSheet key={sheet.key} sheet={sheet} edit={edit} />
      ))}
      {isThing(topic) && (
        <>
          {sheets.length === 0 && <p>{THINGS.none(THINGS.one[topic])}</p>}
          <NewThing kind={topic} edit={edit} />
        </>
      )}
    </>
  );
}

function NewThing({ kind, edit }: { readonly kind: keyof typeof THINGS.one; readonly edit: Edit }) {
  const [asks, setAsks] = useState(false);
  const one = THINGS.one[kind];
  return (
    <>
      <button type="button" onClick={() => setAsks(true)}>
        {THINGS.create(one)}
      </button>
      {asks && (
        <AskText
          title={THINGS.create(one)}
          label={THINGS.nameLabel(one)}
          value={one}
          done={THINGS.add(one)}
          onClose={() => setAsks(false)}
          onDone={(text) => {
            setAsks(false);
            const id = freeId(edit.document, kind, idFrom(text));
            edit.run(addThing(kind, id, newThing(kind, edit.show.length, text)));
          }}
        />
      )}
    </>
  );
}

/** A sheet; of a thing by name with its buttons to rename and delete it. */
export function NamedSheet(props: {
  readonly sheet: Sheet;
  readonly edit: Edit;
  /** The page is of it alone: there it is named and cannot be taken out. */
  readonly isOnly?: boolean;
}) {
  const { sheet, edit } = props;
  const [asks, setAsks] = useState(false);
  const { thing } = sheet;
  if (props.isOnly && thing) return <SheetOf sheet={sheet} edit={edit} head={<h3>{THINGS.figures}</h3>} />;
  if (!thing) return <SheetOf sheet={sheet} edit={edit} />;
  const { kind, id } = thing;
  const one = THINGS.one[kind];
  return (
    <>
      <SheetOf
        sheet={sheet}
        edit={edit}
        head={
          <>
            <button
              type="button"
              className={classes(parts.value, parts.name)}
              aria-label={THINGS.rename(one, id)}
              onClick={() => setAsks(true)}
            >
              {id}
            </button>
            <button
              type="button"
              className={classes(parts.icon, styles.more)}
              aria-label={THINGS.remove(one, id)}
              onClick={() => edit.run(deleteThing(kind, id))}
            >
              <Trash2 aria-hidden />
            </button>
          </>
        }
      />
      {asks && (
        <AskText
          title={THINGS.renameTitle(id)}
          label={THINGS.nameLabel(one)}
          value={id}
          done={THINGS.renameIt}
          onClose={() => setAsks(false)}
          onDone={(text) => {
            setAsks(false);
            edit.run(renameThing(kind, id, idFrom(text)));
          }}
        />
      )}
    </>
  );
}
