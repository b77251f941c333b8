import { useState } from "react";
import { SIDES, VIEW } from "../../words/index.ts";
import { Choose, LengthPad, mmOf } from "../kit/index.ts";
import type { Section } from "./types.ts";

/** Asks along which plane the picture is cut, and where. */
export function AskSection(props: {
  readonly section: Section | null;
  readonly setSection: (section: Section | null) => void;
  readonly unit: "mm" | "in";
  readonly write: (mm: number) => string;
  readonly onClose: () => void;
}) {
  const { section, setSection, onClose } = props;
  const [axis, setAxis] = useState<Section["axis"]>();
  if (axis === undefined)
    return (
      <Choose
        title={VIEW.sectionTitle}
        options={[
          ...(section ? [["none", VIEW.whole] as const] : []),
          ["x", VIEW.planes.x],
          ["y", VIEW.planes.y],
          ["z", VIEW.planes.z],
        ]}
        onClose={onClose}
        onPick={(picked) => {
          if (picked === "none") {
            setSection(null);
            onClose();
          } else setAxis(picked as Section["axis"]);
        }}
      />
    );
  return (
    <LengthPad
      title={VIEW.planeAt[axis]}
      value={section?.axis === axis ? section.at : axis === "z" ? 600 : 0}
      unit={props.unit}
      sides={SIDES[axis]}
      write={props.write}
      onClose={onClose}
      onSet={(at) => {
        onClose();
        const read = typeof at === "number" ? at : at === undefined ? undefined : mmOf(at);
        if (read !== undefined) setSection({ axis, at: read });
      }}
    />
  );
}
