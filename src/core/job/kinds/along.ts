import { length } from "../fields.ts";
import type { Way } from "./kind.ts";

/** At a station of the host's centreline; negative: from its B end. */
export interface AlongWhere {
  readonly by: "along";
  readonly along: number;
}

export interface FileAlong {
  along: number;
}

export const alongShape = {
  along: length()
    .optional()
    .describe("Lands this far along the other bar's centreline, from its end A. Negative: from its end B."),
};

export const along: Way<FileAlong, AlongWhere> = {
  by: "along",
  keys: ["along"],
  read: ({ along }) => (along === undefined ? undefined : { by: "along", along }),
};
