import { useState } from "react";
import type { Place } from "../../core/job/index.ts";
import { mapVec } from "../../core/space/index.ts";

import { Choose } from "../kit/index.ts";
import { standsIn } from "../model/compute/index.ts";
import { at, calledOf, type JobDocument, type Json } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";

import {
  addCorner,
  type Before,
  kindsFor,
  NODE_KINDS,
  type NodeKind,
  nodeAs,
  nodeName,
  removeCorner,
  saidPlace,
  setCrowd,
  setNode,
} from "./nodes.ts";
import { optionsFor } from "./options.ts";

type Stage = "first" | "kind" | "crowd" | "uncrowd" | { readonly kind: NodeKind };

/** What can be done with one end or corner: said another way, tapped in the picture, crowded, added behind, taken out. */
export function NodeTools(props: {
  readonly document: JobDocument;
  readonly bar: string;
  readonly node: number;
  readonly role: "A" | "B" | "corner";
  readonly onWait: (node: number) => void;
  readonly onClose: () => void;
}) {
  const { document, bar, node, role, onClose } = props;
  const results = useApp((s) => s.results);
  const act = useActions();
  const [stage, setStage] = useState<Stage>("first");
  const name = nodeName(document, bar, node);
  const title = `${calledOf(document, "bar", bar)}: ${name}`;
  const path = at(document, ["bars", bar, "path"]);
  const nodes = Array.isArray(path) ? (path as readonly Json[]) : [];
  const here = nodes[node];
  const also = at(here ?? null, ["also"]);
  const crowd = Array.isArray(also) ? also.map(String) : [];
  const lands = at(here ?? null, ["on"]) !== undefined;
  const before = placesOf();

  function placesOf(): readonly Before[] {
    const stands = standsIn({ byId: results.bars }, bar);
    const places = nodes.map((node, i) => {
      // What is computed may be of the moment before; what the node itself says is of now.
      const computed = stands?.corners.length === nodes.length ? stands.corners[i] : undefined;
      return saidPlace(document, node) ?? computed;
    });
    return nodes.map((_, i): Before => {
      const along = i === 0 ? stands?.ends.A.on?.along : stands?.ends.B.on?.along;
      const previous = i > 0 ? places[i - 1] : undefined;
      return {
        place: places[i] ?? [0, 0, 600],
        ...(along === undefined ? {} : { along }),
        ...(previous ? { previous } : {}),
      };
    });
  }

  function finish(command: Parameters<typeof act.run>[0]): void {
    onClose();
    act.run(command);
  }

  function choose(kind: NodeKind): void {
    if (kind === "place" || kind === "step")
      finish(setNode(document, bar, node, nodeAs(kind, "", before[node]!)));
    else setStage({ kind });
  }

  if (stage === "kind")
    return (
      <Choose
        title={title}
        options={kindsFor(role).map((k) => [k, NODE_KINDS[k]])}
        onClose={onClose}
        onPick={(k) => choose(k as NodeKind)}
      />
    );
  if (typeof stage === "object") {
    const what = stage.kind === "plate" ? "plate" : stage.kind === "point" ? "point" : "host";
    return (
      <Choose
        title={`${title} ${NODE_KINDS[stage.kind]}: which?`}
        options={optionsFor(document, what, bar)}
        none={`The job has no ${what === "host" ? "other bar" : what} yet: add one under "The job".`}
        onClose={onClose}
        onPick={(id) => finish(setNode(document, bar, node, nodeAs(stage.kind, id, before[node]!)))}
      />
    );
  }
  if (stage === "crowd")
    return (
      <Choose
        title={`${title} is also coped to`}
        options={optionsFor(document, "host", bar).filter(([id]) => !crowd.includes(id))}
        onClose={onClose}
        onPick={(id) => finish(setCrowd(document, bar, node, [...crowd, id]))}
      />
    );
  if (stage === "uncrowd")
    return (
      <Choose
        title={`${title} is no more coped to`}
        options={crowd.map((id) => [id, calledOf(document, "bar", id)])}
        onClose={onClose}
        onPick={(id) =>
          finish(
            setCrowd(
              document,
              bar,
              node,
              crowd.filter((x) => x !== id),
            ),
          )
        }
      />
    );

  const middle = (): Place => {
    const [p, q] = [before[node]!.place, before[node + 1]!.place];
    return mapVec(p, (x, k) => (x + q[k]) / 2);
  };
  const options: (readonly [string, string])[] = [
    ...(role === "corner" ? [] : [["tap", "Tap the bar that it lands on, in the picture"] as const]),
    ["kind", "Say it another way"],
    ...(lands ? [["crowd", "Cope it to another bar too"] as const] : []),
    ...(crowd.length > 0 ? [["uncrowd", "Cope it no more to …"] as const] : []),
    ...(node < nodes.length - 1 ? [["add", `Add a corner behind ${name}`] as const] : []),
    ...(role === "corner" ? [["remove", "Take this corner out"] as const] : []),
  ];
  return (
    <Choose
      title={title}
      options={options}
      onClose={onClose}
      onPick={(what) => {
        if (what === "tap") {
          onClose();
          props.onWait(node);
        } else if (what === "add") finish(addCorner(document, bar, node, middle()));
        else if (what === "remove") finish(removeCorner(document, bar, node));
        else setStage(what as Stage);
      }}
    />
  );
}
