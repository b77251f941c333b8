import { sayBentSize, TO_READ } from "../../words/index.ts";
import { LengthPad, NumberPad, type Write } from "../kit/index.ts";
import type { Json } from "../model/document/index.ts";
import { useApp } from "../model/state/index.ts";
import type { BentDraft } from "./bent-sizes.ts";

/** The keypad for one size of a bent bar. */
export function AskBent(props: {
  readonly size: BentDraft;
  readonly write: Write;
  readonly onSet: (value: Json) => void;
  readonly onClose: () => void;
}) {
  const { size, onSet, onClose } = props;
  const show = useApp((s) => s.show);
  if (size.what === "angle")
    return (
      <NumberPad
        title={TO_READ.finder(sayBentSize(size))}
        value={undefined}
        least={0}
        most={180}
        onClose={onClose}
        onSet={onSet}
      />
    );
  return (
    <LengthPad
      title={sayBentSize(size)}
      value={undefined}
      unit={show.length}
      write={props.write.length}
      onClose={onClose}
      onSet={(value) => value !== undefined && onSet(value)}
    />
  );
}
