import { Suggester } from "../core/job/index.ts";
import { sayHint } from "../words/index.ts";
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
import { reuse } from "./reuse.ts";
import { schema } from "./schema.ts";
import { serve } from "./serve.ts";
import { survey } from "./survey.ts";
import { tacked } from "./tacked.ts";
import { trestles } from "./trestles.ts";

const COMMANDS: ReadonlyMap<string, Command> = new Map(
  Object.entries({
    bend,
    cope,
    die,
    cards,
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
  }),
);

function help(): string {
  const list = [...COMMANDS]
    .map(([name, c]) => `  ${name.padEnd(8)}${c.about}\n           ${c.usage}\n`)
    .join("");
  return `tubewright: from a job file to marks, cuts and cards\n\n${list}\nLengths print in the job's own unit; JSON is in millimetres and degrees.\n`;
}

/** Runs one call and gives its exit code; a wrong call is one line, never a stack trace. */
export async function main(args: readonly string[], platform: Platform): Promise<ExitCode> {
  const [name, ...rest] = args;
  if (name === undefined || name === "help" || name === "--help" || name === "-h") {
    platform.out(help());
    return name === undefined ? 2 : 0;
  }
  const command = COMMANDS.get(name);
  if (!command) {
    const near = sayHint(new Suggester().closest(name, COMMANDS.keys()), "; tubewright help lists them");
    platform.err(`there is no command "${name}"${near}\n`);
    return 2;
  }
  if (rest.includes("--help") || rest.includes("-h")) {
    platform.out(`${command.about}\n${command.usage}\n`);
    return 0;
  }
  try {
    return await command.run(rest, platform);
  } catch (error) {
    if (error instanceof BrokenAnswer) {
      platform.err(`${error.message}\n`);
      return 1;
    }
    if (!(error instanceof WrongCall)) throw error;
    platform.err(`${error.message}\nusage: ${command.usage}\n`);
    return 2;
  }
}
