import { useState } from "react";
import type { Place } from "../../core/job/index.ts";
import { lerp } from "../../core/space/index.ts";
import { NODE_TOOLS } from "../../words/index.ts";
import { Choose } from "../kit/index.ts";
import { standsIn } from "../model/compute/index.ts";
import { at, calledOf, type JobDocument, type Json } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import { type Before, saidPlace, type Way, waysFor } from "./kinds/index.ts";
import { addCorner, moveOff, nodeName, offOf, removeCorner, setCrowd, setNode } from "./nodes.ts";
import { optionsFor } from "./options.ts";

type Stage = "first" | "way" | "crowd" | "uncrowd" | { readonly way: Way };

/** In the car's middle at waist height: for a node of which no place is known. */
const SOMEWHERE: Before = { place: [0, 0, 600] };

/** What can be done with one end or corner: placed another way, tapped in the picture, notched to others, added after, deleted. */
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
  const title = NODE_TOOLS.title(calledOf(document, "bar", bar), name);
  const path = at(document, ["bars", bar, "path"]);
  const nodes = Array.isArray(path) ? (path as readonly Json[]) : [];
  const here = nodes[node];
  const also = at(here ?? null, ["also"]);
  const crowd = Array.isArray(also) ? also.map(String) : [];
  const lands = at(here ?? null, ["on"]) !== undefined;
  const off = offOf(here ?? null);
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
        place: places[i] ?? SOMEWHERE.place,
        ...(along === undefined ? {} : { along }),
        ...(previous ? { previous } : {}),
      };
    });
  }

  function finish(command: Parameters<typeof act.run>[0]): void {
    onClose();
    act.run(command);
  }

  const place = (way: Way, what: string): void =>
    finish(setNode(document, bar, node, way.make(what, before[node] ?? SOMEWHERE)));

  if (stage === "way") {
    const ways = waysFor(role);
    return (
      <Choose
        title={title}
        options={ways.map(({ id, says }) => [id, says])}
        onClose={onClose}
        onPick={(id) => {
          const way = ways.find((w) => w.id === id);
          if (way?.asks) setStage({ way });
          else if (way) place(way, "");
        }}
      />
    );
  }
  if (typeof stage === "object") {
    const { way } = stage;
    const what = way.asks ?? "host";
    return (
      <Choose
        title={NODE_TOOLS.which(title, way.says)}
        options={optionsFor(document, what, bar)}
        none={NODE_TOOLS.none[what]}
        onClose={onClose}
        onPick={(id) => place(way, id)}
      />
    );
  }
  if (stage === "crowd")
    return (
      <Choose
        title={NODE_TOOLS.crowdTitle(title)}
        options={optionsFor(document, "host", bar).filter(([id]) => !crowd.includes(id))}
        onClose={onClose}
        onPick={(id) => finish(setCrowd(document, bar, node, [...crowd, id]))}
      />
    );
  if (stage === "uncrowd")
    return (
      <Choose
        title={NODE_TOOLS.uncrowdTitle(title)}
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

  const placeAt = (i: number): Place => (before[i] ?? SOMEWHERE).place;
  const options: (readonly [string, string])[] = [
    ...(role === "corner" ? [] : [["tap", NODE_TOOLS.tap] as const]),
    ["way", NODE_TOOLS.way],
    ...(off === undefined ? [] : [["off", NODE_TOOLS[off]] as const]),
    ...(lands ? [["crowd", NODE_TOOLS.crowd] as const] : []),
    ...(crowd.length > 0 ? [["uncrowd", NODE_TOOLS.uncrowd] as const] : []),
    ...(node < nodes.length - 1 ? [["add", NODE_TOOLS.add(name)] as const] : []),
    ...(role === "corner" ? [["remove", NODE_TOOLS.remove] as const] : []),
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
        } else if (what === "off") finish(moveOff(document, bar, node));
        else if (what === "add")
          finish(addCorner(document, bar, node, lerp(placeAt(node), placeAt(node + 1), 0.5)));
        else if (what === "remove") finish(removeCorner(document, bar, node));
        else setStage(what as Stage);
      }}
    />
  );
}
