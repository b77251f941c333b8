import type { End } from "../core/job/index.ts";
import { isOnTube } from "../core/plan/index.ts";
import { table } from "../draw/index.ts";
import { AS_MADE, bentLines, notchLines, type RecordLine, sawnLines, sayChanged } from "../words/index.ts";
import { type Block, heading, words } from "./flow.ts";
import type { Subject } from "./subject.ts";

const WIDTHS = [0.4, 0.36, 0.24];

/** What one step was made to, beside what is wanted now. */
function record(
  title: string,
  lines: readonly RecordLine[],
  width: number,
  card: number | undefined,
  now: number,
): readonly Block[] {
  const columns = AS_MADE.columns.map((name, i) => ({ title: name, width: width * (WIDTHS[i] ?? 0) }));
  const rows = lines.map(({ what, made, wanted }) => [what, made, wanted ?? ""]);
  const to = card === undefined || card === now ? "" : `, ${AS_MADE.toCard(card)}`;
  return [heading(`${title}${to}`, width), table([0, 0], columns, rows, 2.5)];
}

/** Where figures count from the tube that there is, or what else becomes of a bar that is not what is wanted now. */
export function changedBlocks(s: Subject, width: number): readonly Block[] {
  const { made } = s;
  if (!made?.verdict) return [];
  const says = sayChanged(made.verdict, isOnTube(made) ? s.bar.bend.trim : undefined, s.write);
  return [words(says, width, { size: 3, bold: true })];
}

export function sawnRecord(s: Subject, width: number): readonly Block[] {
  const { made } = s;
  return made
    ? record(AS_MADE.heading.sawn, sawnLines(made.sawn, s.write), width, made.sawn.made.card, made.card)
    : [];
}

export function bentRecord(s: Subject, width: number): readonly Block[] {
  const { made } = s;
  if (!made?.bent) return [];
  const lines = bentLines(made.bent, s.write);
  const hasTurns = made.bent.made.bends.length > 1;
  return [
    ...record(AS_MADE.heading.bent, lines, width, made.bent.made.card, made.card),
    ...(hasTurns ? [words(AS_MADE.turns, width, { size: 2.2 })] : []),
  ];
}

export function notchRecord(s: Subject, end: End, width: number): readonly Block[] {
  const { made } = s;
  const notch = made?.notched[end];
  return notch
    ? record(AS_MADE.heading.notched(end), notchLines(end, notch, s.write), width, notch.made.card, made.card)
    : [];
}
