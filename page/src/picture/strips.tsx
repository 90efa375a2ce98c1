// The strips under the picture, all on the gap axis of the picture.
import type { JSX } from "preact";
import "./strips.css";
import { trouble, view } from "../state/rig";
import { GapAxis } from "./axis";
import { AnkleStrip, DropStrip } from "./strip_bays";
import { ReturnStrip } from "./strip_returns";
import { GroundStrip, TensionStrip } from "./strip_walker";
import { text } from "../words/format";
import { readAt_m } from "./state";

export function Strips(): JSX.Element | null {
  if (!view.value) return null;
  return (
    <div class="strips">
      <GapAxis />
      <p class="strips-place">
        At <strong>{text(readAt_m.value, "length")}</strong> across the gap
        {trouble.value === "" ? ":" : ", as the line was when it could last be computed:"}
      </p>
      <DropStrip />
      <AnkleStrip />
      <ReturnStrip />
      <TensionStrip />
      <GroundStrip />
    </div>
  );
}
