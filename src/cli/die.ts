import { calibrate, type DieCard } from "../core/bend/index.ts";
import type { Writer } from "../core/findings/index.ts";
import { type DieTest, type Job, Suggester } from "../core/job/index.ts";
import { parseLength } from "../core/units/index.ts";
import { CALL, DIE_ANSWER } from "../words/index.ts";
import {
  type Command,
  findingJson,
  findingLine,
  numberOf,
  openJob,
  printJson,
  report,
  WrongCall,
  words,
} from "./call.ts";

export const die: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, {
      die: { type: "string" },
      test: { type: "string", multiple: true },
      json: { type: "boolean" },
    });
    const opened = openJob(positionals, platform);
    if (!opened) return 2;
    const { job, writer } = opened;
    const given = (values.test ?? []).map(readTest);
    const ids = diesAsked(job, values.die, given.length > 0);
    const cards = ids.map((id) => {
      const die = job.dies[id]!;
      const tests = [...die.tests, ...given];
      return { id, tests: tests.length, card: calibrate(tests, die, `dies.${id}.tests`, job.shop.errors) };
    });
    const findings = cards.flatMap((c) => c.card.findings);
    if (values.json) {
      printJson(
        { dies: cards.map((c) => ({ id: c.id, tests: c.tests, ...dieJson(c.card, writer) })) },
        platform,
      );
    } else for (const c of cards) platform.out(dieText(c.id, c.tests, c.card, writer));
    return report(findings, writer, platform);
  },
};

function diesAsked(job: Job, id: string | undefined, hasTests: boolean): readonly string[] {
  const ids = Object.keys(job.dies);
  if (id !== undefined) {
    if (!ids.includes(id)) throw new WrongCall(CALL.noDie(id, new Suggester().closest(id, ids)));
    return [id];
  }
  if (hasTests && ids.length !== 1) throw new WrongCall(CALL.whichDie(ids));
  return ids;
}

/** SET,GOT in degrees, then both outside legs and the stick as lengths in any notation without commas. */
function readTest(value: string): DieTest {
  const parts = value.split(",").map((p) => p.trim());
  if (parts.length !== 2 && parts.length !== 5) {
    throw new WrongCall(CALL.test(value));
  }
  const set = numberOf("test", parts[0]!, 0, 360);
  const got = numberOf("test", parts[1]!, 0, 360);
  if (parts.length === 2) return { set, got };
  const lengths = parts.slice(2).map((p) => {
    const read = parseLength(p);
    if (!read.ok) throw new WrongCall(CALL.length("test", value, read.why));
    return read.mm;
  });
  return { set, got, legs: [lengths[0]!, lengths[1]!], stick: lengths[2]! };
}

function dieJson(card: DieCard, writer: Writer): object {
  const { springback, radius } = card;
  return {
    ...(springback ? { springback: { k: springback.k, c: springback.c, basis: springback.basis } } : {}),
    ...(radius
      ? { clr: radius.clr, ...(radius.arcFactor ? { arcFactor: radius.arcFactor } : {}), perMm: radius.perMm }
      : {}),
    findings: card.findings.map((f) => findingJson(f, writer)),
  };
}

function dieText(id: string, tests: number, card: DieCard, writer: Writer): string {
  const lines = [DIE_ANSWER.die(id, tests)];
  const { springback: s, radius: r } = card;
  if (s) lines.push(DIE_ANSWER.springback(s.k.value, s.c.value, s.k.sd, s.c.sd));
  if (r) lines.push(DIE_ANSWER.radius(writer.length(r.clr.value), writer.length(r.clr.sd)));
  if (r?.arcFactor) lines.push(DIE_ANSWER.arcFactor(r.arcFactor.value, r.arcFactor.sd));
  for (const f of card.findings) lines.push(`  ${findingLine(f, writer)}`);
  return `${lines.join("\n")}\n`;
}
