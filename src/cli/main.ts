import { Suggester } from "../core/job/index.ts";
import { CALL, COMMANDS, type CommandName, sayCommand, sayCommands } from "../words/index.ts";
import { bend } from "./bend.ts";
import { BrokenAnswer, type Command, type ExitCode, WrongCall } from "./call.ts";
import { cards } from "./cards.ts";
import { change } from "./change.ts";
import { check } from "./check.ts";
import { cope } from "./cope.ts";
import { die } from "./die.ts";
import { errors } from "./errors.ts";
import { fit } from "./fit.ts";
import { gaps } from "./gaps.ts";
import type { Platform } from "./platform.ts";
import { print } from "./print.ts";
import { reuse } from "./reuse.ts";
import { schema } from "./schema.ts";
import { serve } from "./serve.ts";
import { survey } from "./survey.ts";
import { tacked } from "./tacked.ts";
import { trestles } from "./trestles.ts";

const RUN: Readonly<Record<CommandName, Command>> = {
  bend,
  cope,
  die,
  cards,
  print,
  fit,
  survey,
  gaps,
  trestles,
  tacked,
  change,
  reuse,
  errors,
  check,
  schema,
  serve,
};

const isCommand = (name: string): name is CommandName => Object.hasOwn(RUN, name);

/** The one line for a command that there is not, with the nearest name. */
const unknown = (name: string): string =>
  `${CALL.noCommand(name, new Suggester().closest(name, Object.keys(RUN)))}\n`;

/** Runs one call and gives its exit code; a wrong call is one line, never a stack trace. */
export async function main(args: readonly string[], platform: Platform): Promise<ExitCode> {
  const [name, ...rest] = args;
  if (name === undefined || name === "help" || name === "--help" || name === "-h")
    return help(rest[0], name === undefined ? 2 : 0, platform);
  if (!isCommand(name)) {
    platform.err(unknown(name));
    return 2;
  }
  if (rest.includes("--help") || rest.includes("-h")) return help(name, 0, platform);
  try {
    return await RUN[name].run(rest, platform);
  } catch (error) {
    if (error instanceof BrokenAnswer) {
      platform.err(`${error.message}\n`);
      return 1;
    }
    if (!(error instanceof WrongCall)) throw error;
    platform.err(`${error.message}\n${CALL.usage(COMMANDS[name].usage)}\n`);
    return 2;
  }
}

/** Explains one command, or lists all. */
function help(about: string | undefined, code: ExitCode, platform: Platform): ExitCode {
  if (about !== undefined && !isCommand(about)) {
    platform.err(unknown(about));
    return 2;
  }
  platform.out(about === undefined ? sayCommands() : sayCommand(about));
  return code;
}
