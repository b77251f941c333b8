import type { Finding, Writer } from "../core/findings/index.ts";
import { SENTENCES } from "./findings/sentences.ts";
import type { Names } from "./names.ts";
import { filled } from "./write.ts";

/** The finding as text, its lengths by `writer`, what it names by `names`. */
export const say = (finding: Finding, writer: Writer, names: Names): string =>
  filled(SENTENCES[finding.code], finding.values, writer, names);
