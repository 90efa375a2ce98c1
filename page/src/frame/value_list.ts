// The values that are changed most: where they stand in the rig file, how they are stepped, what they are now.
import type { PlanView } from "../engine/api";
import { number, text, type Quantity } from "../words/format";
import type { Term } from "../words/terms";

export interface AskedValue {
  /** Dotted key of the rig file. */
  key: string;
  label: string;
  /** As it stands after "changing". */
  object: string;
  quantity: Quantity;
  /** In the units shown. */
  step: { metric: number; us: number };
  /** In SI; null: not given, or not one value. */
  now: (view: PlanView) => number | null;
  /** What is shown where there is no one value. */
  otherwise: (view: PlanView) => string;
  why?: Term;
}

const sameDrop = 0.5e-3; // m: what the plan leaves between loops asked for alike is far below
const sameSlack = 5e-5;

const range = (values: readonly number[]): [number, number] => [Math.min(...values), Math.max(...values)];

/** The one value of all bays; null where they differ. */
function alike(values: readonly number[], tolerance: number): number | null {
  const [least, greatest] = range(values);
  return values.length > 0 && greatest - least < tolerance ? (least + greatest) / 2 : null;
}

function spread(values: readonly number[], quantity: Quantity): string {
  const [least, greatest] = range(values);
  return `${number(least, quantity)} to ${text(greatest, quantity)}`;
}

const drops = (view: PlanView): number[] => view.document.plan.bays.map((bay) => bay.drop_m);
const slacks = (view: PlanView): number[] => view.document.plan.bays.map((bay) => bay.slack);
const none = (): string => "not given";

export const askedValues: readonly AskedValue[] = [
  {
    key: "main.tension", label: "Standing tension", object: "the standing tension", quantity: "force", why: "tension",
    step: { metric: 0.1, us: 25 }, now: (view) => view.document.plan.standing.tension_near_N, otherwise: none,
  },
  {
    key: "backup.slack", label: "Slack of every bay", object: "the slack", quantity: "share", why: "slack",
    step: { metric: 0.1, us: 0.1 }, now: (view) => alike(slacks(view), sameSlack),
    otherwise: (view) => spread(slacks(view), "share"),
  },
  {
    key: "backup.drop", label: "Drop of every bay", object: "the drop", quantity: "small length", why: "drop",
    step: { metric: 10, us: 0.5 }, now: (view) => alike(drops(view), sameDrop),
    otherwise: (view) => spread(drops(view), "small length"),
  },
  {
    key: "walker.mass", label: "Walker", object: "the walker's mass", quantity: "mass",
    step: { metric: 1, us: 1 }, now: (view) => view.picture.walker_kg, otherwise: none,
  },
  {
    key: "site.gap", label: "Gap", object: "the gap", quantity: "length",
    step: { metric: 0.5, us: 1 }, now: (view) => view.picture.gap_m, otherwise: none,
  },
  {
    key: "site.rise", label: "Rise of the far anchor", object: "the rise", quantity: "length",
    step: { metric: 0.1, us: 0.5 }, now: (view) => view.picture.rise_m, otherwise: none,
  },
  {
    key: "spacing.arm_span", label: "Arm span", object: "the arm span", quantity: "length", why: "arm span",
    step: { metric: 0.05, us: 0.1 }, now: (view) => view.picture.arm_span_m, otherwise: none,
  },
  {
    key: "wind.speed", label: "Wind from the side", object: "the wind", quantity: "speed",
    step: { metric: 1, us: 1 }, now: (view) => view.document.plan.wind?.speed_m_s ?? null, otherwise: none,
  },
];
