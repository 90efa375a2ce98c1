// Values as people enter them: a number with or without its unit, and a step more or less.
import { shown, type Quantity } from "../words/format";

/**
 * A value as it stands in the rig file, right of the "=".
 * @param typed "4.5 kN", "4,5kN", or "4.5", which is then in the unit shown
 * @returns TOML; what cannot be read is passed on, for the engine to say so
 */
export function asToml(typed: string, quantity: Quantity): string {
  const text = withPoint(typed.trim());
  const isBare = /^[+-]?\d*\.?\d+$/.test(text);
  return JSON.stringify(isBare ? `${text} ${shown(quantity).unit}` : text);
}

/** Keyboards of many countries have a comma only. Three digits after it may be a thousands mark: the engine refuses those. */
function withPoint(typed: string): string {
  const text = typed.replace("\u2212", "-").replaceAll("\u00a0", " ");
  return text.replace(/^([+-]?\d+),(\d{1,2}|\d{4,})(?=\D|$)/, "$1.$2");
}

const rounding = 1e-6; // of a step: so that a value on the grid does not step to itself

/**
 * The next multiple of a step, as people read it.
 * @param value_SI where it starts
 * @param step in the unit shown
 * @param sign 1: more, -1: less
 */
export function stepped(value_SI: number, quantity: Quantity, step: number, sign: 1 | -1): string {
  const { factor, unit } = shown(quantity);
  const steps = (value_SI * factor) / step;
  const next = sign > 0 ? Math.floor(steps + rounding) + 1 : Math.ceil(steps - rounding) - 1;
  const digits = Math.max(0, -Math.floor(Math.log10(step)));
  return `${(next * step).toFixed(digits)} ${unit}`;
}

/** The number that leads a value in the unit shown, in SI; null where another unit or none can be read. */
export function inSI(typed: string, quantity: Quantity): number | null {
  const { factor, unit } = shown(quantity);
  const found = /^([+-]?\d*\.?\d+)\s*(\S*)$/.exec(withPoint(typed.trim()));
  if (!found || (found[2] !== "" && found[2] !== unit)) return null;
  return Number(found[1]) / factor;
}
