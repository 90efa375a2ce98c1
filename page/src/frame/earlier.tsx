// Says of verdict, checks and numbers, everywhere alike, that they are of an earlier text.
import { earlierWords } from "./judged";
import "./earlier.css";

/** Empty where they are of what is shown. */
export function Earlier() {
  return earlierWords.value === "" ? null : <span class="earlier">{earlierWords.value}</span>;
}
