import type { Code } from "../../core/findings/index.ts";

export const SURVEY = {
  "survey-no-datum":
    "nothing ties the readings to the car; give the places of three points that do not lie on one line",
  "survey-no-solution":
    "no places suit these readings well enough to settle; look for an error of almost nothing or a reading beyond all measure",
  "survey-far-out":
    "no places suit these readings well enough to settle; look first at {reading}: is it in the right unit and between the right points?",
  "survey-tangled":
    "no places were found on which the readings agree ({astray} of {all} are out of step); give some of the points a rough place with a large error, and try again",
  "survey-undetermined": "{point} cannot be placed; readings of it: {count}; to fix it take {fix}",
  "survey-mirror":
    "{points} could as well stand elsewhere, mirrored: {point} at {other} instead of {at}; {settle} settles it",
  "survey-suspect":
    "{reading} does not fit: it reads {read}, the others say {computed}; it is left out of the cleaned places, not of the others",
  "survey-suspect-among":
    "{reading} or as well {others} does not fit: it reads {read}, the others say {computed}; one more reading is needed to tell which",
  "survey-no-place":
    "{reading} reads {read}, and no place of {point} suits it together with {others}; read them again",
  "survey-unit": "{reading} reads {read}, the others say {computed}; was it {likely}?",
  "survey-exact":
    "{reading} reads {read}, the places given make it {computed}; the reading or one of the places is wrong",
  "survey-misplaced":
    "{point} comes out {off} from the place given for it, which was said to be good to {sd}; it is left out of the cleaned places",
  "survey-test":
    "the readings disagree {sigma0} times as much as their errors allow, without one that stands out; are the errors stated too small?",
  "survey-same-place": "points {first} and {second} come out at one place; is one of them a slip?",
  "survey-unchecked": "checked by no other reading, so that a slip would not be seen: {places}",
  "survey-lean-half": "the shell's lean was read {way} only; the other way it is taken as level",
  "survey-bar-missing": "left out: {host} has no geometry to hold a tape on",
  "survey-off-bar": "left out: {host} is {length} long; {along} is off its end",
  "survey-no-bend": "left out: {host} has {count} bends; there is no bend {bend}",
  "reading-unit":
    "read {reading} again: {read} where about {expected} is expected; was it {likely}? It is left out",
  "bar-on-adjusted": "stands on places as the readings adjust them: {points}",
  "bar-on-doubtful":
    "{point} comes {off} elsewhere when the readings that do not fit are left out; settle them before this bar is cut",
  "bar-on-mirrored":
    "{point} could as well stand mirrored, at {other}; {settle} settles it before this bar is cut",
  "survey-own-bar": "left out: {host} stands on {point} itself, so a tape between the two does not place it",
  "survey-bars-circle":
    "readings are taken from bars that stand on what those readings place, and the two do not settle; the places are good to {off} at best",
} as const satisfies Partial<Record<Code, string>>;
