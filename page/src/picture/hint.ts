// Where a newcomer begins: on the practice line that comes with the page, and nowhere else, since only there it is true.
import { computed } from "@preact/signals";
import { demos } from "../frame/demos";
import { shownFiles } from "../state/rig";
import { tookOne } from "./state";

/** Taken out of the practice line as it comes, it calms the line. */
export const hintTape = 4;

/** True on the practice line as it was opened, until a tape was taken out in this browser. */
export const hinted = computed(() => !tookOne.value && shownFiles.value.text === demos[0].files.text);
