import type { Job } from "../core/job/index.ts";
import { deg } from "../core/numeric/index.ts";
import { asWanted, type Plan, tellingOf } from "../core/plan/index.ts";
import { type Advice, pointsIn, type Survey } from "../core/survey/index.ts";
import type { BentReading } from "../core/trestles/index.ts";
import { writerFor } from "../core/units/index.ts";
import { group, line, type Mark, type Paper, paragraph, text } from "../draw/index.ts";
import {
  capital,
  cautionOn,
  EXPLAIN_ERROR,
  FIELD,
  fitsOf,
  MEASURING as SAYS,
  sayAdvice,
  sayBent,
  sentence,
} from "../words/index.ts";
import { type Block, flow, heading, words } from "./flow.ts";
import { howBent } from "./how-bent.ts";
import { howItLies, type Lies, type LiesPicture } from "./how-it-lies.ts";
import type { Laid } from "./laid.ts";
import { sayOne } from "./say-reading.ts";
import { setUpBlocks, tickBox } from "./set-up.ts";

/** A reading to take: what, why, and how it lies. */
interface ToTake {
  readonly says: string;
  readonly why: string;
  readonly picture: LiesPicture;
  readonly unit: "length" | "angle";
  /** For the walk round the car; absent where nothing is known of where it is. */
  readonly at?: readonly [number, number];
}

/** How a reading that is advised lies. */
const liesOf = (advice: Advice): Lies =>
  advice.kind === "tape" ? { kind: "tape", ends: ["point", "point"] } : { kind: advice.kind, at: "point" };

/**
 * The readings that are worth taking next, each with a picture of how it lies and room to write, in the order in which
 * one walks round the car: those that fix what is not fixed, those that settle a mirror image, those to read once more,
 * and the one that would help most. Before them, what must be out of the car and how it is supported. With a bar named: the readings that tell of it once it is bent.
 */
export function measuringSheets(plan: Plan, survey: Survey | undefined, paper: Paper, bar?: string): Laid[] {
  const { job } = plan;
  const take = bar === undefined ? inOrder(carReadings(job, survey)) : bentReadings(plan, bar);
  const fields: [string, string][] = [
    [FIELD.job, job.name],
    ...(bar === undefined ? [] : [[FIELD.bar, job.bars[bar]?.label ?? bar] as [string, string]]),
    [SAYS.take, `${take.length}`],
  ];
  const title = bar === undefined ? SAYS.title : SAYS.bentTitle(job.bars[bar]?.label ?? bar);
  const note = cautionOn(bar === undefined ? "measuring plan" : "trestle plan");
  const isUnsure = take.some((t) => t.why.includes("±"));
  const how = `${bar === undefined ? SAYS.car : SAYS.bent}${isUnsure ? ` ${EXPLAIN_ERROR}` : ""}`;
  return flow(paper, { title, fields, note }, ({ width }) => [
    ...(bar === undefined ? setUpBlocks(plan.job, width) : []),
    words(how, width),
    ...(take.length === 0 ? [words(nothing(job, survey, bar), width, { size: 3, bold: true })] : []),
    ...take.map((t, i) => rowBlock(t, i + 1, width)),
    heading(SAYS.other, width),
    blanks(width),
  ]);
}

function nothing(job: Job, survey: Survey | undefined, bar: string | undefined): string {
  if (bar !== undefined) return SAYS.straight;
  if (Object.keys(job.points).length === 0) return SAYS.noPoints;
  return survey ? SAYS.allFixed : SAYS.allGiven;
}

function carReadings(job: Job, survey: Survey | undefined): readonly ToTake[] {
  if (!survey) return [];
  const place = (id: string): readonly [number, number] | undefined => {
    const at = survey.cleaned.points.get(id)?.at ?? job.points[id]?.at;
    return at && [at[0], at[1]];
  };
  const advised = (advice: Advice, why: string): ToTake => {
    const where = (advice.kind === "tape" ? advice.points : [advice.point]).flatMap((id) => {
      const at = place(id);
      return at ? [at] : [];
    });
    const last = where.at(-1);
    return {
      says: capital(sayAdvice(advice)),
      why,
      picture: howItLies(liesOf(advice)),
      unit: "length",
      ...(last ? { at: last } : {}),
    };
  };
  const write = writerFor(job.show);
  const fits = fitsOf(survey, write);
  const again = (index: number): ToTake => {
    const reading = job.readings[index];
    if (!reading) throw new Error(`the job has no reading ${index} to take again`);
    const said = sayOne(reading, undefined, job, write);
    const where = pointsIn(reading).flatMap((id) => place(id) ?? []);
    const slope = said.kind === "slope" || said.kind === "lean along" || said.kind === "lean across";
    return {
      says: said.words,
      why: SAYS.again(fits.get(index)?.says ?? SAYS.doesNotFit),
      picture: howItLies(said.lies),
      unit: slope ? "angle" : "length",
      ...(where.length >= 2 ? { at: [where[0] as number, where[1] as number] } : {}),
    };
  };
  const list = [
    ...survey.undetermined.flatMap((u) => u.fix.map((advice) => advised(advice, SAYS.fixes(u.id)))),
    ...survey.mirrored.map((m) => advised(m.settle, SAYS.settles(m.points.map((p) => p.id)))),
    ...survey.suspects.map((s) => again(s.index)),
    ...(survey.next
      ? [
          advised(
            survey.next.reading,
            SAYS.helps(survey.next.point, write.length(survey.next.before), write.length(survey.next.after)),
          ),
        ]
      : []),
  ];
  return list.filter((t, i) => list.findIndex((o) => o.says === t.says) === i);
}

/** From the front, round by the left side: by the angle about the middle of all places, counter-clockwise from ahead seen from above. */
function inOrder(list: readonly ToTake[]): readonly ToTake[] {
  const known = list.flatMap((t) => (t.at ? [t.at] : []));
  const middle = (k: 0 | 1): number => {
    const all = known.map((p) => p[k]);
    return all.length > 0 ? (Math.max(...all) + Math.min(...all)) / 2 : 0;
  };
  const [cx, cy] = [middle(0), middle(1)];
  const turn = (t: ToTake): number => {
    if (!t.at) return Number.POSITIVE_INFINITY;
    const angle = Math.atan2(t.at[1] - cy, t.at[0] - cx);
    return angle < -1e-9 ? angle + 2 * Math.PI : angle;
  };
  return [...list].sort((a, b) => {
    const [s, t] = [turn(a), turn(b)];
    return s === t ? 0 : s - t;
  });
}

function bentReadings(plan: Plan, bar: string): readonly ToTake[] {
  // held against the bar as wanted, also where the job goes by how it was built
  const wanted = asWanted(plan, bar);
  const planned = wanted.byId.get(bar);
  if (!planned) return [];
  const write = writerFor(plan.job.show);
  return tellingOf(wanted, planned, []).map(({ reading, before, after }) => ({
    says: sayBent(sizeOf(reading)),
    why: SAYS.wanted(
      reading.what === "angle" ? write.angle(deg(reading.value)) : write.length(reading.value),
      write.length(after),
      write.length(before),
    ),
    picture: howBent(reading.what, "end" in reading ? reading.end : "B"),
    unit: reading.what === "angle" ? "angle" : "length",
  }));
}

function sizeOf(reading: BentReading): Parameters<typeof sayBent>[0] {
  const { value, sd: _, ...said } = reading;
  return (said.what === "angle" ? { ...said, angle: deg(value) } : { ...said, size: value }) as Parameters<
    typeof sayBent
  >[0];
}

function rowBlock({ says, why, picture, unit }: ToTake, n: number, width: number): Block {
  const left = picture.width + 4;
  const room = width - left - 2;
  const said = paragraph([left, 4], room, says, { size: 3.2, bold: true });
  const because = paragraph([left, 5 + said.height], room, why, { size: 2.2 });
  const seen = paragraph([left, 6 + said.height + because.height], room, sentence(picture.seen), {
    size: 2.2,
  });
  const y = picture.height - 4;
  const marks: Mark[] = [
    group("picture", picture.marks, { at: [0, 0] }),
    text([0, 4], `${n}`, 3.5, { bold: true }),
    ...said.marks,
    ...because.marks,
    ...seen.marks,
    text([left, y], SAYS.reads, 2.4),
    line([left + 12, y + 0.6], [left + room * 0.62, y + 0.6], "visible"),
    ...(unit === "angle"
      ? [text([left + room * 0.66, y], SAYS.units.angle, 3)]
      : [
          ...tickBox([left + room * 0.66, y], SAYS.units.mm),
          ...tickBox([left + room * 0.83, y], SAYS.units.inch),
        ]),
    line([0, picture.height + 1], [width, picture.height + 1], "narrow"),
  ];
  return { marks, height: picture.height + 1 };
}

/** Empty rows for what else is read. */
function blanks(width: number): Block {
  const rows = 6;
  const pitch = 9;
  const columns = [0, 0.3, 0.6, 0.74, 0.9];
  const marks: Mark[] = SAYS.columns.map((t, i) => {
    const at = columns[i];
    if (at === undefined) throw new Error(`column "${t}" has no place on the sheet`);
    return text([at * width, 3], t, 2.2);
  });
  for (let r = 1; r <= rows; r++) marks.push(line([0, 3 + r * pitch], [width, 3 + r * pitch], "narrow"));
  return { marks, height: 4 + rows * pitch };
}
