// The two lines that come with the page. Both are invented.
import heron from "../../../examples/heron-gorge/rig.toml?raw";
import brook from "../../../examples/heron-gorge/brook.csv?raw";
import ground from "../../../examples/heron-gorge/ground.csv?raw";
import practice from "../../../examples/practice-line/rig.toml?raw";
import type { RigFiles } from "../engine/api";

export interface Demo {
  /** As a choice for people. */
  words: string;
  files: RigFiles;
}

const practiceLine: Demo = {
  words: "Practice line: 16 m, evenly taped",
  files: { name: "practice-line.toml", text: practice, sides: [] },
};
const heronGorge: Demo = {
  words: "Heron gorge: 62 m, uneven bays",
  files: {
    name: "heron-gorge.toml",
    text: heron,
    sides: [{ name: "ground.csv", text: ground }, { name: "brook.csv", text: brook }],
  },
};

/** The one that the page opens with, when nothing else is asked, stands first. */
export const demos = [practiceLine, heronGorge] as const;
