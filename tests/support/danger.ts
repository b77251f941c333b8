/** A job whose bars swing into the floor and through where their operator works; invented. */
export const DANGER = {
  format: "tubewright job",
  version: 1,
  name: "Low bender",
  tubes: { t: { od: 45, wall: 2.5 } },
  dies: {
    d: {
      od: 45,
      clr: 130,
      clamp: 90,
      between: 40,
      tail: 100,
      maxAngle: 180,
      springback: { k: 0.976, c: -1.6 },
    },
  },
  bender: { height: 400, turnSide: "right" },
  notcher: { saws: [45] },
  bars: {
    u: {
      label: "Narrow hoop",
      tube: "t",
      die: "d",
      path: [
        [0, 160, 0],
        [0, 160, 1200],
        [0, -160, 1200],
        [0, -160, 500],
      ],
    },
    leg: {
      label: "Hanging leg",
      tube: "t",
      die: "d",
      path: [
        [1000, 0, 0],
        [1000, 0, 900],
        [1600, 0, 900],
        [1600, 700, 900],
      ],
    },
    cross: {
      label: "Cross",
      tube: "t",
      path: [
        { on: "u", along: 400 },
        { on: "leg", along: 400 },
      ],
    },
  },
} as const;
