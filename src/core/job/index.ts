export { kindOf } from "./kinds/index.ts";
export type { Edits } from "./life.ts";
export { backTo, thrownAway } from "./life.ts";
export type {
  BentSize,
  BentTo,
  CutHost,
  CutTo,
  FeltGaps,
  Made,
  MadeTo,
  NotchedTo,
  SawnTo,
  TackSize,
  TackSpot,
} from "./made-types.ts";
export type { JobProblem, ProblemCode, Wrong } from "./problem.ts";
export { type AnyVersionRead, type JobRead, readAnyVersion, readJob } from "./read.ts";
export type {
  CoordinateReading,
  LeanReading,
  LevelReading,
  Over,
  Reading,
  SlopeReading,
  TapeEnd,
  TapeReading,
} from "./reading-types.ts";
export type { Reference } from "./references.ts";
export { referencesOf } from "./references.ts";
export { jobSchemaJson } from "./schema.ts";
export { Suggester } from "./suggest.ts";
export { MOST, wrongText } from "./texts.ts";
export type {
  AsBuilt,
  Believed,
  Die,
  DieTest,
  DoorGap,
  End,
  Follow,
  IssuedCard,
  Job,
  JobBar,
  JobPoint,
  LandingNode,
  LandingWhere,
  MirrorBar,
  Needs,
  NodeKind,
  Panel,
  PathBar,
  PathNode,
  Place,
  PlaceNode,
  Plate,
  PlateNode,
  Progress,
  SetUpStep,
  ShopErrors,
  Side,
  Tube,
} from "./types.ts";
export { BESIDE_BARS, hasReached, NEEDS, PROGRESS, SET_UP, stands } from "./types.ts";
export { upgraded } from "./upgrade.ts";
export { utf8Problem } from "./utf8.ts";
