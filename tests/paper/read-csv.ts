/** RFC 4180 rows; an apostrophe that shields a cell from a spreadsheet's formulas is taken off. */
export function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = "";
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i]!;
    if (quoted) {
      if (c !== '"') cell += c;
      else if (text[i + 1] === '"') cell += text[++i];
      else quoted = false;
    } else if (c === '"' && cell === "") quoted = true;
    else if (c === ",") {
      row.push(cell);
      cell = "";
    } else if (c === "\r" && text[i + 1] === "\n") {
      rows.push([...row, cell]);
      [row, cell] = [[], ""];
      i++;
    } else cell += c;
  }
  if (cell !== "" || row.length > 0) throw new Error("the last line of the CSV is not ended");
  return rows.map((r) => r.map((v) => v.replace(/^'(?=[=+\-@])/, "")));
}
