// The page's colours for canvases, which do not see custom properties by themselves.

/** Colours by what they are for; the names are those of src/style.css. */
export interface Ink {
  ink: string;
  softInk: string;
  paper: string;
  shade: string;
  rule: string;
  main: string;
  backup: string;
  other: string;
  ground: string;
  stop: string;
}

const names: Record<keyof Ink, string> = {
  ink: "--ink",
  softInk: "--soft-ink",
  paper: "--paper",
  shade: "--shade",
  rule: "--rule",
  main: "--main",
  backup: "--backup",
  other: "--other",
  ground: "--ground",
  stop: "--stop",
};

/** Reads the colours that hold at an element. */
export function inkAt(element: Element): Ink {
  const style = getComputedStyle(element);
  const read = (name: string): string => style.getPropertyValue(name).trim() || "black";
  return Object.fromEntries(Object.entries(names).map(([key, name]) => [key, read(name)])) as unknown as Ink;
}

/** Writing on canvases [px]. */
export const writing = { size: 13, font: "13px system-ui, sans-serif", line: 17 } as const;
