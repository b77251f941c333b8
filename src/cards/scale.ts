/** Reductions that a drawing is made at, 1 : n. After ISO 5455 (1, 2, 5, 10 …), with steps between for one sheet's room. */
const REDUCTIONS = [1, 2, 2.5, 4, 5, 8, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 500, 1000];

/** The largest scale at which `width` × `height` mm fit into the room, as n of 1 : n. */
export const reduction = (
  width: number,
  height: number,
  room: { readonly width: number; readonly height: number },
): number =>
  REDUCTIONS.find((n) => width / n <= room.width && height / n <= room.height) ??
  Math.ceil(Math.max(width / room.width, height / room.height) / 1000) * 1000;
