import { jobSchemaJson } from "../core/job/index.ts";
import { CALL } from "../words/index.ts";
import { type Command, WrongCall, words } from "./call.ts";

export const schema: Command = {
  run: (args, platform) => {
    const { positionals } = words(args, { json: { type: "boolean" } });
    if (positionals.length > 0) throw new WrongCall(CALL.noFile);
    platform.out(`${JSON.stringify(jobSchemaJson(), null, 2)}\n`);
    return 0;
  },
};
