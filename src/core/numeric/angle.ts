/** Degrees to radians. */
export const rad = (degrees: number): number => (degrees * Math.PI) / 180;

/** Radians to degrees. */
export const deg = (radians: number): number => (radians * 180) / Math.PI;

/** The same angle in (-π, π] (radians). */
export const wrapPi = (a: number): number => {
  const w = a - 2 * Math.PI * Math.round(a / (2 * Math.PI));
  return w <= -Math.PI ? w + 2 * Math.PI : w;
};

/** The same angle in [0, 360) (degrees). */
export const wrap360 = (a: number): number => {
  const w = a % 360;
  return w < 0 ? (w + 360 === 360 ? 0 : w + 360) : w === 0 ? 0 : w;
};

/** Sine and cosine of an angle in degrees, exact at multiples of 90. */
export function sinCosDeg(a: number): readonly [number, number] {
  const w = wrap360(a);
  if (w === 0) return [0, 1];
  if (w === 90) return [1, 0];
  if (w === 180) return [0, -1];
  if (w === 270) return [-1, 0];
  return [Math.sin(rad(w)), Math.cos(rad(w))];
}
