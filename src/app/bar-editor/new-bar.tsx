import { useState } from "react";
import { NEW_BAR } from "../../words/index.ts";
import { AskText, Choose, LengthPad, writeIn } from "../kit/index.ts";
import {
  addBar,
  addThing,
  calledOf,
  entries,
  freeId,
  idFrom,
  type JsonObject,
  thingsOf,
} from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";

type Stage =
  | { readonly ask: "name" }
  | { readonly ask: "tube"; readonly name: string }
  | { readonly ask: "od" | "wall"; readonly name: string; readonly od?: number | string };

/** A new bar: its name, its tube (the first tube is asked for on the way), then its sentences. */
export function NewBar({ onClose }: { readonly onClose: () => void }) {
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  const act = useActions();
  const [stage, setStage] = useState<Stage>({ ask: "name" });
  if (!document) return null;
  const job = document;
  const write = writeIn(show);
  const tubes = entries(thingsOf(document, "tube"));

  function make(name: string, tube: string): void {
    onClose();
    const id = freeId(job, "bar", idFrom(name));
    // across the car at waist height, to be changed
    const bar: JsonObject = {
      label: name,
      tube,
      path: [
        [0, 500, 600],
        [0, -500, 600],
      ],
    };
    if (act.run(addBar(id, bar)).ok) act.take(id);
  }

  if (stage.ask === "name")
    return (
      <AskText
        title={NEW_BAR.title}
        label={NEW_BAR.nameLabel}
        as="label"
        value={NEW_BAR.name}
        done={NEW_BAR.next}
        onClose={onClose}
        onDone={(name) =>
          tubes.length === 0 ? setStage({ ask: "od", name }) : setStage({ ask: "tube", name })
        }
      />
    );
  if (stage.ask === "tube")
    return (
      <Choose
        title={NEW_BAR.tube(stage.name)}
        options={[
          ...tubes.map(([id]) => [id, calledOf(document, "tube", id)] as const),
          ["", NEW_BAR.otherTube] as const,
        ]}
        onClose={onClose}
        onPick={(id) => (id === "" ? setStage({ ask: "od", name: stage.name }) : make(stage.name, id))}
      />
    );
  if (stage.ask === "od")
    return (
      <LengthPad
        key="od"
        title={NEW_BAR.od}
        value={show.length === "mm" ? 40 : "1 3/4 in"}
        unit={show.length}
        write={write.size}
        onClose={onClose}
        onSet={(od) => od !== undefined && setStage({ ask: "wall", name: stage.name, od })}
      />
    );
  const { od = 40, name } = stage;
  return (
    <LengthPad
      key="wall"
      title={NEW_BAR.wall}
      value={show.length === "mm" ? 2.5 : "0.095 in"}
      unit={show.length}
      write={write.fine}
      onClose={onClose}
      onSet={(wall) => {
        if (wall === undefined) return;
        const id = freeId(document, "tube", idFrom(`${od}x${wall}`));
        if (act.run(addThing("tube", id, { od, wall })).ok) make(name, id);
        else onClose();
      }}
    />
  );
}
