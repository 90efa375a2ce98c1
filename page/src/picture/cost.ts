// What a line costs that gives less of a shake back: how low its loops hang and how long its bays are.
import type { PlanView } from "../engine/api";

export interface Cost {
  drop_m: number;
  /** Longest bay, along the unloaded main. */
  longest_m: number;
}

/** Greatest of all bays. */
export function costOf(plan: PlanView): Cost {
  const { bays } = plan.document.plan;
  return {
    drop_m: Math.max(0, ...bays.map((bay) => bay.drop_m)),
    longest_m: Math.max(0, ...bays.map((bay) => bay.main_natural_m)),
  };
}
