// Numbers for people, in their units: the units and digits of the engine's own texts (engine/base/quantity_text.h).
import { units } from "../state/units";

export type Quantity =
  | "length" | "small length" | "force" | "small force" | "share" | "return" | "ratio" | "arm spans" | "time" | "frequency"
  | "mass" | "speed" | "energy";

interface Shown {
  /** The shown number over the one in SI. */
  factor: number;
  unit: string;
  digits: number;
}

const foot = 0.3048; // m, exactly (international foot, 1959)
const mile = 5280 * foot; // m
const hour = 3600; // s
const poundForce = 4.4482216152605; // N, exactly (pound 0.45359237 kg times 9.80665 m/s2)
const pound = 0.45359237; // kg, exactly

const metric: Record<Quantity, Shown> = {
  length: { factor: 1, unit: "m", digits: 2 },
  "small length": { factor: 1000, unit: "mm", digits: 0 },
  force: { factor: 1e-3, unit: "kN", digits: 2 },
  "small force": { factor: 1, unit: "N", digits: 0 },
  share: { factor: 100, unit: "%", digits: 1 },
  return: { factor: 100, unit: "%", digits: 0 },
  ratio: { factor: 1, unit: "", digits: 2 },
  "arm spans": { factor: 1, unit: "arm spans", digits: 2 },
  time: { factor: 1, unit: "s", digits: 2 },
  frequency: { factor: 1, unit: "Hz", digits: 2 },
  mass: { factor: 1, unit: "kg", digits: 1 },
  speed: { factor: 1, unit: "m/s", digits: 1 },
  energy: { factor: 1, unit: "J", digits: 1 },
};
const us: Record<Quantity, Shown> = {
  ...metric,
  length: { factor: 1 / foot, unit: "ft", digits: 2 },
  "small length": { factor: 12 / foot, unit: "in", digits: 1 },
  force: { factor: 1 / poundForce, unit: "lbf", digits: 0 },
  "small force": { factor: 1 / poundForce, unit: "lbf", digits: 1 },
  mass: { factor: 1 / pound, unit: "lb", digits: 1 },
  speed: { factor: hour / mile, unit: "mph", digits: 1 },
};

/** How a quantity is shown in the chosen units. */
export function shown(quantity: Quantity): Shown {
  return (units.value === "us" ? us : metric)[quantity];
}

/** A ratio of 749 has no hundredths worth reading. */
function digitsOf(value: number, quantity: Quantity, digits: number): number {
  if (quantity !== "ratio") return digits;
  return Math.abs(value) < 9.995 ? 2 : Math.abs(value) < 99.95 ? 1 : 0;
}

/** A number in SI without its unit, as it is shown. Null: "-". */
export function number(value: number | null, quantity: Quantity): string {
  if (value === null || !Number.isFinite(value)) return "-";
  const { factor, digits } = shown(quantity);
  const text = (value * factor).toFixed(digitsOf(value, quantity, digits));
  return Number(text) === 0 ? text.replace("-", "") : text.replace("-", "\u2212");
}

/** A number in SI with its unit, as it is shown. Null: "-". */
export function text(value: number | null, quantity: Quantity): string {
  const digits = number(value, quantity);
  const unit = shown(quantity).unit;
  return digits === "-" || unit === "" ? digits : `${digits}\u00a0${unit}`;
}

const smallLength = 0.5; // m: below it a length reads better in small units
const smallForce = 1000; // N

/**
 * How a check whose value and limit are in `unit` ("m", "N", "-") is best shown.
 * @returns null for a count, whose unit is its own word ("bays")
 */
export function quantityOf(unit: string, value: number | null, limit: number | null): Quantity | null {
  const greater = Math.max(Math.abs(value ?? 0), Math.abs(limit ?? 0));
  switch (unit) {
    case "m": return greater < smallLength ? "small length" : "length";
    case "N": return greater < smallForce ? "small force" : "force";
    case "kg": return "mass";
    case "s": return "time";
    case "m/s": return "speed";
    case "-": case "": return "ratio";
    default: return null;
  }
}
