import { addThing, at, confirmExample, type Json, setValue } from "../../src/app/model/document/index.ts";
import {
  type Add,
  type Ask,
  chosen,
  type Field,
  figureOf,
  isExample,
  type Sheet,
  THING_KINDS,
} from "../../src/app/things/field.ts";
import { added, built, placeWith } from "../../src/app/things/place-with.ts";
import { fieldsOf, newThing, sheetsOf, TOPICS } from "../../src/app/things/topics.ts";
import type { Steps } from "./steps.ts";

/** What may be answered to a field: of a choice every option; else figures, one of which any field takes. */
export function answersTo(field: Field, value: Json | undefined): readonly (Json | undefined)[] {
  switch (field.kind) {
    case "choice":
      return field.options.map((option) => chosen(field, option));
    case "names":
      return [field.options.slice(0, 1)];
    case "text":
      return ["as called"];
    case "place":
      return [[310, -45, 620]];
    case "number":
      return [0.5, 0.25, 0.75].map((share) => field.least + share * (field.most - field.least));
    case "length":
      return [typeof value === "number" ? value + 1 : 20, 3, 200];
  }
}

/**
 * Every field of every sheet that the pages show (`sheetsOf`, and `fieldsOf` for what of a bar its sentences do not say),
 * answered; then everything that the sheets offer to add, and what that brings, until nothing new is offered.
 */
export function askThings(steps: Steps, less: (field: Field) => boolean = () => false): void {
  for (const kind of THING_KINDS) steps.run(addThing(kind, `a-${kind}`, newThing(kind, "mm")));
  const done = new Set<string>();
  for (let round = 0; round < 4; round++)
    for (const topic of TOPICS)
      for (const { key } of sheetsOf(steps.document, topic)) {
        const sheet = (): Sheet | undefined => sheetsOf(steps.document, topic).find((s) => s.key === key);
        for (const field of fieldsIn(sheet())) ask(steps, field, less);
        for (const add of addsIn(sheet())) {
          const id = `${key} ${add.says}`;
          if (done.has(id)) continue;
          done.add(id);
          put(steps, add, less);
        }
      }
}

const fieldsIn = (sheet: Sheet | undefined): readonly Field[] => [
  ...(sheet?.fields ?? []),
  ...(sheet?.lists ?? []).flatMap((list) => list.entries.flatMap((entry) => entry.fields)),
];

const addsIn = (sheet: Sheet | undefined): readonly Add[] => [
  ...(sheet?.adds ?? []),
  ...(sheet?.lists ?? []).flatMap((list) => [list.add, ...list.entries.flatMap((e) => e.adds ?? [])]),
];

/** Answers one field; a choice keeps its last option, so that what it brings is asked too. */
export function ask(steps: Steps, field: Field, less: (field: Field) => boolean = () => false): void {
  if (less(field)) return;
  const [thing, figure] = figureOf(field.path);
  if (isExample(steps.document, field)) steps.look(confirmExample(thing, figure, ""));
  let has = false;
  for (const answer of answersTo(field, at(steps.document, field.path)))
    if (field.kind === "choice" || !has)
      has = steps.run(setValue(...placeWith(steps.document, field.path, answer))) || has;
  if (!has) steps.refused.push(`${field.path.join(".")}: no answer is taken`);
}

function put(steps: Steps, add: Add, less: (field: Field) => boolean): void {
  const path = add.to(steps.document, "as called");
  const answers = add.asks.map(({ field }: Ask) => first(answersTo(field, undefined)));
  if (add.asks.some(({ field }) => less({ ...field, path: [...path, ...field.path] }))) return;
  steps.run(setValue(...added(steps.document, path, built(add.asks, answers))), add.says);
}

const first = ([answer]: readonly (Json | undefined)[]): Json => answer ?? 0;

/** What of every bar its own sheet asks. */
export function askBarSheets(steps: Steps, less: (field: Field) => boolean = () => false): void {
  for (const id of Object.keys((steps.document.bars ?? {}) as object))
    for (let round = 0; round < 2; round++)
      for (const field of fieldsOf(steps.document, "bar", id)) ask(steps, field, less);
}
