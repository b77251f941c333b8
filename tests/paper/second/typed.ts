/** Lengths as a shop types them into a job file, in mm. Written from the examples of the job file's description. */
export function typedLength(value: number | string): number {
  if (typeof value === "number") return value;
  const text = value.trim().replaceAll("″", '"').replaceAll("′", "'");
  const sign = text.startsWith("-") ? -1 : 1;
  const bare = text.replace(/^[-+]/, "").trim();
  const mm = /^([\d.]+)\s*mm$/.exec(bare);
  if (mm) return sign * Number(mm[1]);
  const feet = /^(\d+)\s*(?:'|ft)\s*-?\s*/.exec(bare);
  const rest = (feet ? bare.slice(feet[0].length) : bare).replace(/\s*(?:"|in)$/, "").trim();
  const whole = /^(\d*\.?\d*)(?:[\s-]+)?(?:(\d+)\/(\d+))?$/.exec(rest);
  const fraction = /^(\d+)\/(\d+)$/.exec(rest);
  let inches = 0;
  if (fraction) inches = Number(fraction[1]) / Number(fraction[2]);
  else if (whole) inches = Number(whole[1] || 0) + (whole[2] ? Number(whole[2]) / Number(whole[3]) : 0);
  else if (rest !== "") throw new Error(`the second computation cannot read the length ${value}`);
  return sign * 25.4 * (12 * Number(feet?.[1] ?? 0) + inches);
}
