import { DRIVER_SHEET, FIELDS } from "../../../words/index.ts";
import { maybe, place, type Sheet } from "../field.ts";

/** The driver in the seat, as the job keeps them. */
export const driverSheets = (): readonly Sheet[] => [
  {
    key: "driver",
    title: DRIVER_SHEET.title,
    fields: [
      place(["driver", "hip"], DRIVER_SHEET.hip, FIELDS.notSet),
      place(["driver", "shoulder"], DRIVER_SHEET.shoulder, FIELDS.notSet),
      maybe(["driver", "torsoRadius"], DRIVER_SHEET.torso),
      place(["driver", "helmet"], DRIVER_SHEET.helmet, FIELDS.notSet),
      maybe(["driver", "helmetRadius"], DRIVER_SHEET.helmetRadius),
    ],
    beside: "driver",
  },
];
