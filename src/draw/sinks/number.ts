/** A length in a file: to a ten-thousandth of a millimetre, without trailing zeros or a minus before zero. */
export const num = (value: number): string => {
  const text = value.toFixed(4).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
};
