// What a file is that somebody opens or drops, told from its name and its first line.
import type { FileFault, RigFiles } from "../engine/api";

export interface NamedText {
  name: string;
  text: string;
}

/** What the columns of a CSV file say that it is. */
export type CsvKind = "ground" | "curve" | "unknown";

const isCsv = (file: NamedText): boolean => /\.csv$/i.test(file.name);
const isToml = (file: NamedText): boolean => /\.toml$/i.test(file.name);

/** The rig file among files opened at once, and the CSV files beside it. Rig null: there is none. */
export function sorted(files: readonly NamedText[]): { rig: NamedText | null; csvs: NamedText[] } {
  const rig = files.find(isToml) ?? files.find((file) => !isCsv(file)) ?? null;
  return { rig, csvs: files.filter((file) => file !== rig && isCsv(file)) };
}

/** From the line that names the columns: the first that is neither empty nor a comment. */
export function kindOf(csv: NamedText): CsvKind {
  const head = csv.text.split(/\r?\n/).find((line) => line.trim() !== "" && !line.trim().startsWith("#")) ?? "";
  const names = head.split(",").map((cell) => cell.replace(/\[.*/, "").trim().replace(/^\ufeff/, "").toLowerCase());
  if (names.includes("distance") && names.includes("height")) return "ground";
  if (names.includes("tension") && names.includes("stretch")) return "curve";
  return "unknown";
}

/** Names of CSV files that the rig file names and that are not there. */
export function missingNames(faults: readonly FileFault[]): string[] {
  const names = faults.flatMap((fault) => {
    const named = /^"(.+)"$/.exec(fault.read)?.[1];
    const namesFile = fault.key === "site.ground" || fault.key.endsWith(".stretch_csv");
    return namesFile && named !== undefined && fault.expected.startsWith("a CSV file") ? [named] : [];
  });
  return [...new Set(names)];
}

/** The files with one side file more, or another text of one that is there. */
export function withSide(files: RigFiles, side: NamedText): RigFiles {
  const others = files.sides.filter((other) => other.name !== side.name);
  return { ...files, sides: [...others, side] };
}
