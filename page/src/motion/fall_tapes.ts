// What is known of the tapes, and what is taken where it is not.
import type { AskedFall, RigFiles } from "../engine/api";

/** Whether a rig file says what tears a tape. The plan does not tell, since only falls use it. */
export const tapeStrengthGiven = ({ text }: RigFiles): boolean => /^[^#\n]*\btape_strength\b/m.test(text);

/** What the choice takes, in a sentence. */
export function tapesWords(of: RigFiles, tapes: AskedFall["tapes"]): string {
  if (tapeStrengthGiven(of)) return tapes === "hold" ? "All tapes hold." : "Tapes tear where the load is over their strength.";
  const taken = tapes === "hold" ? "here every one holds" : "here none of them holds";
  return `The strength of the tapes is not known: ${taken}.`;
}
