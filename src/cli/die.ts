import { calibrate, type DieCard } from "../core/bend/index.ts";
import type { Writer } from "../core/findings/index.ts";
import { type Die, type DieTest, type Job, Suggester } from "../core/job/index.ts";
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
    const cards = diesAsked(job, values.die, given.length > 0).map(([id, die]) => {
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

function diesAsked(job: Job, id: string | undefined, hasTests: boolean): readonly (readonly [string, Die])[] {
  const dies = Object.entries(job.dies);
  const ids = dies.map(([own]) => own);
  if (id !== undefined) {
    const asked = dies.filter(([own]) => own === id);
    if (asked.length === 0) throw new WrongCall(CALL.noDie(id, new Suggester().closest(id, ids)));
    return asked;
  }
  if (hasTests && dies.length !== 1) throw new WrongCall(CALL.whichDie(ids));
  return dies;
}

/** SET,GOT in degrees, then both outside legs and the stick as lengths in any notation without commas. */
function readTest(value: string): DieTest {
  const [set, got, ...sizes] = value.split(",").map((p) => p.trim());
  if (set === undefined || got === undefined || (sizes.length !== 0 && sizes.length !== 3)) {
    throw new WrongCall(CALL.test(value));
  }
  const test = { set: numberOf("test", set, 0, 360), got: numberOf("test", got, 0, 360) };
  const [first, second, stick] = sizes.map((p) => {
    const read = parseLength(p);
    if (!read.ok) throw new WrongCall(CALL.length("test", value, read.why));
    return read.mm;
  });
  if (first === undefined || second === undefined || stick === undefined) return test;
  return { ...test, legs: [first, second], stick };
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
