import { useMemo } from "react";
import { isAngle, READING_PAD as PAD, sidesOf } from "../../words/index.ts";
import { LengthPad, mmOf, NumberPad, writeIn } from "../kit/index.ts";
import type { JobDocument, Json } from "../model/document/index.ts";
import { useApp } from "../model/state/index.ts";
import type { Draft } from "./draft.ts";
import { sayReading } from "./say-reading.ts";

/** A size of a reading that is typed: what it reads, its own error, what is between tube and tape, what of it is held. */
export type Size = "value" | "bead" | "error" | "mark";

/** The keypad for one size of a reading. */
export function AskSize(props: {
  readonly size: Size;
  readonly document: JobDocument;
  readonly draft: Draft;
  /** The error of the shop's readings of this kind. */
  readonly usual: string;
  readonly onSet: (draft: Draft) => void;
  readonly onClose: () => void;
}) {
  const { size, draft, usual, onSet, onClose } = props;
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const { kind } = draft;
  const sides = sidesOf(kind);
  const sidesIf = sides ? { sides } : {};
  const length = { unit: show.length, onClose };

  function setError(sd: Json | undefined): void {
    const { sd: _, ...rest } = draft;
    onSet(sd === undefined ? rest : { ...rest, sd });
  }
  function setMark(mark: Json | undefined): void {
    const { mark: _, ...rest } = draft;
    onSet(mark === undefined || mmOf(mark) === 0 ? rest : { ...rest, mark });
  }
  function setBead(bead: Json | undefined): void {
    const { bead: _, ...rest } = draft;
    onSet(bead === undefined ? rest : { ...rest, bead });
  }

  if (size === "bead")
    return (
      <LengthPad
        {...length}
        title={PAD.beadThickness}
        value={draft.bead}
        write={write.fine}
        clear={PAD.noBead}
        onSet={setBead}
      />
    );
  if (size === "mark")
    return (
      <LengthPad
        {...length}
        title={PAD.heldMark}
        value={draft.mark}
        write={write.fine}
        clear={PAD.byHook}
        wrong={(mm) => (mm < 0 ? PAD.noMark : undefined)}
        onSet={setMark}
      />
    );
  if (size === "error" && isAngle(kind))
    return (
      <NumberPad
        title={PAD.ownError}
        value={typeof draft.sd === "number" ? draft.sd : undefined}
        least={0.01}
        most={45}
        clear={{ says: PAD.shops(usual), onClear: () => setError(undefined) }}
        onClose={onClose}
        onSet={setError}
      />
    );
  if (size === "error")
    return (
      <LengthPad
        {...length}
        title={PAD.ownError}
        value={draft.sd}
        write={write.fine}
        clear={PAD.shops(usual)}
        onSet={setError}
      />
    );
  if (isAngle(kind))
    return (
      <NumberPad
        title={sayReading(draft, props.document)}
        value={typeof draft.value === "number" ? draft.value : undefined}
        least={kind === "slope" ? -90 : -45}
        most={kind === "slope" ? 90 : 45}
        {...sidesIf}
        onClose={onClose}
        onSet={(value) => onSet({ ...draft, value })}
      />
    );
  return (
    <LengthPad
      {...length}
      title={sayReading(draft, props.document)}
      value={draft.value}
      {...sidesIf}
      write={write.length}
      onSet={(value) => (value === undefined ? onClose() : onSet({ ...draft, value }))}
    />
  );
}
