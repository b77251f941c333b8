/** The list under "?": keys, what the stations are for, how the picture is turned. */

/** The lines of the table of keys (app/shell/rail/keys.ts). */
export type KeyId = keyof typeof KEYS_LIST.does;

export const KEYS_LIST = {
  title: "Keys and stations",
  keys: "Keys",
  stations: "Stations",
  picture: "Picture",
  marks: "Marks beside a bar",
  does: {
    undo: "Undo the last change",
    redo: "Redo it",
    print: "Print: one bar, marked bars, all of them",
    find: "Find a bar",
    walk: "Walk along the bars",
    take: "Take the bar in hand, or put it down",
    several: "Mark a bar, or all up to it",
    beside: "Previous and next bar in hand",
    stations: "Go to a station",
    steps: "Previous and next step at a station",
    close: "Close what is open, end a search, put the bar down",
    list: "This list",
  },
  questions: {
    wall: "Where do the bars run, and in what order do they go in?",
    car: "What do I measure, will it go in, does it sit right?",
    bender: "Where do I mark, how far do I turn, how far do I bend?",
    trestles: "Is what I bent what I wanted?",
    notcher: "What do I cut on this end, and next?",
  },
  touch: [
    "One finger turns it.",
    "Two fingers move it and zoom.",
    "A tap takes a bar in hand.",
    "Two taps centre it.",
  ],
  mouse: ["Drag turns it; Shift and drag moves it.", "The wheel zooms."],
  inPicture: "Keys, with the focus on the picture",
  six: "From left to right: sawn, bent, notched, fitted, tacked, welded. Full is done, half is one end, a dash is not needed.",
} as const;
