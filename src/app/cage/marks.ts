import { BufferAttribute, BufferGeometry, Points, type ShaderMaterial } from "three";
import type { MarkShape } from "./materials.ts";

/** What needs attention: a triangle with an exclamation mark, over everything. */
export const ATTENTION: MarkShape = {
  name: "attention",
  size: 26,
  onTop: true,
  draw: (c, size, theme) => {
    c.lineJoin = "round";
    c.lineWidth = 2.2;
    c.strokeStyle = theme.attention;
    c.fillStyle = theme.ground;
    c.beginPath();
    c.moveTo(size / 2, 2.5);
    c.lineTo(size - 2, size - 3.5);
    c.lineTo(2, size - 3.5);
    c.closePath();
    c.fill();
    c.stroke();
    c.fillStyle = theme.attention;
    c.fillRect(size / 2 - 1.2, 9, 2.4, 7);
    c.fillRect(size / 2 - 1.2, 17.6, 2.4, 2.4);
  },
};

/** A measured point: a cross. */
export const POINT: MarkShape = {
  name: "point",
  size: 13,
  draw: (c, size, theme) => {
    c.strokeStyle = theme.ink;
    c.lineWidth = 1.2;
    c.beginPath();
    c.moveTo(size / 2, 0.5);
    c.lineTo(size / 2, size - 0.5);
    c.moveTo(0.5, size / 2);
    c.lineTo(size - 0.5, size / 2);
    c.stroke();
  },
};

/** A place on the body's skin: a small dot. */
export const SKIN: MarkShape = {
  name: "skin",
  size: 5,
  draw: (c, size, theme) => {
    c.fillStyle = theme.muted;
    c.beginPath();
    c.arc(size / 2, size / 2, size / 2 - 0.5, 0, 2 * Math.PI);
    c.fill();
  },
};

/** How much room the words beside the marker's axes take (CSS pixels), in a font that is rather wide. */
export const WORD = { height: 14, width: { front: 34, left: 25, up: 18 } } as const;

/** A word beside an axis of the marker. */
export const word = (text: string): MarkShape => ({
  name: `word ${text}`,
  size: 40,
  onTop: true,
  draw: (c, size, theme) => {
    c.font = "600 11px system-ui, sans-serif";
    c.textAlign = "center";
    c.textBaseline = "middle";
    c.lineWidth = 3;
    c.lineJoin = "round";
    c.strokeStyle = theme.ground;
    c.strokeText(text, size / 2, size / 2);
    c.fillStyle = theme.ink;
    c.fillText(text, size / 2, size / 2);
  },
});

/** The same mark at each of these places (x, y, z). */
export function marked(places: Float32Array, material: ShaderMaterial): Points {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(places, 3));
  return new Points(geometry, material);
}
