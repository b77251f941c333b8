import { followBar } from "../../src/app/bar-editor/following.ts";
import { waysFor } from "../../src/app/bar-editor/kinds/index.ts";
import { addCorner, moveOff, setCrowd, setNode } from "../../src/app/bar-editor/nodes.ts";
import { optionsFor } from "../../src/app/bar-editor/options.ts";
import { sentencesOf } from "../../src/app/bar-editor/sentences.ts";
import { resultsOf } from "../../src/app/bar-editor/testing.ts";
import {
  at,
  changeBar,
  mirrorBar,
  nameJob,
  setValue,
  showUnits,
} from "../../src/app/model/document/index.ts";
import { moveBefore, setNeeds } from "../../src/app/order/commands.ts";
import { UNIT_CHOICES } from "../../src/app/shell/units.ts";
import type { Json, Steps } from "./steps.ts";

const BEFORE = { place: [120, 560, 640], previous: [0, 560, 600], along: 300 } as const;

/** Every value in every sentence of a bar, answered: a length by figures, a choice by each of what it offers. */
export function askSentences(steps: Steps, bar: string, depth = 1): void {
  for (const { parts } of sentencesOf(steps.document, bar))
    for (const part of parts) {
      if (part.kind === "words") continue;
      const answers: readonly Json[] =
        part.kind === "length"
          ? [typeof part.value === "number" ? part.value + 1 : 20, 150, -20]
          : optionsFor(steps.document, part.what, bar).map(([id]) => (part.make ? part.make(id) : id));
      for (const to of answers) steps.look(setValue(part.path, to === "" ? undefined : to));
      // what a choice brings is asked too
      if (part.kind === "choice" && part.make)
        for (const to of answers) {
          const before = steps.document;
          if (steps.run(setValue(part.path, to)) && depth > 0) askSentences(steps, bar, depth - 1);
          steps.document = before;
        }
    }
}

/** A bar placed in every way that is offered for each of its nodes, and whatever its sentences then ask. */
export function askBar(
  steps: Steps,
  bar: string,
  others: { readonly host: string; readonly beside: string },
): void {
  const path = at(steps.document, ["bars", bar, "path"]) as readonly Json[];
  askSentences(steps, bar);
  path.forEach((_, node) => {
    const role = node === 0 ? "A" : node === path.length - 1 ? "B" : "corner";
    for (const way of waysFor(role)) {
      const whole = steps.document;
      const what = way.asks === "plate" ? "a-plate" : way.asks === "point" ? "a-point" : others.host;
      if (steps.run(setNode(steps.document, bar, node, way.make(what, BEFORE)))) {
        steps.look(setCrowd(steps.document, bar, node, [others.beside]));
        askSentences(steps, bar);
        if (steps.run(moveOff(steps.document, bar, node))) askSentences(steps, bar, 0);
      }
      steps.document = whole;
    }
  });
  steps.look(addCorner(steps.document, bar, 0, [10, 580, 700]));
}

/** What is done to whole bars, and to the job: named, mirrored, following, ordered, shown. */
export function askWholes(steps: Steps, bar: string, followed: string): void {
  const all = Object.keys((steps.document.bars ?? {}) as object);
  steps.look(changeBar(bar, { label: "As called" }));
  steps.look(mirrorBar(bar, "a-twin", "Its twin"));
  steps.look(setNeeds(bar, "roof off", bar));
  steps.look(moveBefore(all, bar, null, (id) => id));
  steps.look(nameJob("As called"));
  for (const { show } of UNIT_CHOICES) steps.look(showUnits(show.length, show.fraction));
  const before = steps.document;
  steps.run(followBar(before, bar, followed, resultsOf(before).bars), "follow");
  askSentences(steps, bar);
  steps.document = before;
}
