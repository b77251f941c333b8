/**
 * Where a function that falls and then rises is least on [lo, hi], to within `width` (golden-section search).
 * `hopeless(value, width)`, if given, ends the search early: least value seen and width of what is left to search.
 */
export function goldenLeast(
  f: (x: number) => number,
  lo: number,
  hi: number,
  width: number,
  hopeless?: (value: number, width: number) => boolean,
): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let p = hi - golden * (hi - lo);
  let q = lo + golden * (hi - lo);
  let fp = f(p);
  let fq = f(q);
  while (hi - lo > width && p < q) {
    if (hopeless?.(Math.min(fp, fq), hi - lo)) break;
    if (fp < fq) {
      hi = q;
      q = p;
      fq = fp;
      p = hi - golden * (hi - lo);
      fp = f(p);
    } else {
      lo = p;
      p = q;
      fp = fq;
      q = lo + golden * (hi - lo);
      fq = f(q);
    }
  }
  return fp < fq ? p : q;
}
