import { useState } from "react";
import { DRIVER_SHEET } from "../../words/index.ts";
import { mmOf, parts } from "../kit/index.ts";
import { type Json, setValues } from "../model/document/index.ts";
import { alongBack } from "./driver-back.ts";
import { DriverPicture } from "./driver-picture.tsx";
import type { Edit } from "./edit.ts";
import { degrees, length } from "./field.ts";
import { FieldPad } from "./pad.tsx";

const ASKS = [
  degrees([], DRIVER_SHEET.backAngle, 20, 110),
  length([], DRIVER_SHEET.toShoulder),
  length([], DRIVER_SHEET.toHelmet),
] as const;

/** The driver drawn, and shoulder and helmet from what an angle finder and a tape read along the back. */
export function DriverByBack({ edit }: { readonly edit: Edit }) {
  const [values, setTyped] = useState<readonly Json[]>();
  const driver = edit.job?.driver;
  const hip = driver?.hip;

  function next(to: Json | undefined): void {
    const all = to === undefined || !values || !hip ? undefined : [...values, to];
    setTyped(all && all.length < ASKS.length ? all : undefined);
    if (!hip || !all || all.length < ASKS.length) return;
    const [angle, shoulder, helmet] = all.map((value) => mmOf(value) ?? 0) as [number, number, number];
    edit.run(
      setValues(
        [
          [["driver", "shoulder"], alongBack(hip, angle, shoulder)],
          [["driver", "helmet"], alongBack(hip, angle, helmet)],
        ],
        DRIVER_SHEET.backStep,
      ),
    );
  }
  const ask = values && ASKS[values.length];
  return (
    <>
      <DriverPicture driver={driver} />
      <p className={parts.quiet}>{hip ? DRIVER_SHEET.backHow : DRIVER_SHEET.needsHip}</p>
      <div className={parts.row}>
        <button type="button" disabled={!hip} onClick={() => setTyped([])}>
          {DRIVER_SHEET.back}
        </button>
      </div>
      {ask && values && (
        <FieldPad
          key={values.length}
          field={ask}
          title={`${DRIVER_SHEET.backTitle}: ${ask.label}`}
          value={undefined}
          edit={edit}
          onClose={() => setTyped(undefined)}
          onSet={next}
        />
      )}
    </>
  );
}
