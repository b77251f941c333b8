/**
 * An invented small car with what a real one has and the demo has not: a roof that comes off, side panels with door
 * openings, a screen opening, a hoop that only goes in by it, bars marked by when they go in, and a torch of its own.
 */
const side = (y: number) => [
  [-900, y, 60],
  [900, y, 60],
  [900, y, 1100],
  [-900, y, 1100],
];
const door = (y: number) => [
  [-350, y, 200],
  [650, y, 200],
  [650, y, 900],
  [-350, y, 900],
];

export const crowded = {
  format: "tubewright job",
  version: 2,
  tubes: { t: { od: 40, wall: 2 }, s: { od: 30, wall: 2 } },
  dies: { d: { od: 40, clr: 120 } },
  plates: {
    "foot-l": { at: [0, 500, 0], normal: [0, 0, 1], size: [120, 90] },
    "foot-r": { at: [0, -500, 0], normal: [0, 0, 1], size: [120, 90] },
  },
  body: {
    openings: { "door-left": door(640), screen: screen() },
    panels: {
      "side-left": { edge: side(640), openings: ["door-left"] },
      tail: {
        edge: [
          [-900, -640, 60],
          [-900, 640, 60],
          [-900, 640, 1100],
          [-900, -640, 1100],
        ],
      },
      front: {
        edge: [
          [900, -640, 60],
          [900, 640, 60],
          [900, 640, 1100],
          [900, -640, 1100],
        ],
        openings: ["screen"],
      },
      roof: {
        edge: [
          [-900, -640, 1100],
          [900, -640, 1100],
          [900, 640, 1100],
          [-900, 640, 1100],
        ],
      },
    },
    roof: ["roof"],
  },
  bars: {
    hoop: {
      tube: "t",
      die: "d",
      needs: "body on",
      path: [{ plate: "foot-l" }, [0, 500, 900], [0, -500, 900], { plate: "foot-r" }],
    },
    across: {
      tube: "t",
      path: [
        { on: "hoop", z: 500, near: "left" },
        { on: "hoop", z: 500, near: "right" },
      ],
    },
    "stay-l": { tube: "t", path: [{ on: "hoop", along: 760 }, [-700, 420, 60]] },
    "stay-r": { mirrorOf: "stay-l" },
    tie: {
      tube: "s",
      path: [
        { on: "stay-l", x: -350 },
        { on: "stay-r", x: -350 },
      ],
    },
    gusset: {
      tube: "s",
      needs: "roof off",
      path: [
        { on: "hoop", y: 250, near: "top" },
        { on: "across", y: 200 },
      ],
    },
  },
  shop: { torch: { od: 18, length: 150 } },
};

function screen() {
  return [
    [900, -560, 62],
    [900, 560, 62],
    [900, 560, 1080],
    [900, -560, 1080],
  ];
}
