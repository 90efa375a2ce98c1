// Two small sums about texts: what changed between two of them, and where a line and a column lie.

export interface TextChange {
  from: number;
  to: number;
  insert: string;
}

const isSecondHalf = (unit: number): boolean => unit >= 0xdc00 && unit <= 0xdfff;

/** The one stretch of text that differs, so that a caret outside it stays where it is. Null: the texts are the same. */
export function changeBetween(before: string, after: string): TextChange | null {
  if (before === after) return null;
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before.charCodeAt(start) === after.charCodeAt(start)) ++start;
  if (start > 0 && isSecondHalf(before.charCodeAt(start))) --start; // no character is cut in two
  let end = 0;
  while (end < shorter - start && before.charCodeAt(before.length - 1 - end) === after.charCodeAt(after.length - 1 - end)) ++end;
  if (end > 0 && isSecondHalf(before.charCodeAt(before.length - end))) --end;
  return { from: start, to: before.length - end, insert: after.slice(start, after.length - end) };
}

/** Offset in a line of its column, both of one line's text. Columns count characters from 1. */
export function offsetOfColumn(line: string, column: number): number {
  let offset = 0;
  for (const character of line) {
    if (--column < 1) break;
    offset += character.length;
  }
  return offset;
}
