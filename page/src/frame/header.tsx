// Which rig it is, its files, the units. It scrolls away; what must stay in sight is in verdict_bar.tsx.
import type { ComponentChildren } from "preact";
import type { Units } from "../engine/api";
import { files, unsaved, view } from "../state/rig";
import { setUnits, units } from "../state/units";
import { question, saveAsked } from "./opening";
import "./header.css";

function UnitsChoice() {
  const choose = (event: Event): void => setUnits((event.currentTarget as HTMLSelectElement).value as Units);
  return (
    <label class="header-units">
      <span class="visually-hidden">Units</span>
      <select value={units.value} onChange={choose}>
        <option value="metric">Metric</option>
        <option value="us">US</option>
      </select>
    </label>
  );
}

/** The title of the rig; the name of its file until there is a plan, which alone knows the title. */
export const title = (): string => view.value?.document.title ?? files.value.name;

export function Header({ children }: { children?: ComponentChildren }) {
  const isChanged = unsaved.value.length > 0;
  return (
    <header class="header">
      <h1>{title()}</h1>
      <div class="header-actions" role="group" aria-label="Files and units">
        <button type="button" class="button" aria-haspopup="dialog" onClick={() => (question.value = { kind: "open" })}>
          Open
        </button>
        <button type="button" class="button" onClick={saveAsked}>
          Save
          {isChanged && <span aria-hidden="true">*</span>}
          {isChanged && <span class="visually-hidden"> (changed)</span>}
        </button>
        <UnitsChoice />
      </div>
      {children}
    </header>
  );
}
