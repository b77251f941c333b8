import type { Label } from "./scan.ts";

/**
 * The one table of what is printed: a label as it stands on paper, and the quantity behind each figure in it. A card
 * whose words change changes here and nowhere else. See `Label` for how a line is written.
 */

const POINTS = (q: string): string =>
  `[points {angle:${q}.above} above level, on your {words:${q}.side}|` +
  `points {angle:${q}.below} below level, on your {words:${q}.side}|` +
  `is level{?${q}.level}, on your {words:${q}.side}|points straight up{?${q}.up}|points straight down{?${q}.down}]`;

const TURN = `urn the tube {angle:turn.amount} {words:turn.way} ({length:turn.round} round the tube): now bend {count:turn.last} ${POINTS("turn")}`;
const HALF_TURN = `urn the tube half round, either way{?turn.half}: now bend {count:turn.last} ${POINTS("turn")}`;
const NO_TURN = `o not turn the tube{?turn.none}: bend {count:turn.last} ${POINTS("turn")}`;

/** The number of a card, its day where it was issued, and the code of its figures. */
const CARD = "{count:card.n}[, not issued{?card.new}| · {words:card.on}{?card.issued}] · {rev:rev}";
/** On what is cut out: the hand of a bar with a twin, and the card. */
const HAND_CARD = `[ · {words:bar.hand}|] · card ${CARD}[ · made to card {count:made.card}|]`;

/** Frame and title block of every sheet. */
const FRAME: Label[] = [
  { says: "{count:sheet} of {count:sheets}" },
  { says: "DANGER {count:dangers}, read the [bender card|findings] first" },
  { says: `Card ${CARD}` },
  { says: "Made to card {count:made.card}" },
  { says: "Bar in the overview {count:bar.number} of {count:bar.of}" },
  { says: "Hand {words:bar.handTwin}" },
  { says: "Tube Ø {size:od} × {fine:wall}[, {words:bar.material}|]" },
  { says: "Job {words:job.name}" },
  { says: "Bars {count:job.bars}", on: ["overview"] },
  { says: "page {count:page} of {count:pages}" },
  { says: "Check square: page {count:square}." },
  { says: "Check square: this page{?square.here}." },
];

/** Digits that are no figure of the job. Each is said in full, so that no figure slips through with it. */
const HARMLESS: Label[] = [
  { says: "[p|P]rint at 100 %" },
  { says: "If either is off, print again at 100 %, actual size" },
  { says: "Lay line 0° on the zero line" },
  { says: "Close 360 on 0" },
  { says: "68 % of results" },
  { says: "goes under, 360 on 0" },
  { says: "0 zero line ▼ {words:zero}" },
  {
    says: "0 100 mm → ← 100 mm 4 in 4 in Measure from corner 0, both ways: 100 mm to the far side, 4 in to the mark beyond it.",
  },
  { says: "100 mm 4 in" },
];

/** What is made, on records and on the cards of what is still to be done. */
const RECORD: Label[] = [
  { says: "[Bender|Saw|Notcher] record — {words:bar.label} Sheet" },
  {
    says: "Leave the sawn ends as they are: all figures count from them. Allowance now: {length:trim.A} at end A, {length:trim.B} at end B.",
  },
  { says: "SAWN LENGTH {compared:made.sawn} This bar is sawn[; wanted now: {compared:now.sawn}|]." },
  { says: "As sawn[, made to card {count:made.sawn.card}|] Figure" },
  { says: "As bent[, made to card {count:made.bent.card}|] Figure" },
  { says: "End {letter=end} as notched[, made to card {count:made.notch.card}|] Figure" },
  { says: "Sawn length {compared:made.sawn}[ {compared:now.sawn}|]" },
  { says: "Sawn to {length:made.sawn}[ and bent|]: this is a record" },
  { says: "End fed first end {words:made.fed}" },
  { says: "Die {words:made.die}, centreline radius {length:made.clr}" },
  { says: "Turn before bend {count=bend} {comparedAngle:made.bend.turn}" },
  {
    says: "Mark of bend {count=bend}, from sawn end {words:made.fed} {compared:made.bend.mark}[ {compared:now.bend.mark}|]",
  },
  { says: "Angle set, bend {count=bend} {comparedAngle:made.bend.set}[ {comparedAngle:now.bend.set}|]" },
  { says: "Angle of bend {count=bend} {comparedAngle:made.bend.angle}[ {comparedAngle:now.bend.angle}|]" },
  { says: "Hole saw, outside Ø {size:made.cut.saw}" },
  { says: "Notch angle, off square {comparedAngle:made.cut.notch}" },
  {
    says: "Clock of the heel [{angle:made.cut.clockAbs} {words:made.cut.clockWay} from the zero line|on the zero line{?made.cut.onZero}|opposite the zero line{?made.cut.opposite}]",
  },
  {
    says: "Hole centre {length:made.hole.abs} [from sawn end {words:end}, on the tube{?made.hole.on}|beyond sawn end {words:end}, off the tube{?made.hole.off}]",
  },
  {
    says: "Side offset [none{?made.cut.noOffset}|{fine:made.cut.offsetAbs}, toward the side 90° {words:made.cut.offsetWay} of the heel]",
  },
  { says: "Net length with both ends {compared:made.finished}[ {compared:now.finished}|]" },
];

const BENDER: Label[] = [
  { says: "[Bender|Saw] card — {words:bar.label} Sheet" },
  {
    says: "SAW TO {length:sawn} Saw both ends square. Net length {length:net}, long point to long point, before bending. Allowance {length:trim.A} at end A, {length:trim.B} at end B.",
  },
  { says: "END FED FIRST end {words:lead} end {words:tail} is the tail" },
  { says: "DIE {words:die} centreline radius {length:clr}; {count:bends} bend[s|]" },
  {
    says: "{words:lead} {words:tail} {count*:feed.order} {length*:feed.dims} Scale 1 : {number:scale.tube}, not true size",
  },
  { says: "{words:lead} {words:tail} {length*:feed.dims} Scale 1 : {number:scale.tube}, not true size" },
  { says: "{count=bend}{?step} MARK {length:mark} from sawn end {words:lead}" },
  { says: "L R looking along the tube" },
  { says: "L R bend {count:bend} looking along the tube" },
  { says: "L R {count:turn.last}[ bend {count:bend}|] looking along the tube" },
  {
    says: "TURN BEFORE BEND {count:bend} First bend, no turn{?turn.first}. Scribe a line along the top of the tube. The die bends to your {words:turnSide}.",
  },
  { says: `TURN BEFORE BEND {count:bend} {angle:turn.amount} T${TURN}` },
  { says: `TURN BEFORE BEND {count:bend} {angle:turn.amount} T${HALF_TURN}` },
  { says: `TURN BEFORE BEND {count:bend} D${NO_TURN}` },
  { says: "SET {angle:set} to get {angle:angle} ± {angle:set.sd}, from the test bends" },
  { says: "SET {angle:set} to get {angle:angle}" },
  { says: "ANGLE TO REACH {angle:angle} Die not calibrated{?set.unknown}" },
  { says: "After bend {count:bend} the tape must read:" },
  { says: "{length:check.leg A} sawn end A to where the outer lines of both legs at bend {count:bend} meet" },
  { says: "{length:check.leg B} sawn end B to where the outer lines of both legs at bend {count:bend} meet" },
  {
    says: "{length:check.round} tape laid round the outside of bend {count:bend}, from where it begins to where it ends",
  },
  {
    says: "{length:check.across} straight across, centre of sawn end {words:lead} to centre of sawn end {words:tail}",
  },
  {
    says: "{length:check.parallelLead} outside to outside, square across at bend {count:bend}, the leg at end {words:lead} to the leg [at end {words:tail}|between bends {count:bend} and {count:bend.after}]",
  },
  {
    says: "{length:check.between} outside to outside, square across at bend {count:bend}, the leg between bends {count=legFrom} and {count=legTo} to the leg [at end {words:tail}|between bends {count:bend} and {count:bend.after}]",
  },
  {
    says: "{length:check.table} table to the underside of sawn end {words:tail}, the bar flat on the plane of bend {count:firstBend}",
  },
  {
    says: `Mark bend {count:own.first}: {length:own.markFirst} from sawn end {words:lead}. Mark bend {count:own.second}: {length:own.markSecond} from sawn end {words:tail}. Make bend {count:own.first} with end {words:lead} fed first. Then turn the tube round and feed end {words:tail} first. Looking along the tube toward the die, bend {count:own.first} ${POINTS("round")}.`,
  },
  {
    says: "A B {angles*:angles} Seen from above, bend {count:firstBend} flat on the table, scale 1 : {number:scale.finished}. Angles are true.[ End {words:tail} rises toward you{?rises.up}: its centre is {length:rises} above the plane of bend {count:firstBend}.|]",
  },
];

/** "Source of these figures" at the foot of bender and notcher cards. */
const FROM: Label[] = [
  { says: "{node=node}: at ({length*:node.at})" },
  { says: "{node=node}: ({length*:node.step}) on from the node before" },
  { says: "{node=node}: flat on plate {words:node.plate} at ({length*:node.plateAt})" },
  { says: "{node=node}: point {words:node.point} ({length*:node.pointAt})[ moved by ({length*:node.by})|]" },
  { says: "{node=node}: on {words:node.on}, {length:node.along} along from end {words:node.alongEnd}" },
  {
    says: "{node=node}: on {words:node.on}, where it crosses {words:node.axis} = {length:node.value}[, near ({length*:node.near})|, {words:node.side}|]",
  },
  { says: "{node=node}: on {words:node.on}, closest to at ({length*:node.toward.at})" },
  {
    says: "{node=node}: on {words:node.on}, closest to point {words:node.toward.point} ({length*:node.toward.pointAt})[ moved by ({length*:node.toward.by})|]",
  },
  { says: "off its axis by ({length*:node.off})" },
  { says: "also notched to {words:node.also}" },
  { says: "Follows {words:follow.bar}, gap {length:follow.gap} outside to outside." },
  { says: "Mirror image of {words:bar.mirrorOf} about the centre plane, y = 0." },
  {
    says: "Die {words:die}: centreline radius {length:clr}. Springback as stated: got = {number:die.k} × set [−{?die.cLess}|+{?die.cMore}] {angle:die.c}",
  },
  {
    says: "Die {words:die}: centreline radius {length:clr}. Springback from {count:die.tests} test bend[s|]: {tests*:die.testList}",
  },
  { says: "Die {words:die}: centreline radius {length:clr}. No test bends yet" },
  { says: "Arc factor {number:die.arcFactor}" },
  { says: "Marks {fine:die.mark} [past{?die.past}|before{?die.before}] the start of the bend" },
  {
    says: "Allowance {length:trim.A} at end A, {length:trim.B} at end B. Accepted gap {fine:job.gap}. Kerf {fine:job.kerf}.[ Notcher up to {angle:job.steepest} off square.|]",
  },
];

const NOTCHER: Label[] = [
  { says: "Notcher card — {words:bar.label} Sheet" },
  { says: "End {letter=end} — [onto {words:onto}|sawn square]" },
  {
    says: "USE THE WRAP[, OR ONE CUT FOR EACH HOST BELOW|] — the best [single |]hole saw cut leaves a gap of {fine:gap} at {angle:gapAt}; accepted: {fine:job.accepted}",
  },
  {
    says: "HOLE SAW, OUTSIDE Ø {size:cut.saw} [one cut seats exactly{?cut.exact}|one cut seats all of the rim that meets the host{?cut.flush}|the closest that one cut comes{?cut.inexact}]",
  },
  { says: "NO SINGLE HOLE SAW CUT use the wrap{?cut.none}" },
  { says: "NOTCH ANGLE {angle:cut.notch} off square" },
  {
    says: "CLOCK OF THE HEEL {angle:cut.clockAbs} {words:cut.clockWay} from the zero line, looking at the cut end: {length:cut.round} round the tube[; the hole saw is square to the tube{?cut.square}|]",
  },
  {
    says: "HOLE CENTRE {length:hole.beyondAbs} [on the long point{?hole.on}|beyond the long point, out in the waste{?hole.out}|in from the long point{?hole.in}]; {length:hole.sawnAbs} [in from the sawn end{?hole.inside}|off the sawn end: leave more allowance{?hole.off}]; {length:hole.bend} from the nearest bend",
  },
  {
    says: "HOLE CENTRE {length:hole.beyondAbs} [on the long point{?hole.on}|beyond the long point, out in the waste{?hole.out}|in from the long point{?hole.in}]; {length:hole.sawnAbs} [in from the sawn end{?hole.inside}|off the sawn end: leave more allowance{?hole.off}]{?hole.noBend}",
  },
  {
    says: "SIDE OFFSET OF THE HOLE SAW {fine:cut.offsetAbs} move the hole saw toward the side 90° {words:cut.offsetWay} of the heel: [{angle:cut.offsetSideAbs} {words:cut.offsetSideWay} from the zero line|on the zero line|opposite the zero line]",
  },
  { says: "SIDE OFFSET OF THE HOLE SAW none{?cut.noOffset}" },
  { says: "Zero line: {words:zero}. Opposite side: {words:half}." },
  { says: "SAW ANGLE square square to the tube all round{?tilt.square}" },
  {
    says: "SAW ANGLE {angle:tilt} off square CLOCK OF THE LONG POINT {angle:long.abs} {words:long.way} from the zero line, looking at the cut end: {length:long.round} round the tube",
  },
  {
    says: "Long point to short point, along the tube: {length:shortLong}. The long point is {length:trim} in from the sawn end.",
  },
  {
    says: "unfiled: the bar stays {fine:standsOff} short of its seat. Metal to file where it touches: at most {fine:most}, at {angle:mostAt}.",
  },
  { says: "0° 90° 180° 270° 360° accepted {fine:job.accepted} {fine:gap} at {angle:gapAt}" },
  ...["", " [final hole{?step.final}|{length:step.outboard}]"].map((hole) => ({
    says: `{count=cut}[ final{?step.final}|{?step.early}] {angle:step.notch} {length:step.sawn}[ off it{?step.off}|{?step.inside}] {length:step.beyond}[ short of it{?step.short}|{?step.out}]${hole} [touches at the toe{?step.toeTouches}, |touches at the heel{?step.heelTouches}, |{?step.flankOpen}]{fine:step.standsOff} short of its seat, gap {fine:step.gap} at the {words:step.open}`,
  })),
  ...["", " final hole"].map((hole) => ({
    says: `{count=cut} final{?step.final} {angle:step.notch} {length:step.sawn}[ off it{?step.off}|{?step.inside}] {length:step.beyond}[ short of it{?step.short}|{?step.out}]${hole} [seated where the rim meets the host{?cut.flush}|seated{?step.seated}|the gap above: {fine:gap} at {angle:gapAt}]`,
  })),
  {
    says: "Start shallow and deepen{?rule.holds}. Coming back from 5° too steep loses {fine:fromSteeper} of length; deepening from 5° too shallow loses {fine:fromShallower}.",
  },
  {
    says: "Start at the likeliest angle: starting shallow saves little here{?rule.fails}. 5° too shallow loses {fine:fromShallower}, 5° too steep {fine:fromSteeper}, less than 3 times as much.",
  },
  {
    says: "If the angle is only known from {angle:range.low} to {angle:range.high}, leave {fine:leave} of allowance at this end.",
  },
  {
    says: "{words=host} {size:crowd.saw} {angle:crowd.notch} [on the zero line{?crowd.onZero}|opposite the zero line{?crowd.opposite}|{angle:crowd.clockAbs} {words:crowd.clockWay}] [none{?crowd.noOffset}|{fine:crowd.offsetAbs} {words:crowd.offsetWay}] {length:crowd.sawn}[ off it{?crowd.off}|{?crowd.inside}]",
  },
  { says: "the side 90° counter-clockwise or clockwise of that heel" },
  { says: "It stays open at {arcs*:misses}." },
  { says: "Metal to file after it: up to {fine:most}, at {angle:mostAt}." },
  { says: "no listed hole saw notches this tube here, and {size:hostOd} is not listed" },
  { says: "1. Print at 100 %" },
  { says: "2. Lay line 0° of the wrap on the zero line ({words:zero}), printed face out. Close 360 on 0." },
  { says: "3. Scribe along the cut edge" },
  { says: "Misses: from {arcs*:misses} the rim passes {words:hostNames} without touching" },
  {
    says: "End B's {words:ends.sideB} is [in line with{?ends.inLine}|opposite{?ends.opposite}] end A's {words:ends.sideA}",
  },
  {
    says: "Looking from A toward B, end B's {words:ends.sideB} is {angle:ends.abs} {words:ends.way} of end A's {words:ends.sideA} ({length:ends.round} round the tube)",
  },
];

const WRAP: Label[] = [
  {
    says: "Wraps[ for a hole saw or mill| for a torch or grinder| for any cutter|] — {words:bar.label}, ends A and B",
  },
  {
    says: "End {letter=end} — [wrap for [a hole saw or mill|a torch or grinder|any cutter], |]onto {words:onto}",
  },
  {
    says: `Wrap for [a hole saw or mill|a torch or grinder|any cutter] — {words:bar.label}, end {letter=end}[, card ${CARD}|]`,
  },
  {
    says: "0° {words:zeroShort} 90° 180° {words:half} 270° 360°[ misses| misses misses| misses misses misses|] overlap: goes under, 360 on 0",
  },
  { says: `CUT EDGE · {words:bar.label} · end {words:end}${HAND_CARD}` },
  {
    says: "Base line {length=base} in from the tube's long point ({length:base.sawn} from the sawn end, {length:base.bend} from bend {count:nearBend}).",
  },
  {
    says: "Base line {length=base} in from the tube's long point ({length:base.sawn} from the sawn end; {length:base.intoBend} into bend {count:nearBend}: shorten the paper to the straight).",
  },
  { says: "Base line {length=base} in from the tube's long point ({length:base.sawn} from the sawn end)." },
  { says: "Onto {words:onto}. Zero line: {words:zero}. Ø {size:od}, wrap made for {number:paper} mm paper." },
  { says: "sheet {count:sheet} of {count:sheets}" },
];

const STRIP: Label[] = [
  { says: "Mark strip — {words:bar.label} Sheet" },
  {
    says: "{count=bend} {length:mark} [set {angle:set} to get {angle:angle}|bend and measure{?set.unknown}: {angle:angle}] first bend, no turn{?turn.first}",
  },
  {
    says: `{count=bend} {length:mark} [set {angle:set} to get {angle:angle}|bend and measure{?set.unknown}: {angle:angle}] t${TURN}`,
  },
  {
    says: `{count=bend} {length:mark} [set {angle:set} to get {angle:angle}|bend and measure{?set.unknown}: {angle:angle}] t${HALF_TURN}`,
  },
  {
    says: `{count=bend} {length:mark} [set {angle:set} to get {angle:angle}|bend and measure{?set.unknown}: {angle:angle}] d${NO_TURN}`,
  },
  {
    says: `{words:bar.label}${HAND_CARD} · strip, piece {count:piece} of {count:pieces}[ · left edge flush with sawn end {words:lead}|]`,
  },
];

const OVERVIEW: Label[] = [
  { says: "scale 1 : {number:scale.overview}, not true size" },
  {
    says: `{count=row} {words:bar.called} card ${CARD}[ {words:made.progress}[, end {words:made.oneEnd} notched|][, made to card {count:made.card}|]|] {words:bar.tube} {length:length} {length:sawn}[, sawn|] {count:bends} {words:onto.A} → {words:onto.B}`,
  },
  { says: "{words=findingBar}" },
  { says: "Die {words=die}" },
];

/** Findings, as bender card, notcher card and overview say them. */
const FINDINGS: Label[] = [
  {
    says: "at bend {count=bend} the bent part swings into the floor. It hangs {compared:limit.floor.below} under the die, the floor is {compared:limit.floor.height} under it. Fed from end {words:tail} it would hang {length:limit.floor.other} at most",
  },
  {
    says: "keep out of the swing at bend {count=bend}. The bent part comes {length:limit.swing.reach} back past the die on your [left|right]. It comes at body height, within {length:limit.swing.beside} of the tube. Fed from end {words:tail} it would come {length:limit.swing.other} at most",
  },
  { says: "DANGER {words=dangerBar}:", on: ["overview"] },
  {
    says: "bend {count=bend} has {compared:limit.clamp.has} of straight before it from end {words:lead}: the clamp needs {compared:limit.clamp.needs}",
  },
  {
    says: "bends {count:limit.between.first} and {count:limit.between.second} have {compared:limit.between.has} of straight between them: the die needs {compared:limit.between.needs}",
  },
  {
    says: "bend {count=bend} has {compared:limit.tail.has} of tube behind it to end {words:tail}: the bender needs {compared:limit.tail.needs}",
  },
  {
    says: "bend {count=bend} is {comparedAngle:limit.angle.angle}: the die goes to {comparedAngle:limit.angle.most}",
  },
  {
    says: "bend {count=bend} is {angle:limit.set.angle} and has to be set to {comparedAngle:limit.set.set}: the die goes to {comparedAngle:limit.set.most}",
  },
  {
    says: "while bend {count=bend} is made the bent part hangs {compared:limit.floor.below} under the die, which stands {compared:limit.floor.height} over the floor; fed from end {words:tail} it would hang {length:limit.floor.other} at most",
  },
  { says: "springback is taken in proportion to the angle, from bends about {angle:job.dieTested} alone" },
  {
    says: "the die is for tube of {compared:limit.other tube.die}: this bar is {compared:limit.other tube.tube}",
  },
  {
    says: "the die bends to a radius of {compared:limit.tight.clr}: cage rules commonly ask 3 times the outside diameter, {compared:limit.tight.least}, or more",
  },
  {
    says: "end {letter=end} lands {compared:nearEnd.distance} from the end of {words:hostLabel}: it needs {compared:nearEnd.needed}",
  },
  { says: "end {letter=end} meets {words:hostLabel} at only {angle:gamma}" },
  {
    says: "end {letter=end}: a {compared:od} tube on {words:hostLabel} of {compared:hostOd} is wider than its host",
  },
  { says: "end {letter=end}: bend {count:bentInJoint.bend} runs into the joint" },
  { says: "end {letter=end} leans {angle:steep} off square, past the notcher's {angle:job.steepest}" },
  {
    says: "end {letter=end}: cut to the wrap. One saw cut leaves a gap of {compared:gap} at {angle:gapAt}, over the {compared:job.accepted} accepted",
  },
  {
    says: "end {letter=end} leans {comparedAngle:steep} off square: the notcher goes to {comparedAngle:job.steepest}",
  },
  {
    says: "end {letter=end}: cut to the wrap. No listed hole saw notches this {length:od} tube here, and {length:hostOd} is not listed",
  },
  {
    says: "end {letter=end}: cut to the wrap. No single hole saw cut comes nearer than the tube's own {length:od}",
  },
  { says: "end {letter=end}: no saw at hand spans this {length:od} tube" },
  {
    says: "end {letter=end}: part of the rim passes {words:hostLabels} without touching ({arcs*:misses}, {angle:missed} in all)",
  },
  {
    says: "at corner {count=bend} the gap to {words:follow.bar} is {length:follow.departs.gap}: {length:follow.departs.by} from the {length:follow.gap} of the bar's follow",
  },
];

const CLASH_PLACE = "The place is x {length=clashX}, y {length=clashY}, z {length=clashZ}{?clash.place}";

/** Where bars want the same room: said on the cards of both. */
const CLASHES: Label[] = [
  {
    says: `move {words=clashBar} or {words=clashOther}, or cope one to the other: they overlap by {length:clash.by}. ${CLASH_PLACE} ({length:clash.along} along {words:clash.bar}, {length:clash.otherAlong} along {words:clash.other})`,
  },
  {
    says: `move a corner: the bar runs into itself by {length:clash-self.by}. ${CLASH_PLACE.replace("clash.", "clash-self.")} ({length:clash-self.along} and {length:clash-self.otherAlong} along it)`,
  },
  {
    says: `move {words=clashBar} or plate {words=clashPlate}: they overlap by {length:clash-plate.by}. ${CLASH_PLACE.replace("clash.", "clash-plate.")} ({length:clash-plate.along} along the bar)`,
  },
];

export const LABELS: readonly Label[] = [
  ...FRAME,
  ...HARMLESS,
  ...RECORD.map((l) => ({ ...l, on: ["record", "bender", "notcher"] })),
  ...BENDER.map((l) => ({ ...l, on: ["bender"] })),
  ...NOTCHER.map((l) => ({ ...l, on: ["notcher"] })),
  ...FROM.map((l) => ({ ...l, on: ["bender", "notcher"] })),
  ...WRAP.map((l) => ({ ...l, on: ["wrap"] })),
  ...STRIP.map((l) => ({ ...l, on: ["strip"] })),
  ...OVERVIEW.map((l) => ({ ...l, on: ["overview"] })),
  ...[...FINDINGS, ...CLASHES].map((l) => ({ on: ["bender", "notcher", "overview", "record"], ...l })),
];

/** By its title a sheet is told: what it is, and whose. */
export const TITLES: readonly (readonly [RegExp, string])[] = [
  [/^(?:Bender|Saw|Notcher) record — /, "record"],
  [/^(?:Bender|Saw) card — /, "bender"],
  [/^Notcher card — /, "notcher"],
  [/^Wraps? (?:for|—) /, "wrap"],
  [/^Printer check /, "check"],
  [/^Mark strip — /, "strip"],
  [/^(?:Overview|Bars|Findings) Sheet/, "overview"],
];

/** Columns of the tables: a column that is not here fails the test. `{u}` is the job's unit. */
export const COLUMNS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  "bars.csv": {
    bar: "=bar",
    label: "words bar.label",
    hand: "words bar.hand",
    card: "card card",
    code: "rev rev",
    date: "words card.on",
    tube: "words bar.tube",
    "outside diameter ({u})": "length od",
    "wall ({u})": "length wall",
    die: "words die",
    "length on centreline ({u})": "length length",
    "net length, long point to long point, before bending ({u})": "length net",
    "allowance at end A ({u})": "length trim.A",
    "allowance at end B ({u})": "length trim.B",
    "saw to ({u})": "length sawn.todo",
    bends: "count bends",
    "end fed first": "words lead",
    "host at end A": "words onto.A.ids",
    "host at end B": "words onto.B.ids",
    "end B against end A, clockwise from A toward B (deg)": "angle ends.signed",
    progress: "words made.step",
    "sawn to ({u})": "length made.sawn",
    "made to card": "count made.card",
  },
  "bends.csv": {
    bar: "=bar",
    bend: "=bend",
    "order of bending": "count order",
    "mark from sawn end A ({u})": "length markA",
    "mark from sawn end B ({u})": "length markB",
    "angle (deg)": "angle angle",
    "angle to set (deg)": "angle set",
    "turn before the bend, clockwise from A toward B (deg)": "angle rotation",
    "turn of the tube before the bend, as the operator sees it (deg)": "angle turn.orNone",
    "way of that turn": "words turn.wayOrNone",
    "centreline radius ({u})": "length clr",
    "straight before the bend ({u})": "length straightBefore",
    "mark as bent, from the end fed first ({u})": "length made.bend.mark.done",
    "end fed first as bent": "words made.fed.done",
    "angle set as bent (deg)": "angle made.bend.set.done",
    "turn as bent, clockwise from A toward B (deg)": "angle made.bend.turn.done",
  },
  "copes.csv": {
    bar: "=bar",
    end: "=end",
    host: "words ontoIds",
    kind: "words kind",
    "zero line": "words zeroId",
    "long point, back from the landing ({u})": "length least",
    "short point, back from the landing ({u})": "length greatest",
    "hole saw diameter ({u})": "length cut.saw",
    "off square (deg)": "angle offSquare",
    "clock of the heel or long point, counter-clockwise from the zero line (deg)": "angle side",
    "side offset toward 90 deg past the heel ({u})": "length cut.offset",
    "hole centre beyond the long point ({u})": "length hole.beyond",
    "hole centre from the sawn end ({u})": "length hole.sawn",
    "hole centre from the nearest bend ({u})": "length hole.bend",
    "one cut seats exactly": "words exact",
    "greatest gap ({u})": "length gap",
    "clock of the greatest gap (deg)": "angle gapAt",
    "use the wrap": "words useWrap",
    "clocks where the rim stays open, counter-clockwise from the zero line (deg)": "arcs misses?",
    notched: "words made.method",
    "off square as notched (deg)": "angle made.offSquare",
    "hole centre from the sawn end as notched ({u})": "length made.hole",
  },
};
