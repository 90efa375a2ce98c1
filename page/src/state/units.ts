// Units of what is shown. Inside everything is SI.
import { signal } from "@preact/signals";
import type { Units } from "../engine/api";

const key = "spanloom.units";

function remembered(): Units {
  try {
    return localStorage.getItem(key) === "us" ? "us" : "metric";
  } catch {
    return "metric"; // a browser may forbid it
  }
}

export const units = signal<Units>(remembered());

export function setUnits(chosen: Units): void {
  units.value = chosen;
  try {
    localStorage.setItem(key, chosen);
  } catch {
    // then it is not remembered
  }
}
