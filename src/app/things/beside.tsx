import { BenderPicture } from "./bender-picture.tsx";
import { DieTruth } from "./die-truth.tsx";
import { DriverByBack } from "./driver-by-back.tsx";
import type { Edit } from "./edit.ts";
import { MeasureErrors } from "./errors.tsx";
import type { Beside, Sheet } from "./field.ts";

/** What a sheet has beside its figures. */
export function BesideSheet(props: { readonly beside: Beside; readonly sheet: Sheet; readonly edit: Edit }) {
  const { beside, sheet, edit } = props;
  if (beside === "die") return sheet.thing ? <DieTruth id={sheet.thing.id} edit={edit} /> : null;
  if (beside === "errors") return <MeasureErrors edit={edit} />;
  if (beside === "driver") return <DriverByBack edit={edit} />;
  return <BenderPicture edit={edit} />;
}
