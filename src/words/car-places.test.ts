import { describe, expect, it } from "vitest";
import { CAR_PLACES, CAR_SIDES, carPlaceId, mirroredPlace, pointWords } from "./car-places.ts";

describe("places of a car", () => {
  it.each([
    ["a-pillar-foot-left", "A-pillar foot left"],
    ["a-pillar-foot-right-2", "A-pillar foot right 2"],
    ["floor-mark-front-left", "Floor mark front left"],
    ["transmission-tunnel", "Transmission tunnel"],
    ["origin", "Origin mark"],
    ["left", "Mark left"],
    ["p", "P"],
    ["Pedal box, M8", "Pedal box, M8"],
  ])("%s is read as %s", (id, says) => {
    expect(pointWords(id)).toBe(says);
  });

  it("each has its words, its ID and its twin, and none twice", () => {
    const all = CAR_PLACES.flatMap(({ places }) => places);
    expect(new Set(all.map(([id]) => id)).size).toBe(all.length);
    expect(new Set(all.map(([, says]) => says)).size).toBe(all.length);
    for (const [id, says] of all) {
      expect(pointWords(id)).toBe(says);
      for (const side of CAR_SIDES) {
        const sided = carPlaceId(id, side);
        expect(pointWords(sided)).toBe(side === "centre" ? says : `${says} ${side}`);
        const twin = mirroredPlace(sided);
        if (side === "centre") expect(twin).toBeUndefined();
        else expect(mirroredPlace(twin!)).toBe(sided);
      }
    }
  });
});
