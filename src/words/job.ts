import type { Phrase, Writer } from "../core/findings/index.ts";
import type { JobProblem, ProblemCode, Wrong } from "../core/job/index.ts";
import { IDS } from "./names.ts";
import { filled, written } from "./write.ts";

/** What keeps a document from being a job, and what would be right; `{name}` is one of the problem's values. */
const PROBLEMS: Readonly<Record<ProblemCode, string>> = {
  stopped: "take the last step back, and please report it: the computation stopped ({what})",
  missing: "missing",
  "missing-choice": "missing; must be {choice}",
  "not-among": "must be {choice}, not {found}{hint}",
  "list-too-short": "needs at least {limit}, not {found}",
  "list-too-long": "needs at most {limit}, not {found}",
  "below-least": "must be at least {limit}, not {found}",
  "above-most": "must be at most {limit}, not {found}",
  "not-above": "must be more than {limit}, not {found}",
  "not-below": "must be less than {limit}, not {found}",
  "wrong-kind": "must be {must}, not {found}",
  unreadable: "{why}",
  "unknown-key": "unknown key{hint}",
  "missing-shape": "missing; {must}",
  "wrong-shape": "{must}, not {found}",
  "own-host": "a bar cannot {link} itself",
  circle: "these bars depend on each other in a circle, and none has a place: {circle}",
  "length-not-above": "must be more than {limit} mm, not {mm} mm",
  "length-below": "must be at least {limit} mm, not {mm} mm",
  "length-above": "must be at most {limit} mm, not {mm} mm",
  "no-length": "{why}",
  "json-control": "not JSON: a control character ({code}) in a text; take it out",
  "json-open-quote": "not JSON: the text in quotes that begins here does not end, or has a \\ too many",
  "json-comma": "not JSON: a comma too many before {found}",
  "json-expected": "not JSON: expected {wanted}, found {found}",
  "json-ends": "not JSON: the text ends where {wanted} should stand{inside}",
  "file-empty": "the file is empty",
  "json-twice": "{place} is given a second time (first in {first}); keep one",
  "no-json": "a {kind} is no JSON",
  "too-deep": "nested more than {most} deep",
  "class-no-json": "an object of a class is no JSON",
  "job-is": "a job is an object { … } with format, version, tubes and bars",
  "other-format": "{format} is another kind of file; a job says {ours}",
  "newer-version": "written by a newer Tubewright ({version}); this one reads {ours}",
  "too-much-wrong": "more is wrong than can be listed; is this a job file?",
  "one-point": "both ends are one point; a reading runs from one to another",
  "over-nothing": "take over out: neither end of the tape is on a tube",
  "mark-past-reading": "must be less than the length read: {mark} mm was held, {read} mm read",
  "no-such": "no {kind} is called {name}{hint}",
  "mirror-of-mirror": "{name} is a mirrored bar itself; mirror its original instead",
  "coped-to-itself": "a bar cannot be coped to itself",
  "id-empty": "an ID cannot be empty",
  "id-kept": "this word is kept by the language; choose another ID",
  "id-blank": "an ID cannot begin or end with a space",
  "id-long": "an ID has at most {most} characters",
  "no-bore": "a wall of {wall} mm leaves no bore in a tube of {od} mm",
  "no-direction": "a direction cannot be nothing",
  "along-normal": "runs along the plate's normal; give a direction in the plate",
  "zero-along-out": "runs along out; give a direction square to out",
  "out-not-opposite": "must point the opposite way to out of end A: the bar is straight",
  "error-no-place": "an error without a place; give at beside it, or leave the point {}",
  "on-nowhere": "says on, but not where: add along, x, y, z or toward",
  "on-twice": "says where it lands {count} times: {keys}; keep one",
  "near-alone": "take near out or give x, y or z: near picks among the crossings of a plane",
  "also-host": "is the bar that it lands on already",
  "listed-twice": "is in the list already",
  "inner-landing": "only the first or the last node can stand on something",
  "first-step": "give the first node a place: it has none before it for a step",
  "follow-nodes": "follow gives the corners; the path has just its two ends, not {count} nodes",
  backwards: "from {from} to {to} runs backwards",
  "clr-small": "a centreline radius of {clr} mm is not more than half the tube of {od} mm",
  "hidden-character": "has {character} ({code}); take it out",
  "text-long": "a {kind} has at most {most} characters, not {has}",
  utf16: "the file is UTF-16; save it as UTF-8",
  "no-utf8": "byte {byte} is no UTF-8; save the file as UTF-8",
};

/** Nothing in a job file's problems is a length or an angle to be written in the job's unit: there may be no job. */
const AS_GIVEN: Writer = { length: (mm) => `${mm} mm`, angle: (degrees) => `${degrees}°` };

/** What is wrong, in one sentence. */
export const sayProblem = ({ code, values }: Wrong): string => filled(PROBLEMS[code], values, AS_GIVEN, IDS);

/** The problem as the one line that a person reads. */
export const problemLine = (problem: JobProblem): string =>
  `${problem.place}: ${sayProblem(problem)}${problem.at === undefined ? "" : ` (${problem.at})`}`;

/** The problem as a page says it: by what people call the thing, without the file's path. */
export const problemOnPage = (problem: Wrong, thing: string | undefined): string =>
  thing === undefined ? sayProblem(problem) : `${thing}: ${sayProblem(problem)}`;

/** Why a text is no length. */
export const sayLength = (why: Phrase): string => written(why, AS_GIVEN, IDS);

/** ` — did you mean "main-hoop"?`, or what is said in its place where nothing comes close. */
export const sayHint = (close: string | undefined, otherwise = ""): string =>
  close === undefined ? otherwise : ` — did you mean ${JSON.stringify(close)}?`;
